// A share of pulls with exact limits, by Clopper & Pearson (Biometrika 26, 1934, 404).
import { brent } from "../numeric/index.ts";
import { incompleteBeta } from "../statistics/index.ts";

/** A share with its exact interval. */
export interface Share {
  readonly count: number;
  readonly of: number;
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * `count` of `of` pulls: at the low limit so many or more would be seen with half the chance left outside, at the high
 * one so many or fewer. Covers at least what it says. Limits to 1e-12.
 *
 * @param of at least one
 */
export function exactShare(count: number, of: number, coverage = 0.95): Share {
  const tail = (1 - coverage) / 2;
  const low = count === 0 ? 0 : brent((p) => incompleteBeta(count, of - count + 1, p, 1 - p) - tail, 0, 1, 1e-13);
  const high =
    count === of ? 1 : brent((p) => incompleteBeta(count + 1, of - count, p, 1 - p) - (1 - tail), 0, 1, 1e-13);
  return { count, of, share: count / of, low, high };
}
