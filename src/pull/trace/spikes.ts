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
  const h = Math.max(reach, 1.0001 * readings.interval);
  const stand = new Float64Array(n);
  const curve: number[] = [];
  const stride = Math.max(1, Math.floor(n / 60_000));
  let a = 0;
  let b = 0;
  for (let i = 0; i < n; i++) {
    const t = time[i]!;
    while (a < i && time[a + 1]! <= t - h) a++;
    while (b < n - 1 && time[b]! < t + h) b++;
    if (time[a]! > t - h || time[b]! < t + h || time[b]! - time[a]! > longestGap + 2 * h) continue;
    const left = at(a, t - h);
    const right = at(b - 1, t + h);
    const up = value[i]! - left;
    const down = value[i]! - right;
    if (up * down > 0) stand[i] = Math.min(Math.abs(up), Math.abs(down));
    if (i % stride === 0) curve.push((up + down) / 2);
  }
  const noise = blockScale(Float64Array.from(curve));
  const leftOut = new Uint8Array(n);
  const tips: number[] = [];
  const limit = times * noise;
  for (let i = 0; i < n; i++) {
    if (!(stand[i]! > limit && limit > 0)) continue;
    let tip = i;
    let j = i;
    for (; j < n && time[j]! < time[i]! + h; j++) if (stand[j]! > stand[tip]!) tip = j;
    tips.push(tip);
    for (let k = tip; k >= 0 && time[k]! > time[tip]! - h; k--) leftOut[k] = 1;
    let k = tip;
    for (; k < n && time[k]! < time[tip]! + h; k++) leftOut[k] = 1;
    i = Math.max(i, k - 1);
  }
  return { leftOut, tips, noise, reach: h };

  function at(i: number, t: number): number {
    const t0 = time[i]!;
    const t1 = time[i + 1]!;
    return t1 > t0 ? value[i]! + ((value[i + 1]! - value[i]!) * (t - t0)) / (t1 - t0) : value[i]!;
  }
}

/** Noise is larger under load than when slack: the scale of the noisier blocks (nine tenths are quieter). */
function blockScale(curve: Float64Array): number {
  const blocks = Math.max(1, Math.min(60, Math.floor(curve.length / 40)));
  const scales = new Float64Array(blocks);
  const size = curve.length / blocks;
  for (let j = 0; j < blocks; j++)
    scales[j] = scaleAboutZero(curve.slice(Math.floor(j * size), Math.floor((j + 1) * size)));
  // The mean of two readings' noise rides on the third's: √(1 + 1/2).
  return quantileInPlace(scales, 0.9) / Math.sqrt(1.5);
}
