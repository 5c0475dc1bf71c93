import { logNormalBelowWithSlope } from "./normal.ts";

/** A normal distribution cut off below zero. */
export interface NotNegative {
  /** ln of the share that lay above zero. */
  readonly logShare: number;
  readonly mean: number;
  readonly sd: number;
}

/** Past so many standard deviations below zero the moments' own terms cancel, and their first terms are enough. */
const FAR = 30;

const work = new Float64Array(2);

/**
 * Mean and standard deviation of what is known as value ± sd and cannot be negative: with z = value/sd and λ = φ(z)/Φ(z),
 * value + sd λ and sd √(1 − z λ − λ²).
 * @source Johnson, Kotz & Balakrishnan, Continuous Univariate Distributions 1, 13.10.1 (recalled); tested against a sum
 * over the density
 */
export function notNegative(value: number, sd: number): NotNegative {
  const z = value / sd;
  logNormalBelowWithSlope(z, work);
  const logShare = work[0]!;
  if (z < -FAR) return { logShare, mean: sd / -z, sd: sd / -z };
  const more = work[1]!;
  return { logShare, mean: value + sd * more, sd: sd * Math.sqrt(Math.max(0, 1 - z * more - more * more)) };
}
