import { scaleOfNearest } from "./order.ts";

/** Mean of a stretch of even grains with what its scatter says of it. */
export interface Mean {
  readonly mean: number;
  /** Standard uncertainty of the mean, neighbours not being independent. */
  readonly u: number;
  /** Change per grain of the straight line through the stretch, and its standard uncertainty. */
  readonly slope: number;
  readonly uSlope: number;
  /** Standard deviation of the grains about that line. */
  readonly scatter: number;
  /** How many independent grains would say as much. */
  readonly effective: number;
}

/**
 * Mean of values[from, to) and its standard uncertainty
 * u² = γ₀ (1 + 2 Σ ρₖ) / n, with the autocorrelations ρₖ of the residuals about a straight line summed up to the
 * window that balances cut-off against noise, and corrected for what a fitted mean and slope take out of them: each
 * takes 1/n of the sum out of every γₖ.
 *
 * Never smaller than for independent grains: opposite swings (surge of a boat) would make it so, but only as far as
 * the swing goes on for ever.
 *
 * @source Wolff, Monte Carlo errors with less errors, Comput. Phys. Commun. 156 (2004) 143, eqs 49–52, there for a fitted mean alone (recalled);
 * coverage tested on correlated noise of known spectrum.
 */
export function meanOfGrains(values: Float64Array, from: number, to: number): Mean {
  let y = values.subarray(from, to);
  let each = 1;
  // Past some thousands of grains, means of neighbours say the same for less work.
  if (y.length > 8192) {
    each = Math.ceil(y.length / 4096);
    y = paired(y, each);
  }
  const n = y.length;
  let sum = 0;
  for (let k = 0; k < n; k++) sum += y[k]!;
  const mean = sum / n;
  const middle = (n - 1) / 2;
  let sxy = 0;
  for (let k = 0; k < n; k++) sxy += (k - middle) * (y[k]! - mean);
  const sxx = (n * (n * n - 1)) / 12;
  const slope = n > 1 ? sxy / sxx : 0;
  const rest = new Float64Array(n);
  let rss = 0;
  for (let k = 0; k < n; k++) {
    rest[k] = y[k]! - mean - slope * (k - middle);
    rss += rest[k]! * rest[k]!;
  }
  if (n < 4) {
    const scatter = n > 2 ? Math.sqrt(rss / (n - 2)) : 0;
    return {
      mean,
      u: scatter / Math.sqrt(n),
      slope: slope / each,
      uSlope: scatter / Math.sqrt(sxx || 1) / each,
      scatter,
      effective: n,
    };
  }
  const longer = correlatedTimes(rest, rss);
  const scatter = Math.sqrt(rss / (n - 2));
  const u = scatter * Math.sqrt(longer / n);
  return {
    mean,
    u,
    slope: slope / each,
    uSlope: (scatter * Math.sqrt(longer / sxx)) / each,
    scatter,
    effective: n / longer,
  };
}

/** 2 τ_int: how many grains one independent one is worth; at least 1. */
function correlatedTimes(rest: Float64Array, rss: number): number {
  const n = rest.length;
  if (!(rss > 0)) return 1;
  let tau = 0.5;
  const furthest = Math.floor(n / 3);
  for (let w = 1; w <= furthest; w++) {
    let c = 0;
    for (let k = 0; k + w < n; k++) c += rest[k]! * rest[k + w]!;
    tau += (c / rss) * (n / (n - w));
    const pace = tau > 0.5 ? 1.5 / Math.log((2 * tau + 1) / (2 * tau - 1)) : 1e-9;
    if (Math.exp(-w / pace) < pace / Math.sqrt(w * n) || w === furthest)
      return Math.min(n / 2, Math.max(1, 2 * tau * (1 + (2 * (2 * w + 1)) / n)));
  }
  return Math.max(1, 2 * tau);
}

/**
 * Low-frequency scatter of a series that is straight by pieces: the variance per grain that white noise would need
 * to scatter block means as these scatter. The largest over several block lengths is taken, so that swings slower
 * than a grain count in full. Robust: second differences of block means vanish on ramps, and the smaller third of them
 * is looked at, so that corners and steps in up to two thirds of the series do not count.
 *
 * @param longest longest block, grains
 */
export function slowVariance(runs: readonly Float64Array[], longest: number): number {
  let worst = 0;
  for (let size = 1; size <= longest; size *= 2) {
    const seconds: number[] = [];
    for (const run of runs) {
      const blocks = paired(run, size);
      for (let j = 1; j + 1 < blocks.length; j++)
        seconds.push((blocks[j - 1]! - 2 * blocks[j]! + blocks[j + 1]!) / Math.sqrt(6));
    }
    if (seconds.length < 12 && size > 1) break;
    if (seconds.length === 0) break;
    const s = scaleOfNearest(Float64Array.from(seconds), 0);
    worst = Math.max(worst, s * s * size);
  }
  return worst;
}

/** Means of `each` neighbours; a shorter rest is left out. */
function paired(y: Float64Array, each: number): Float64Array {
  if (each === 1) return y;
  const out = new Float64Array(Math.floor(y.length / each));
  for (let j = 0; j < out.length; j++) {
    let s = 0;
    for (let k = j * each; k < (j + 1) * each; k++) s += y[k]!;
    out[j] = s / each;
  }
  return out;
}
