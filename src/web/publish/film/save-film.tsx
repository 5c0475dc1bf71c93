import { useEffect, useRef, useState } from "react";
import {
  type Cut,
  type FilmShown,
  type FrameRate,
  nanosecondsOf,
  rateText,
  secondsText,
} from "../../../publish/index.ts";
import { announce } from "../../controls/announce.ts";
import { Button } from "../../controls/button.tsx";
import { fileName, saveFile } from "../../controls/save-file.ts";
import { faultOf } from "../../work/fault.ts";
import placeStyles from "../place.module.css";
import { framesOf } from "./frames-of.ts";
import { MOST_PICTURES } from "./most-pictures.ts";
import type { Opened } from "./use-film.ts";

type Working = { readonly kind: "clip" | "pictures"; readonly done: number } | null;

/** The film as files: a clip with alpha where this browser writes one, and transparent pictures. */
export function SaveFilm({
  film,
  shown,
  cuts,
  count,
  name,
}: {
  readonly film: Opened;
  readonly shown: FilmShown;
  readonly cuts: readonly Cut[];
  readonly count: number;
  readonly name: string;
}) {
  const [working, setWorking] = useState<Working>(null);
  const [said, setSaid] = useState<{ readonly line: string; readonly wrong: boolean } | null>(null);
  const stop = useRef<AbortController | null>(null);
  useEffect(() => () => stop.current?.abort(), []);
  const { width, height } = shown.place;
  const { rate } = shown.sync;
  const writes = useWritesClip(width, height, rate);

  const save = async (kind: "clip" | "pictures"): Promise<void> => {
    const mine = new AbortController();
    stop.current = mine;
    setSaid(null);
    setWorking({ kind, done: 0 });
    const told = (done: number): void => setWorking({ kind, done });
    try {
      const frames = framesOf(film, shown, cuts, mine.signal);
      const size = { width, height };
      const blob =
        kind === "clip"
          ? await (await import("./clip.ts")).clipWithAlpha(frames, size, rate, mine.signal, told)
          : await (await import("./pictures.ts")).picturesOf(frames, size, shown.sync, mine.signal, told);
      if (blob === null) {
        setSaid({ line: "Stopped: nothing is saved.", wrong: false });
        return;
      }
      const file = `${fileName(name) || "pull"}-overlay.${kind === "clip" ? "webm" : "zip"}`;
      saveFile(blob, blob.type, file);
      const line = `${file}: ${count} frames, ${width} × ${height}, ${rateText(rate)} a second, ${(blob.size / 1e6).toFixed(1)} MB`;
      setSaid({ line, wrong: false });
      announce(line);
    } catch (error) {
      if (!mine.signal.aborted) setSaid({ line: `It could not be made: ${faultOf(error).line}`, wrong: true });
    } finally {
      setWorking(null);
    }
  };
  const many = count > MOST_PICTURES;
  return (
    <>
      <div className={placeStyles.buttons}>
        {working === null ? (
          <>
            {writes === true && (
              <Button look="strong" onClick={() => void save("clip")}>
                Save a clip with alpha
              </Button>
            )}
            <Button disabled={many} onClick={() => void save("pictures")}>
              Save transparent pictures
            </Button>
          </>
        ) : (
          <>
            <progress value={working.done} max={count} aria-label="frames made" />
            <span className={placeStyles.quiet}>
              {working.done} of {count}
            </span>
            <Button onClick={() => stop.current?.abort()}>Stop</Button>
          </>
        )}
        <span className={placeStyles.quiet}>
          {count} {count === 1 ? "frame" : "frames"}, {secondsText(nanosecondsOf(count, rate)).slice(0, -6)} s
        </span>
      </div>
      {said !== null && (
        <p className={said.wrong ? placeStyles.wrong : placeStyles.quiet} role={said.wrong ? "alert" : "status"}>
          {said.line}
        </p>
      )}
      {many && (
        <p className={placeStyles.quiet}>
          More than {MOST_PICTURES} pictures are more than one archive should hold: state stretches, or let the command
          write them.
        </p>
      )}
      <p className={placeStyles.quiet}>
        {writes === false
          ? "This browser does not encode VP9, the codec of clips with alpha that it could write; it writes transparent pictures, numbered, with the time of each: a film program reads them as one sequence. "
          : "The clip is VP9 in WebM, transparent where nothing stands. The pictures are numbered, with the time of each in a table: a film program that does not read such clips reads them as one sequence. "}
        Letters are those of this device.
      </p>
    </>
  );
}

/** Null while it is not known. */
function useWritesClip(width: number, height: number, rate: FrameRate): boolean | null {
  const [writes, setWrites] = useState<boolean | null>(null);
  useEffect(() => {
    let over = false;
    void (async () => {
      const { canWriteClip } = await import("./clip.ts");
      const can = await canWriteClip({ width, height }, rate);
      if (!over) setWrites(can);
    })();
    return () => {
      over = true;
    };
  }, [width, height, rate]);
  return writes;
}
