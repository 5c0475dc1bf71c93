import { turns } from "../../statistics/index.ts";
import { markId } from "./plateaus.ts";
import type { Readings } from "./trace.ts";

/** A highest reading between two lower stretches. */
export interface Peak {
  readonly id: string;
  /** s */
  readonly at: number;
  /** The highest reading itself, zero taken off, N, and the standard uncertainty of one reading. */
  readonly load: { readonly value: number; readonly u: number };
  /** The filtered load at that time, N. */
  readonly filtered: number;
  /** How far the load fell on the side where it fell less, N. */
  readonly prominence: number;
  /** True when it rests on a reading that stands alone, in a log too slow to tell a glitch from a short peak. */
  readonly alone: boolean;
  /** Stretch around the peak above each share of it. */
  readonly above: readonly {
    readonly share: number;
    readonly from: number;
    readonly to: number;
    readonly seconds: number;
  }[];
}

/**
 * Peaks of the readings themselves that rise by at least `prominence` from both sides.
 * @param load zero taken off, spikes bridged, N, one for each reading
 * @param hush dips smaller than this do not end the time above a share, N
 */
export function findPeaks(
  readings: Readings,
  load: Float64Array,
  options: {
    filteredAt: (i: number) => number;
    prominence: number;
    most: number;
    shares: readonly number[];
    hush: number;
    uOf: (i: number) => number;
    alone: (i: number) => boolean;
  },
): { peaks: Peak[]; count: number } {
  const found: { i: number; prominence: number }[] = [];
  const t = turns(load, options.prominence);
  for (let j = 0; j < t.length; j++) {
    const i = t[j]!;
    const left = j > 0 ? load[i]! - load[t[j - 1]!]! : load[i]! - lowest(load, 0, i);
    const right = j + 1 < t.length ? load[i]! - load[t[j + 1]!]! : load[i]! - lowest(load, i, load.length);
    const prominence = Math.min(left, right);
    if (prominence >= options.prominence && load[i]! > 0) found.push({ i, prominence });
  }
  const count = found.length;
  found.sort((a, b) => load[b.i]! - load[a.i]! || a.i - b.i);
  const peaks = found.slice(0, options.most).map(({ i, prominence }) => ({
    id: markId("peak", readings.time[i]!),
    at: readings.time[i]!,
    load: { value: load[i]!, u: options.uOf(i) },
    filtered: options.filteredAt(i),
    prominence,
    alone: options.alone(i),
    above: options.shares.map((share) => ({ share, ...timeAround(readings, load, i, share * load[i]!, options.hush) })),
  }));
  return { peaks, count };
}

function lowest(load: Float64Array, from: number, to: number): number {
  let low = Number.POSITIVE_INFINITY;
  for (let i = from; i < to; i++) if (load[i]! < low) low = load[i]!;
  return low;
}

/** Stretch around reading `i` in which the load stays above a level, dips of no more than `hush` forgiven. */
function timeAround(
  readings: Readings,
  load: Float64Array,
  i: number,
  level: number,
  hush: number,
): { from: number; to: number; seconds: number } {
  const { time, longestGap } = readings;
  const end = (step: 1 | -1): number => {
    let crossing = time[i]!;
    let j = i;
    for (;;) {
      const k = j + step;
      if (k < 0 || k >= load.length || Math.abs(time[k]! - time[j]!) > longestGap)
        return load[j]! >= level ? time[j]! : crossing;
      if (load[j]! >= level && load[k]! < level)
        crossing = time[j]! + ((time[k]! - time[j]!) * (load[j]! - level)) / (load[j]! - load[k]!);
      if (load[k]! < level - hush) return crossing;
      j = k;
    }
  };
  const from = end(-1);
  const to = end(1);
  return { from, to, seconds: to - from };
}

/** How often and how long the load was above a level. */
export interface Above {
  /** N */
  readonly level: number;
  /** Times it rose through the level, having been below it by more than the dead band. */
  readonly upcrossings: number;
  /** s */
  readonly seconds: number;
}

/** @param deadBand N: the load must fall this far below the level before the next rise counts */
export function timeAbove(
  readings: Readings,
  load: Float64Array,
  levels: readonly number[],
  deadBand: number,
): Above[] {
  const { time, longestGap } = readings;
  return levels.map((level) => {
    let upcrossings = 0;
    let seconds = 0;
    let armed = load[0]! < level;
    for (let i = 1; i < load.length; i++) {
      const a = load[i - 1]! - level;
      const b = load[i]! - level;
      const dt = time[i]! - time[i - 1]!;
      if (dt <= longestGap) {
        if (a >= 0 && b >= 0) seconds += dt;
        else if (a >= 0) seconds += (dt * a) / (a - b);
        else if (b >= 0) seconds += (dt * b) / (b - a);
      }
      if (b < -deadBand) armed = true;
      if (armed && b >= 0) {
        upcrossings++;
        armed = false;
      }
    }
    return { level, upcrossings, seconds };
  });
}
