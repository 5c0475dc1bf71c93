import { quantileInPlace, scaleAboutZero } from "./order.ts";
import type { Readings } from "./trace.ts";

/**
 * Lone readings that stand far from what was read just before and just after, both times to the same side.
 * "Just" is a time, not a number of readings, so that a faster log of the same load finds the same ones.
 */
export interface Spikes {
  /** 1 where a reading belongs to a spike. */
  readonly leftOut: Uint8Array;
  /** Index of the tip of each. */
  readonly tips: readonly number[];
  /** Standard deviation of one reading about the straight line between its neighbours, N. */
  readonly noise: number;
  /** Time to the neighbours compared with, s. */
  readonly reach: number;
}

/**
 * @param reach s; one usual interval when that is longer
 * @param times a spike stands this many times the noise from both neighbours
 */
export function spikes(readings: Readings, reach: number, times: number): Spikes {
  const { time, value, longestGap } = readings;
  const n = time.length;
  const h = Math.max(reach, readings.interval);
  // The neighbours at exactly that distance are good readings; stamps are rounded.
  const within = 0.999 * h;
  const beside = 1.001 * h;
  const curve: number[] = [];
  const stride = Math.max(1, Math.floor(n / 60_000));
  let a = 0;
  let b = 0;
  for (let i = 0; i < n; i += stride) {
    const off = offAt(i);
    if (off !== null) curve.push((off.up + off.down) / 2);
  }
  // A coarse display hides the noise: some part of the range stands for it.
  const noise = Math.max(blockScale(Float64Array.from(curve)), LEAST_NOISE * spread(value, stride));
  const leftOut = new Uint8Array(n);
  const tips: number[] = [];
  const limit = times * noise;
  for (let i = 0; i < n; i++) {
    if (!(standAt(i) > limit && limit > 0 && isAlone(i))) continue;
    let [tip, most] = [i, standAt(i)];
    for (let j = i; j < n && time[j]! < time[i]! + beside; j++) {
      const one = standAt(j);
      if (one > most) [tip, most] = [j, one];
    }
    tips.push(tip);
    for (let k = tip; k >= 0 && time[k]! > time[tip]! - within; k--) leftOut[k] = 1;
    let k = tip;
    for (; k < n && time[k]! < time[tip]! + within; k++) leftOut[k] = 1;
    // Compared with the tip, what stands beside it seems to stand out too.
    while (k < n && time[k]! < time[tip]! + beside) k++;
    i = Math.max(i, k - 1);
  }
  return { leftOut, tips, noise, reach: h };

  /** A tip that the load rises to and falls from at the same pace further out is the tip of a peak. */
  function isAlone(i: number): boolean {
    const t = time[i]!;
    const out = Math.max(Math.abs(near(i, t - h) - near(i, t - 2 * h)), Math.abs(near(i, t + h) - near(i, t + 2 * h)));
    return standAt(i) > ALONE * out;
  }

  /** How far reading `i` stands off what was read just before and just after; null at an end or a gap. Asked for in order. */
  function offAt(i: number): { up: number; down: number } | null {
    const t = time[i]!;
    while (a > 0 && time[a]! > t - h) a--;
    while (a < i && time[a + 1]! <= t - h) a++;
    while (b > 0 && time[b - 1]! >= t + h) b--;
    while (b < n - 1 && time[b]! < t + h) b++;
    if (time[a]! > t - h || time[b]! < t + h || time[b]! - time[a]! > longestGap + 2 * h) return null;
    return { up: value[i]! - at(a, t - h), down: value[i]! - at(b - 1, t + h) };
  }

  /** The lesser of the two where both are to the same side, and else nothing. */
  function standAt(i: number): number {
    const off = offAt(i);
    return off !== null && off.up * off.down > 0 ? Math.min(Math.abs(off.up), Math.abs(off.down)) : 0;
  }

  /** Value at a time not far from reading `i`, on the straight-line curve. */
  function near(i: number, t: number): number {
    let k = Math.min(i, n - 2);
    while (k > 0 && time[k]! > t) k--;
    while (k < n - 2 && time[k + 1]! < t) k++;
    return at(k, Math.max(time[0]!, Math.min(time[n - 1]!, t)));
  }

  function at(i: number, t: number): number {
    const t0 = time[i]!;
    const t1 = time[i + 1]!;
    return t1 > t0 ? value[i]! + ((value[i + 1]! - value[i]!) * (t - t0)) / (t1 - t0) : value[i]!;
  }
}

/** A spike stands this many times further out than the load changes just outside it. */
const ALONE = 3;

/** Least noise believed, as a share of the range of the readings. */
const LEAST_NOISE = 1e-4;

/** Range of the readings, a thousandth left out at either end. */
function spread(value: Float64Array, stride: number): number {
  const some = new Float64Array(Math.ceil(value.length / stride));
  for (let k = 0; k < some.length; k++) some[k] = value[k * stride]!;
  return quantileInPlace(some, 0.999) - quantileInPlace(some, 0.001);
}

/** Noise is larger under load than when slack: the scale of the noisier blocks (nine tenths are quieter). */
function blockScale(curve: Float64Array): number {
  if (curve.length === 0) return 0;
  const blocks = Math.max(1, Math.min(60, Math.floor(curve.length / 40)));
  const scales = new Float64Array(blocks);
  const size = curve.length / blocks;
  for (let j = 0; j < blocks; j++)
    scales[j] = scaleAboutZero(curve.slice(Math.floor(j * size), Math.floor((j + 1) * size)));
  // The mean of two readings' noise rides on the third's: √(1 + 1/2).
  return quantileInPlace(scales, 0.9) / Math.sqrt(1.5);
}

/**
 * Bridges the spikes by straight lines between what stands beside them, in the readings themselves: a long log is not copied.
 * @returns puts back what was read
 */
export function bridge(time: Float64Array, value: Float64Array, leftOut: Uint8Array): () => void {
  const read: [at: number, value: number][] = [];
  const n = value.length;
  for (let i = leftOut.indexOf(1); i >= 0; i = leftOut.indexOf(1, i)) {
    let b = i;
    while (b < n && leftOut[b] === 1) b++;
    const a = i - 1;
    for (let k = i; k < b; k++) {
      read.push([k, value[k]!]);
      if (a < 0) value[k] = value[Math.min(b, n - 1)]!;
      else if (b >= n) value[k] = value[a]!;
      else value[k] = value[a]! + ((value[b]! - value[a]!) * (time[k]! - time[a]!)) / (time[b]! - time[a]!);
    }
    i = b;
  }
  return () => {
    for (const [at, one] of read) value[at] = one;
  };
}
