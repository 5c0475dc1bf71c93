/**
 * Hybrid timestamps put the changes of several books in one order: milliseconds of the clock, then a counter, as text of fixed
 * length that sorts as it counts. A stamp is never at or below one already in the book, so a clock set back, or another
 * device's clock running ahead, loses no change: what was written later in one book stays later.
 * @source Kulkarni, Demirbas et al. (2014), "Logical physical clocks" (hybrid logical clocks); recalled
 */
export type HybridTimestamp = string;

const COUNTS = 100_000;
/**
 * The last moment a stamp from elsewhere may carry, ms: the end of the year 9999. A stamp beyond it would leave no room
 * for those that must come after, and no longer sort as text.
 */
export const LATEST_MS = Date.UTC(10_000, 0) - 1;
/** What a timestamp looks like: milliseconds and a counter, in an order that text keeps. */
export const TIMESTAMP = /^\d{15}\.\d{5}$/;

/** The timestamp of a moment and a count. */
export function timestampOf(ms: number, counter = 0): HybridTimestamp {
  return `${String(Math.max(0, Math.floor(ms))).padStart(15, "0")}.${String(counter).padStart(5, "0")}`;
}

/** Milliseconds since 1970 that a stamp carries. */
export function millisecondsOf(stamp: HybridTimestamp): number {
  return Number(stamp.slice(0, 15));
}

/** The stamp to write next: by the clock where it is ahead of the book, else just after the book's last stamp. */
export function nextTimestamp(last: HybridTimestamp | undefined, now_ms: number): HybridTimestamp {
  const fresh = timestampOf(now_ms);
  if (last === undefined || fresh > last) return fresh;
  const counter = Number(last.slice(16)) + 1;
  return counter < COUNTS
    ? `${last.slice(0, 16)}${String(counter).padStart(5, "0")}`
    : timestampOf(millisecondsOf(last) + 1);
}
