/**
 * x − ln(1 + x) for x > −1, without the cancellation near 0, to 1e-15 of itself.
 *
 * With r = x/(2 + x), ln(1 + x) = 2 artanh r = 2(r + r³/3 + r⁵/5 + …) and x − 2r = rx.
 */
export function logExcess(x: number): number {
  if (x < -0.6 || x > 1.5) return x - Math.log1p(x);
  const r = x / (2 + x);
  const square = r * r;
  let sum = 0;
  for (let n = 47; n >= 3; n -= 2) sum = sum * square + 1 / n;
  return r * (x - 2 * square * sum);
}
