/** The log of a film, open in a worker of its own: frames are asked of it for the eye and for files. */
import { useEffect, useMemo, useState } from "react";
import type { FilmFrame, FilmShown } from "../../../publish/index.ts";
import { correctionsOf, effectiveMarks, loadChannelOf } from "../../../study/index.ts";
import type { LogHere, Records } from "../../days/book-copy.ts";
import { readingsOf } from "../../days/log/readings.ts";
import { logOf } from "../../days/log/use-log.ts";
import { caseOf } from "../../days/pull-case.ts";
import { faultOf } from "../../work/fault.ts";
import { benchLine } from "../../work/worker.ts";
import type { FilmOpened } from "./work.ts";

export type Opened = Extract<FilmOpened, { kind: "opened" }> & {
  /** Frames of the clip by their numbers. @throws when the worker has lost the log */
  readonly frames: (shown: FilmShown, clipFrames: readonly number[]) => Promise<FilmFrame[]>;
};

export type FilmHere =
  | { readonly kind: "none" }
  | { readonly kind: "opening" }
  | { readonly kind: "refused"; readonly line: string }
  | Opened;

/** Readings, and the ± of a hundred loads in a rode with current, ms. */
const MOST = 600_000;

let numbers = 0;

/** @param log null while there is none to open */
export function useFilm(
  records: Records,
  logs: readonly LogHere[],
  log: LogHere | null,
  loadU: number | null,
  /** The book says that its data are invented. */
  invented: boolean,
): FilmHere {
  const [here, setHere] = useState<FilmHere>({ kind: "none" });
  const line = useMemo(() => benchLine(MOST), []);
  useEffect(() => () => line.end(), [line]);
  useEffect(() => {
    if (log === null) return setHere({ kind: "none" });
    const stop = new AbortController();
    const number = ++numbers;
    const open = async (): Promise<FilmHere> => {
      const pull = records.pull.find(({ id }) => id === log.pull);
      const { from_s, to_s, channels } = log.content;
      const channel = loadChannelOf(channels);
      if (pull === undefined || channel === undefined || from_s === null || to_s === null)
        return { kind: "refused", line: "the log has no load, or no pull" };
      const { marks } = await logOf(log.id, stop.signal);
      const window = { from: from_s, to: to_s };
      const readings = await readingsOf(log, logs, channel, window, stop.signal, pull.trackClock_s ?? 0);
      const { slack } = correctionsOf(effectiveMarks(marks));
      const asked = { ...readings, slack, loadU, invented, about: caseOf(records, pull) };
      const opened: FilmOpened = await line.ask((work): Promise<FilmOpened> => work.openFilm(asked, number));
      if (opened.kind === "refused") return opened;
      return {
        ...opened,
        async frames(shown, clipFrames) {
          const frames = await line.ask((work) => work.filmFrames(number, shown, clipFrames));
          if (frames === null) throw new Error("the worker has lost the log");
          return frames;
        },
      };
    };
    setHere({ kind: "opening" });
    open().then(
      (found) => {
        if (!stop.signal.aborted) setHere(found);
      },
      (error: unknown) => {
        if (!stop.signal.aborted) setHere({ kind: "refused", line: faultOf(error).line });
      },
    );
    return () => stop.abort();
  }, [records, logs, log, loadU, invented, line]);
  return here;
}
