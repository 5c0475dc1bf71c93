import type { Readings } from "./trace.ts";

/**
 * A trace as means over even grains of time. Each mean is the exact integral of the straight-line curve through the
 * readings, so that reading the same curve more often changes nothing.
 */
export interface Even {
  /** Start of the first grain, s. */
  readonly start: number;
  /** s */
  readonly grain: number;
  /** NaN where the log has a gap. */
  readonly value: Float64Array;
}

/**
 * @param grain s
 * @param leftOut 1 where a reading is bridged by its neighbours
 */
export function evenly(readings: Readings, grain: number, start: number, end: number, leftOut?: Uint8Array): Even {
  const { time, value, longestGap } = readings;
  const count = Math.max(1, Math.ceil((end - start) / grain - 1e-9));
  const area = new Float64Array(count);
  const covered = new Float64Array(count);
  let last = -1;
  for (let i = 0; i < time.length; i++) {
    if (leftOut?.[i] === 1) continue;
    if (last >= 0) {
      const t0 = time[last]!;
      const t1 = time[i]!;
      if (t1 - t0 <= longestGap && t1 > start && t0 < end) spread(t0, value[last]!, t1, value[i]!);
    }
    last = i;
  }
  for (let k = 0; k < count; k++) {
    const width = Math.min(grain, end - (start + k * grain));
    area[k] = covered[k]! >= 0.5 * width ? area[k]! / covered[k]! : Number.NaN;
  }
  return { start, grain, value: area };

  function spread(t0: number, v0: number, t1: number, v1: number): void {
    const slope = (v1 - v0) / (t1 - t0);
    let a = Math.max(t0, start);
    const stop = Math.min(t1, end);
    let k = Math.floor((a - start) / grain);
    while (a < stop && k < count) {
      const edge = start + (k + 1) * grain;
      const b = Math.min(stop, edge);
      const dt = b - a;
      if (dt > 0) {
        area[k]! += dt * (v0 + slope * (0.5 * (a + b) - t0));
        covered[k]! += dt;
      }
      a = b;
      k++;
    }
  }
}

/** Runs of grains without a gap, as [first, past the last). */
export function unbroken(value: Float64Array): [number, number][] {
  const runs: [number, number][] = [];
  let first = -1;
  for (let k = 0; k <= value.length; k++) {
    const there = k < value.length && !Number.isNaN(value[k]!);
    if (there && first < 0) first = k;
    if (!there && first >= 0) {
      runs.push([first, k]);
      first = -1;
    }
  }
  return runs;
}

/** Running sums, gaps counting nothing, so that any mean over grains costs two subtractions. */
export interface Sums {
  readonly value: Float64Array;
  readonly count: Int32Array;
}

export function sums(value: Float64Array): Sums {
  const total = new Float64Array(value.length + 1);
  const count = new Int32Array(value.length + 1);
  for (let k = 0; k < value.length; k++) {
    const there = !Number.isNaN(value[k]!);
    total[k + 1] = total[k]! + (there ? value[k]! : 0);
    count[k + 1] = count[k]! + (there ? 1 : 0);
  }
  return { value: total, count };
}

/** Mean over grains [from, to), NaN when fewer than half of them were read. */
export function meanOver(s: Sums, from: number, to: number): number {
  const a = Math.max(0, from);
  const b = Math.min(s.count.length - 1, to);
  const n = b > a ? s.count[b]! - s.count[a]! : 0;
  return 2 * n >= to - from && n > 0 ? (s.value[b]! - s.value[a]!) / n : Number.NaN;
}
