/** A value that was tried, and ln of how likely it is, up to what is the same for all. */
export interface Tried {
  readonly at: number;
  /** Its own standard uncertainty; absent: none. */
  readonly u?: number;
  readonly log: number;
}

/** Mean and variance of what was tried, each as likely as it says; null where nothing was. */
export function likelyMean(tried: readonly Tried[]): { readonly mean: number; readonly variance: number } | null {
  const most = tried.reduce((best, { log }) => Math.max(best, log), Number.NEGATIVE_INFINITY);
  let [sum, mean, square] = [0, 0, 0];
  for (const { at, u = 0, log } of tried) {
    const weight = Math.exp(log - most);
    sum += weight;
    mean += weight * at;
    square += weight * (at * at + u * u);
  }
  if (!(sum > 0)) return null;
  mean /= sum;
  return { mean, variance: Math.max(0, square / sum - mean * mean) };
}
