/** The wind over a ride: its speed and the direction it blows to, as functions of time. SI and radians. */
import { type WindSpectrum, windVariance } from "../sea/index.ts";
import type { Rng } from "../statistics/index.ts";
import { logBands, type RandomRecord, randomRecord } from "./random-record.ts";

/** Mean wind and direction from a time on, straight in between: squalls and veers. */
export interface WindTurn {
  /** s from the start of what is counted */
  readonly time: number;
  /** Mean wind there, m/s at 10 m. */
  readonly speed: number;
  /** Direction it blows to, rad from the x axis, counter-clockwise. */
  readonly toward: number;
}

export interface WindInTime {
  /** In order of time; the first holds before, the last after. */
  readonly turns: readonly WindTurn[];
  /** Unrest about the mean, scaled with it; null: steady. */
  readonly gusts: { readonly record: RandomRecord; readonly mean: number } | null;
  /** Shortest gust that is felt whole, s: quicker ones pass parts of the boat only and are left out. */
  readonly shortest: number;
}

/** Frequencies of gusts kept: from one in an hour to one as long as takes the wind past the boat. */
const SLOWEST = 1 / 3600;
const BANDS = 160;

/** A wind with gusts by a spectrum about its mean. @param length of the boat, m */
export function windInTime(
  turns: readonly WindTurn[],
  spectrum: WindSpectrum | null,
  length: number,
  random: Rng,
): WindInTime {
  const mean = turns[0]!.speed;
  const shortest = mean > 0 ? Math.max(1, (2 * length) / mean) : 1;
  if (spectrum === null || mean === 0) return { turns, gusts: null, shortest };
  const record = randomRecord(
    logBands(SLOWEST, 1 / shortest, BANDS),
    (from, to) => windVariance(spectrum, from, to),
    random,
  );
  return { turns, gusts: { record, mean }, shortest };
}

/** Speed, m/s, and direction, rad, at a time into `out`. */
export function windAtTime(wind: WindInTime, time: Float64Array, out: Float64Array): void {
  const t = time[0]!;
  const { turns, gusts } = wind;
  // A measured wind has thousands of turns: halved down to.
  let k = 0;
  let beyond = turns.length;
  while (beyond - k > 1) {
    const middle = (k + beyond) >> 1;
    if (turns[middle]!.time <= t) k = middle;
    else beyond = middle;
  }
  const a = turns[k]!;
  const b = turns[Math.min(k + 1, turns.length - 1)]!;
  const share = b.time > a.time ? Math.min(1, Math.max(0, (t - a.time) / (b.time - a.time))) : 0;
  const mean = a.speed + share * (b.speed - a.speed);
  let speed = mean;
  if (gusts !== null) {
    const { omega, amplitude, phase, count } = gusts.record;
    let sum = 0;
    for (let j = 0; j < count; j++) sum += amplitude[j]! * Math.cos(omega[j]! * t + phase[j]!);
    speed = Math.max(0, mean + (sum * mean) / gusts.mean);
  }
  out[0] = speed;
  out[1] = a.toward + share * (b.toward - a.toward);
}
