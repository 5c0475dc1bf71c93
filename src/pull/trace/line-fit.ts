/** Straight lines through stretches of an even series, and how ill they fit. */
export interface Piece {
  /** Grains [from, to). */
  readonly from: number;
  readonly to: number;
  readonly mean: number;
  /** Change per grain. */
  readonly slope: number;
}

/** Weighted residual sum of squares of the line through y[from, to). */
export function costOf(y: Float64Array, from: number, to: number, weight: Float64Array): number {
  return lineCosts(y, from, to, 1, weight)[to - from - 1]!;
}

/** Weighted residual sums of squares of lines through y[from..k], k running in the given direction; entry j covers j + 1 grains. */
export function lineCosts(y: Float64Array, from: number, to: number, step: 1 | -1, weight: Float64Array): Float64Array {
  const out = new Float64Array(Math.abs(to - from));
  let n = 0;
  let mx = 0;
  let my = 0;
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let j = 0; j < out.length; j++) {
    const v = y[from + step * j]!;
    const w = weight[from + step * j]!;
    n += w;
    const dx = j - mx;
    const dy = v - my;
    mx += (w * dx) / n;
    my += (w * dy) / n;
    sxx += w * dx * (j - mx);
    sxy += w * dx * (v - my);
    syy += w * dy * (v - my);
    out[j] = sxx > 0 ? Math.max(0, syy - (sxy * sxy) / sxx) : 0;
  }
  return out;
}

/** The straight line through y[from, to). */
export function line(y: Float64Array, from: number, to: number): Piece {
  const n = to - from;
  let mean = 0;
  for (let k = from; k < to; k++) mean += y[k]!;
  mean /= n;
  let sxy = 0;
  const middle = from + (n - 1) / 2;
  for (let k = from; k < to; k++) sxy += (k - middle) * (y[k]! - mean);
  return { from, to, mean, slope: n > 1 ? (12 * sxy) / (n * (n * n - 1)) : 0 };
}
