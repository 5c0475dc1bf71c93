/** ln of the sum of what the logarithms stand for; of nothing, or of nothing likely, minus infinity. */
export function logSum(logs: readonly number[]): number {
  const most = Math.max(Number.NEGATIVE_INFINITY, ...logs);
  if (most === Number.NEGATIVE_INFINITY) return most;
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}
