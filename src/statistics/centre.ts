// Centre and spread of a sample, the plain and the robust.

import { InputError } from "../quantity/index.ts";

/**
 * Arithmetic mean, in the sample's unit, summed with compensation (Neumaier 1974): exact to rounding whatever the order.
 * @throws InputError for an empty sample
 */
export function mean(sample: ArrayLike<number>): number {
  some(sample, 1);
  let sum = 0;
  let lost = 0;
  for (let i = 0; i < sample.length; i++) {
    const x = sample[i]!;
    const next = sum + x;
    lost += Math.abs(sum) >= Math.abs(x) ? sum - next + x : x - next + sum;
    sum = next;
  }
  return (sum + lost) / sample.length;
}

/**
 * Standard deviation of the sample, in its unit, √(Σ (x − x̄)² / (n − 1)); about the mean, so that a large mean costs no
 * digits (the corrected two-pass form: Chan, Golub & LeVeque 1983, recalled).
 * @throws InputError for fewer than two values
 */
export function standardDeviation(sample: ArrayLike<number>): number {
  some(sample, 2);
  const middle = mean(sample);
  let sum = 0;
  let rest = 0;
  for (let i = 0; i < sample.length; i++) {
    const d = sample[i]! - middle;
    sum += d * d;
    rest += d;
  }
  const n = sample.length;
  return Math.sqrt(Math.max(0, sum - (rest * rest) / n) / (n - 1));
}

/**
 * Middle value, in the sample's unit; the mean of the two middle ones of an even number. Half the sample may be wild.
 * @throws InputError for an empty sample
 */
export function median(sample: ArrayLike<number>): number {
  some(sample, 1);
  const sorted = Float64Array.from(sample).sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : sorted[half - 1]! + (sorted[half]! - sorted[half - 1]!) / 2;
}

/** The factor that makes the median absolute deviation of a normal sample its standard deviation: 1 / quantile(3/4). */
export const normalMad = 1.482602218505602;

/**
 * Median absolute deviation, times `normalMad`: in the sample's unit, for a normal sample its standard deviation; half the
 * sample may be wild.
 * @param about what deviations are taken from
 * @throws InputError for an empty sample
 */
export function mad(sample: ArrayLike<number>, about: number = median(sample)): number {
  return normalMad * median(Float64Array.from(sample, (x) => Math.abs(x - about)));
}

/**
 * The value below which a share `p`, from 0 to 1, of the sample lies, straight between order statistics (Hyndman & Fan
 * 1996, type 7), in its unit.
 * @throws InputError for an empty sample
 */
export function quantile(sample: ArrayLike<number>, p: number): number {
  some(sample, 1);
  const sorted = Float64Array.from(sample).sort();
  const at = p * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low]! + (at - low) * (sorted[high]! - sorted[low]!);
}

/** A straight line fitted through points, robust against wild ones. */
export interface Line {
  readonly slope: number;
  readonly intercept: number;
}

/**
 * Line through points by the median of the slopes of all pairs (Theil 1950, Sen 1968); 29 % of the points may be wild.
 * Pairs at the same x say nothing of the slope and are passed over.
 * @throws InputError where x and y are not as many, or no two x differ
 */
export function theilSen(x: ArrayLike<number>, y: ArrayLike<number>): Line {
  if (x.length !== y.length)
    throw new InputError("y", `${y.length} values`, `as many as in x, ${x.length}, are expected`);
  some(x, 2);
  const slopes: number[] = [];
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) {
      if (x[i] !== x[j]) slopes.push((y[j]! - y[i]!) / (x[j]! - x[i]!));
    }
  }
  if (slopes.length === 0)
    throw new InputError("x", `${x.length} equal values`, "at least two different ones are expected");
  const slope = median(slopes);
  return { slope, intercept: median(Float64Array.from(x, (value, i) => y[i]! - slope * value)) };
}

function some(sample: ArrayLike<number>, least: number): void {
  if (sample.length < least) throw new InputError("sample", `${sample.length} values`, `at least ${least} expected`);
}
