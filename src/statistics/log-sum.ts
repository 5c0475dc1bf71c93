/** Sums of what logarithms stand for, without leaving the logarithms: nothing overflows, and nothing likely vanishes. */

/** ln(eᵃ + eᵇ). */
export function logAdd(a: number, b: number): number {
  const top = Math.max(a, b);
  return top === Number.NEGATIVE_INFINITY ? top : top + Math.log1p(Math.exp(Math.min(a, b) - top));
}

/** ln of the sum of what the logarithms stand for; of nothing, or of nothing likely, minus infinity. */
export function logSum(logs: readonly number[]): number {
  const most = Math.max(Number.NEGATIVE_INFINITY, ...logs);
  if (most === Number.NEGATIVE_INFINITY) return most;
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}
