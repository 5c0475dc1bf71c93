/** What somebody marked on a video of the pull, laid on its log: the load then, and how far the anchor had gone. */
import { readMarkTable, readWebVtt, type TimeMark } from "../log/index.ts";
import type { Measured, TraceReduction } from "../pull/index.ts";
import { InputError } from "../quantity/index.ts";

/** A mark of a video on the log's clock. */
export interface MarkOnLog {
  /** s on the log's clock; null: a moment. */
  readonly from: number;
  readonly to: number | null;
  readonly text: string;
  /** Mean load meanwhile (of a moment, half a second to either side), N; null outside the log. */
  readonly load: number | null;
  /** How far the anchor had gone since the rode bit, m; null without a track. */
  readonly way: Measured | null;
}

/** A moment is read over so long to either side, s. */
const ABOUT = 0.5;

/**
 * @param clock the log's
 * @param start where the video's own zero lies on the log's clock, s; null where nobody said
 * @throws InputError where nothing can be read, or nothing says how the clocks lie to each other
 */
export function marksOnLog(
  text: string,
  place: string,
  reduction: TraceReduction,
  clock: string,
  start: number | null,
): MarkOnLog[] {
  const read = /^\ufeff?WEBVTT/.test(text) ? readWebVtt(text, place) : readMarkTable(text);
  if (read === null) throw new InputError(place, "no marks", "WebVTT, or a table of times and words, is expected");
  if (start === null && read.clock !== clock)
    throw new InputError(
      place,
      read.clock === "elapsed" ? "times since the video began" : `times on another clock than the log's`,
      "where its zero lies in the log is expected: --video-start, s from the first reading",
    );
  const by = start ?? 0;
  return read.marks.map((mark) => laid(mark, by, reduction));
}

function laid(mark: TimeMark, by: number, r: TraceReduction): MarkOnLog {
  const from = mark.from + by;
  const to = mark.to === null ? null : mark.to + by;
  const [begin, end] = [to === null ? from - ABOUT : from, to ?? from + ABOUT];
  let [sum, n] = [0, 0];
  for (let i = 0; i < r.series.time.length; i++) {
    const t = r.series.time[i]!;
    if (t >= begin && t <= end) [sum, n] = [sum + r.series.load[i]!, n + 1];
  }
  const bite = r.set.kind === "measured" ? r.set.from : null;
  const moved = bite === null || !(from > bite) ? null : (r.path?.moved({ from: bite, to: from }) ?? null);
  return {
    from,
    to,
    text: mark.text,
    load: n > 0 ? sum / n : null,
    way: moved && { value: moved.value, u: moved.u },
  };
}
