import { InputError } from "../../quantity/index.ts";
import { median } from "./order.ts";

/**
 * The trace of a pull: load over time, and what was logged beside it.
 * SI and radians. Time runs from any origin; east and north are metres in a plane near the anchor;
 * headings are clockwise from north.
 */
export interface Trace {
  /** s, never falling. */
  readonly time: Float64Array;
  /** N as read; NaN where nothing was read. */
  readonly load: Float64Array;
  /** Where the boat was, on its own clock ticks. */
  readonly track?: Track;
  /** Where the boat pointed, on its own clock ticks. */
  readonly heading?: Headings;
}

/** Where the boat was over time, m east and north of the first fix. */
export interface Track {
  /** Degrees of the place the plane touches the ellipsoid at, where it is known. */
  readonly origin?: { readonly latitude: number; readonly longitude: number };
  readonly time: Float64Array;
  readonly east: Float64Array;
  readonly north: Float64Array;
}

/** Headings over time, rad. */
export interface Headings {
  readonly time: Float64Array;
  readonly angle: Float64Array;
}

/** A stretch of time, s, on the trace's clock. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A value and its standard uncertainty. */
export interface Measured {
  readonly value: number;
  readonly u: number;
}

/** Readings made fit to work on: only finite ones, each with a stamp of its own, cut where the log has gaps. */
export interface Readings {
  readonly time: Float64Array;
  readonly value: Float64Array;
  /** Usual time between readings, s. */
  readonly interval: number;
  /** A longer silence than this is a gap, s. */
  readonly longestGap: number;
  readonly gaps: readonly Span[];
  /** How many readings were left out as not finite. */
  readonly dropped: number;
}

/**
 * Checks the readings of one channel and makes them fit to work on. Rows that share one stamp (a clock that shows
 * whole seconds) are spread evenly up to the next stamp.
 *
 * @param longestGap s; for a slow log four usual intervals when those are longer
 * @throws InputError when lengths differ, fewer than two readings remain, or time runs backward
 */
export function readings(time: Float64Array, value: Float64Array, longestGap: number, place: string): Readings {
  if (time.length !== value.length)
    throw new InputError(
      place,
      `${time.length} times and ${value.length} values`,
      "as many values as times are expected",
    );
  const { stamps, kept } = finiteOnes(time, value, place);
  const n = stamps.length;
  if (n < 2 || stamps[n - 1]! - stamps[0]! < SAME_MOMENT)
    throw new InputError(
      place,
      n === 1 ? "1 reading" : `${n} readings`,
      "at least two readings at different times are expected",
    );
  const own = spreadStamps(stamps, longestGap);
  const interval = usualInterval(own);
  const limit = Math.max(longestGap, 4 * interval);
  const gaps: Span[] = [];
  for (let i = 1; i < n; i++) if (own[i]! - own[i - 1]! > limit) gaps.push({ from: own[i - 1]!, to: own[i]! });
  return { time: own, value: kept, interval, longestGap: limit, gaps, dropped: time.length - n };
}

/** The finite readings in order; the columns themselves where all are, since a copy of a long log is much of the memory. */
function finiteOnes(
  time: Float64Array,
  value: Float64Array,
  place: string,
): { stamps: Float64Array; kept: Float64Array } {
  let [n, last] = [0, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < time.length; i++) {
    const t = time[i]!;
    if (!(Number.isFinite(t) && Number.isFinite(value[i]!))) continue;
    if (t < last)
      throw new InputError(
        `${place}.time[${i}]`,
        `${t} s after ${last} s`,
        "a time not before the one above is expected",
      );
    last = t;
    n++;
  }
  if (n === time.length) return { stamps: time, kept: value };
  const stamps = new Float64Array(n);
  const kept = new Float64Array(n);
  for (let i = 0, k = 0; i < time.length; i++)
    if (Number.isFinite(time[i]!) && Number.isFinite(value[i]!)) {
      stamps[k] = time[i]!;
      kept[k++] = value[i]!;
    }
  return { stamps, kept };
}

/** Stamps nearer than this are one stamp, s: no log tells less. */
const SAME_MOMENT = 1e-6;

/** Median time between readings, from at most some 20 000 of them spread over the whole log. */
function usualInterval(time: Float64Array): number {
  const step = Math.max(1, Math.floor((time.length - 1) / 20_000));
  const steps = new Float64Array(Math.floor((time.length - 1) / step));
  for (let k = 0; k < steps.length; k++) steps[k] = time[k * step + 1]! - time[k * step]!;
  return median(steps);
}

/** Rows that share a stamp, spread up to the next one; the stamps themselves where none do. */
function spreadStamps(stamps: Float64Array, longestGap: number): Float64Array {
  const n = stamps.length;
  let out = stamps;
  let spacing = 0;
  for (let i = 0; i < n; ) {
    let j = i + 1;
    while (j < n && stamps[j]! - stamps[i]! < SAME_MOMENT) j++;
    const rows = j - i;
    const room = j < n ? stamps[j]! - stamps[i]! : Number.POSITIVE_INFINITY;
    if (rows > 1) {
      // Before a gap or at the end nothing says how far the rows reach: the spacing met before is kept, if it fits.
      const each =
        room <= Math.max(longestGap, 4 * spacing)
          ? room / rows
          : Math.min(spacing > 0 ? spacing : longestGap / rows, room / rows);
      if (out === stamps) out = stamps.slice();
      for (let k = 1; k < rows; k++) out[i + k] = stamps[i]! + k * each;
      spacing = each;
    } else if (Number.isFinite(room)) spacing = room;
    i = j;
  }
  return out;
}

/**
 * One step of the display the readings came from: the smallest difference between any two of them (at most some
 * 20 000 are looked at); nearly nothing when they vary freely, and 0 when they are all alike.
 */
export function displayStep(value: Float64Array): number {
  const stride = Math.max(1, Math.floor(value.length / 20_000));
  const some = Float64Array.from({ length: Math.ceil(value.length / stride) }, (_, k) => value[k * stride]!).sort();
  const range = some.at(-1)! - some[0]!;
  let step = range;
  for (let k = 1; k < some.length; k++) {
    const d = some[k]! - some[k - 1]!;
    // Sums in a converted unit round: nearer than this is the same reading.
    if (d > 1e-9 * range && d < step) step = d;
  }
  return step;
}
