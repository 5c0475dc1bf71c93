import { useEffect, useRef, useState } from "react";
import {
  type Cut,
  type FilmFrame,
  type FilmShown,
  frameOfStamp,
  nanosecondsOf,
  secondsText,
} from "../../../publish/index.ts";
import { Button } from "../../controls/button.tsx";
import { faultOf } from "../../work/fault.ts";
import placeStyles from "../place.module.css";
import { changeFilm } from "./change.ts";
import styles from "./film.module.css";
import type { Clip } from "./use-clip.ts";
import type { Opened } from "./use-film.ts";

/** The overlay over the clip, in time with it while it plays; without a clip, frame by frame. */
export function Preview({
  film,
  shown,
  whole,
  cuts,
  clip,
}: {
  readonly film: Opened;
  readonly shown: FilmShown;
  readonly whole: Cut;
  /** Null while what was typed is none. */
  readonly cuts: readonly Cut[] | null;
  readonly clip: Clip;
}) {
  const { rate } = shown.sync;
  const { width, height } = shown.place;
  const video = useRef<HTMLVideoElement>(null);
  const [frame, setFrame] = useState(0);
  const [plays, setPlays] = useState(false);
  const at = Math.min(frame, whole.to - 1);
  const { drawn, wrong } = useFrame(film, shown, at);

  useFramesOf(video, clip.address, (seconds) => setFrame(Math.max(0, frameOfStamp(seconds, rate))));

  const go = (to: number): void => {
    const next = Math.max(0, Math.min(whole.to - 1, to));
    const element = video.current;
    // The middle of the frame: its own stamp may be rounded to before it.
    if (element !== null) {
      element.pause();
      element.currentTime = Number(nanosecondsOf(2 * next + 1, { ...rate, frames: 2n * rate.frames })) / 1e9;
    }
    setFrame(next);
  };
  const inFilm = cuts === null || cuts.some(({ from, to }) => at >= from && at < to);
  const seconds = secondsText(nanosecondsOf(at, rate)).slice(0, -6);
  return (
    <div className={styles.preview}>
      <div
        className={styles.stage}
        style={{ aspectRatio: `${width} / ${height}` }}
        data-tall={height > width || undefined}
      >
        {clip.address !== null && (
          // biome-ignore lint/a11y/useMediaCaption: the tester's own clip, as the camera has it
          <video
            ref={video}
            src={clip.address}
            aria-label="The clip"
            playsInline
            preload="auto"
            onLoadedMetadata={(event) => clip.known(event.currentTarget.duration)}
            onDurationChange={(event) => clip.known(event.currentTarget.duration)}
            onError={clip.refused}
            onPlay={() => setPlays(true)}
            onPause={() => setPlays(false)}
          />
        )}
        {drawn !== null && (
          <div
            className={styles.over}
            data-frame={drawn.of}
            data-away={!inFilm || undefined}
            role="img"
            aria-label={`Overlay of frame ${drawn.of}`}
            // biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/publish, which escapes every text
            dangerouslySetInnerHTML={{ __html: drawn.frame.svg }}
          />
        )}
      </div>
      <div className={styles.player}>
        {clip.address !== null && (
          <Button
            onClick={() => {
              const element = video.current;
              if (element === null) return;
              if (element.paused) void element.play().catch(() => undefined);
              else element.pause();
            }}
          >
            {plays ? "Pause" : "Play"}
          </Button>
        )}
        <Button aria-label="One frame back" onClick={() => go(at - 1)}>
          ‹
        </Button>
        <input
          type="range"
          aria-label="Frame shown"
          aria-valuetext={`frame ${at}, ${seconds} s`}
          min={0}
          max={Math.max(1, whole.to - 1)}
          step={1}
          value={at}
          onChange={(event) => go(Number(event.target.value))}
        />
        <Button aria-label="One frame on" onClick={() => go(at + 1)}>
          ›
        </Button>
        <Button onClick={() => changeFilm({ markFrame: at }, "mark")}>The mark is in this frame</Button>
      </div>
      <p className={styles.told}>
        frame {at} of {whole.to}, {seconds} s of the clip
        {drawn !== null && drawn.of === at && `, ${secondsText(drawn.frame.ns).slice(0, -6)} s of the log`}
        {!inFilm && "; not in the film"}
      </p>
      {wrong !== null && (
        <p className={placeStyles.wrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}

/** The overlay of a frame: the newest asked for, one at a time; those overtaken are never asked. */
function useFrame(film: Opened, shown: FilmShown, at: number) {
  const [drawn, setDrawn] = useState<{ readonly of: number; readonly frame: FilmFrame } | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const asked = useRef<{ film: Opened; shown: FilmShown; at: number } | null>(null);
  const busy = useRef(false);
  useEffect(() => {
    asked.current = { film, shown, at };
    if (busy.current) return;
    busy.current = true;
    void (async () => {
      while (asked.current !== null) {
        const now = asked.current;
        asked.current = null;
        try {
          const [frame] = await now.film.frames(now.shown, [now.at]);
          setDrawn({ of: now.at, frame: frame! });
          setWrong(null);
        } catch (error) {
          setWrong(faultOf(error).line);
        }
      }
      busy.current = false;
    })();
  }, [film, shown, at]);
  return { drawn, wrong };
}

/** Tells of each frame that a video shows, by the frame's own stamp where the browser knows it. */
function useFramesOf(
  video: { readonly current: HTMLVideoElement | null },
  address: string | null,
  tell: (seconds: number) => void,
): void {
  const latest = useRef(tell);
  latest.current = tell;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another clip is another video
  useEffect(() => {
    const element = video.current;
    if (element === null) return;
    let asked = 0;
    if (typeof element.requestVideoFrameCallback === "function") {
      const look = (_: number, { mediaTime }: { mediaTime: number }): void => {
        latest.current(mediaTime);
        asked = element.requestVideoFrameCallback(look);
      };
      asked = element.requestVideoFrameCallback(look);
      return () => element.cancelVideoFrameCallback(asked);
    }
    const look = (): void => {
      latest.current(element.currentTime);
      asked = requestAnimationFrame(look);
    };
    asked = requestAnimationFrame(look);
    return () => cancelAnimationFrame(asked);
  }, [address]);
}
