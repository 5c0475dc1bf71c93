/**
 * How well a model foretells each observation from the others, without fitting it again: leave-one-out by importance
 * sampling with smoothed weights (Vehtari, Simpson, Gelman, Yao & Gabry, J. Mach. Learn. Res. 25, 2024). The largest
 * weights are replaced by the expected order statistics of a generalised Pareto law fitted to them; its shape k tells
 * whether they can be believed: above 0.7 that observation drives the answer.
 */

export interface LeaveOneOut {
  /** Σ of the parts: expected log density of new observations. */
  readonly elpd: number;
  /** Standard error of that sum over observations. */
  readonly se: number;
  /** ln p(y_i | others), an observation each. */
  readonly parts: Float64Array;
  /** Shape of the tail of each one's weights. */
  readonly k: Float64Array;
}

/**
 * @param logLikelihood draws · observations numbers, draw after draw
 * @param onWeights called with each observation's normalised weights over the draws; the array is used again
 */
export function leaveOneOut(
  logLikelihood: Float64Array,
  draws: number,
  observations: number,
  onWeights?: (observation: number, weights: Float64Array) => void,
): LeaveOneOut {
  const parts = new Float64Array(observations);
  const k = new Float64Array(observations);
  const logWeights = new Float64Array(draws);
  for (let i = 0; i < observations; i++) {
    for (let s = 0; s < draws; s++) logWeights[s] = -logLikelihood[s * observations + i]!;
    k[i] = smooth(logWeights);
    let top = Number.NEGATIVE_INFINITY;
    for (let s = 0; s < draws; s++) top = Math.max(top, logWeights[s]!);
    let total = 0;
    for (let s = 0; s < draws; s++) {
      logWeights[s] = Math.exp(logWeights[s]! - top);
      total += logWeights[s]!;
    }
    let expected = 0;
    let highest = Number.NEGATIVE_INFINITY;
    for (let s = 0; s < draws; s++) highest = Math.max(highest, logLikelihood[s * observations + i]!);
    for (let s = 0; s < draws; s++) {
      logWeights[s] = logWeights[s]! / total;
      expected += logWeights[s]! * Math.exp(logLikelihood[s * observations + i]! - highest);
    }
    parts[i] = Math.log(expected) + highest;
    onWeights?.(i, logWeights);
  }
  let elpd = 0;
  for (const part of parts) elpd += part;
  let squares = 0;
  for (const part of parts) squares += (part - elpd / observations) ** 2;
  return { elpd, se: observations < 2 ? 0 : Math.sqrt((observations / (observations - 1)) * squares), parts, k };
}

/** Smooths the upper tail of log weights in place. @returns k, infinite where the tail is too short to tell. */
function smooth(logWeights: Float64Array): number {
  const s = logWeights.length;
  const tail = Math.min(Math.floor(0.2 * s), Math.ceil(3 * Math.sqrt(s)));
  if (tail < 5) return Number.POSITIVE_INFINITY;
  const order = Uint32Array.from(logWeights, (_, i) => i).sort((a, b) => logWeights[a]! - logWeights[b]!);
  const top = logWeights[order[s - 1]!]!;
  const cutoff = Math.exp(logWeights[order[s - tail - 1]!]! - top);
  const excess = new Float64Array(tail);
  for (let j = 0; j < tail; j++) excess[j] = Math.exp(logWeights[order[s - tail + j]!]! - top) - cutoff;
  // Weights that are all alike have no tail.
  if (excess[tail - 1]! <= 1e-12) return Number.NEGATIVE_INFINITY;
  const { k, sigma } = paretoFit(excess);
  if (!Number.isFinite(k)) return k;
  for (let j = 0; j < tail; j++) {
    const p = (j + 0.5) / tail;
    const quantile = Math.abs(k) < 1e-12 ? -sigma * Math.log1p(-p) : (sigma * Math.expm1(-k * Math.log1p(-p))) / k;
    logWeights[order[s - tail + j]!] = Math.min(top, Math.log(cutoff + quantile) + top);
  }
  return k;
}

/**
 * Generalised Pareto law of ascending positive numbers, by the profile posterior of Zhang & Stephens (Technometrics 51,
 * 2009, 316), k drawn a little toward 0.5 as ten more observations would.
 */
export function paretoFit(x: Float64Array): { k: number; sigma: number } {
  const n = x.length;
  const grid = 30 + Math.floor(Math.sqrt(n));
  const quarter = x[Math.floor(n / 4 + 0.5) - 1]!;
  const largest = x[n - 1]!;
  const theta = new Float64Array(grid);
  const profile = new Float64Array(grid);
  for (let j = 0; j < grid; j++) {
    theta[j] = 1 / largest + (1 - Math.sqrt(grid / (j + 0.5))) / (3 * Math.max(quarter, 1e-300));
    const k = meanLog(x, theta[j]!);
    profile[j] = n * (Math.log(-theta[j]! / k) - k - 1);
  }
  let b = 0;
  for (let j = 0; j < grid; j++) {
    let sum = 0;
    for (let i = 0; i < grid; i++) sum += Math.exp(profile[i]! - profile[j]!);
    b += theta[j]! / sum;
  }
  const raw = meanLog(x, b);
  const sigma = -raw / b;
  return { k: (n * raw + 5) / (n + 10), sigma };
}

/** Mean of ln(1 − θ x). */
function meanLog(x: Float64Array, theta: number): number {
  let sum = 0;
  for (const value of x) sum += Math.log1p(-theta * value);
  return sum / x.length;
}
