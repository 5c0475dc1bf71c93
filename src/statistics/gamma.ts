// The gamma function for positive arguments, by Stirling's series
//
//   Γ(x) = √(2π/x) (x/e)^x exp(δ(x)),   δ(x) = 1/12x − 1/360x³ + 1/1260x⁵ − …
//
// whose error past ten terms at x ≥ 10 is below 1e-17; smaller arguments are brought there by Γ(x) = Γ(x + 1)/x, a
// product of at most ten factors. Source: DLMF 5.11.3 (coefficients B₂ₖ / 2k(2k − 1)).
import { polynomial } from "./polynomial.ts";

const STIRLING = [
  1 / 12,
  -1 / 360,
  1 / 1260,
  -1 / 1680,
  1 / 1188,
  -691 / 360360,
  1 / 156,
  -3617 / 122400,
  43867 / 244188,
  -174611 / 125400,
];

/** δ(x), the logarithm of what Stirling's formula leaves out, for x ≥ 10. */
export function stirlingError(x: number): number {
  return polynomial(STIRLING, 1 / (x * x)) / x;
}

/** Γ(x) for 0 < x ≤ 171, to 2e-15 of itself. */
export function gamma(x: number): number {
  let below = 1;
  let z = x;
  for (; z < 10; z++) below *= z;
  // The power is taken in two halves: z^z overflows before Γ(z) does.
  const half = z ** (0.5 * z - 0.25) * Math.exp(-0.5 * z);
  return (half * half * Math.sqrt(2 * Math.PI) * Math.exp(stirlingError(z))) / below;
}
