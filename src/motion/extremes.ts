/**
 * Largest loads to be expected, from the peaks of a record: peaks over a threshold and the generalised Pareto law,
 *     P(peak > u + y | peak > u) = (1 − k y/a)^(1/k)      (k = 0: exp(−y/a)),
 * k and a by probability-weighted moments: with b₀ the mean of the excesses and b₁ the mean of excess × share above it,
 *     k = b₀/(b₀ − 2 b₁) − 2      a = 2 b₀ b₁/(b₀ − 2 b₁).
 * @source Pickands (1975), Ann. Stat. 3, 119; Hosking & Wallis (1987), Technometrics 29, 339 (both recalled)
 */
import { quantile, type Rng } from "../statistics/index.ts";

/** One highest value between two rises through the mean, as a storm's short-term statistics count peaks. */
export function peaksBetweenRises(load: Float64Array, level: number): { load: Float64Array; at: Int32Array } {
  const peaks: number[] = [];
  const places: number[] = [];
  let highest = Number.NEGATIVE_INFINITY;
  let place = -1;
  let open = false;
  for (let i = 1; i < load.length; i++) {
    const v = load[i]!;
    if (load[i - 1]! <= level && v > level) {
      if (open) {
        peaks.push(highest);
        places.push(place);
      }
      open = true;
      highest = Number.NEGATIVE_INFINITY;
    }
    if (open && v > highest) {
      highest = v;
      place = i;
    }
  }
  return { load: Float64Array.from(peaks), at: Int32Array.from(places) };
}

/** The tail of a series' peaks: threshold, scale and shape. */
export interface TailFit {
  /** N */
  readonly threshold: number;
  /** Peaks above it. */
  readonly peaks: number;
  /** k and a (N) of the law above; k is held between −½ and ½, where its moments mean something. */
  readonly shape: number;
  readonly scale: number;
}

/** Peaks that a fit needs above its threshold. */
const FEWEST = 15;
/** Share of the peaks that lie below the threshold, where there are enough. */
const BELOW = 0.8;

/**
 * Fits the tail of a set of peaks: what lies above a threshold, as a generalised Pareto law.
 * @param peaks N, in any order; left as they are
 * @returns null where too few were seen to say anything
 */
export function fitTail(peaks: Float64Array): TailFit | null {
  const sorted = Float64Array.from(peaks).sort();
  const share = Math.min(BELOW, 1 - FEWEST / Math.max(1, sorted.length));
  if (sorted.length < 2 * FEWEST) return null;
  const threshold = quantile(sorted, share);
  const excess: number[] = [];
  for (const p of sorted) if (p > threshold) excess.push(p - threshold);
  const n = excess.length;
  if (n < FEWEST - 1) return null;
  let b0 = 0;
  let b1 = 0;
  // Excesses rise; the share above the j-th of n is (n − j − 0.65)/n after Hosking and Wallis' plotting position.
  for (let j = 0; j < n; j++) {
    b0 += excess[j]! / n;
    b1 += (excess[j]! * Math.max(0, 1 - (j + 1 - 0.35) / n)) / n;
  }
  const shape = Math.max(-0.5, Math.min(0.5, b0 / (b0 - 2 * b1) - 2));
  return { threshold, peaks: n, shape, scale: b0 * (1 + shape) };
}

/**
 * The load that is passed `expected` times on average while `count` peaks above the threshold come by, N.
 * The largest of so many is most likely near expected = 1; it stays below with the chance p at expected = −ln p.
 */
export function passed(fit: TailFit, count: number, expected: number): number {
  const y = Math.log(count / expected);
  if (!(y > 0)) return fit.threshold;
  return (
    fit.threshold + (Math.abs(fit.shape) < 1e-9 ? fit.scale * y : (fit.scale * -Math.expm1(-fit.shape * y)) / fit.shape)
  );
}

/** A load that a storm of some length brings, with its uncertainty, N. */
export interface Extreme {
  /** N */
  readonly value: number;
  /** Standard uncertainty from how few peaks were seen, N. */
  readonly u: number;
}

/** Extremes of a series for a storm of a given length. */
export interface Extremes {
  readonly fit: TailFit;
  /** s */
  readonly storm: number;
  /** Most probable largest load of a storm, and the one it stays below nine times in ten. */
  readonly mostProbable: Extreme;
  readonly ninety: Extreme;
}

const RESAMPLES = 200;

/** @param duration time over which the peaks were seen, s @param storm length of the storm asked about, s */
export function extremes(peaks: Float64Array, duration: number, storm: number, random: Rng): Extremes | null {
  const fit = fitTail(peaks);
  if (fit === null) return null;
  const most: number[] = [];
  const ninety: number[] = [];
  const drawn = new Float64Array(peaks.length);
  for (let r = 0; r < RESAMPLES; r++) {
    for (let i = 0; i < drawn.length; i++) drawn[i] = peaks[random.integer(peaks.length)]!;
    const again = fitTail(drawn);
    if (again === null) continue;
    most.push(passed(again, (again.peaks * storm) / duration, 1));
    ninety.push(passed(again, (again.peaks * storm) / duration, NINETY));
  }
  const count = (fit.peaks * storm) / duration;
  return {
    fit,
    storm,
    mostProbable: { value: passed(fit, count, 1), u: spread(most) },
    ninety: { value: passed(fit, count, NINETY), u: spread(ninety) },
  };
}

/** −ln 0.9: what is passed so often on average is not passed nine times in ten. */
const NINETY = -Math.log(0.9);

function spread(values: readonly number[]): number {
  const n = values.length;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  return Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (n - 1));
}
