// Integrals of a slowly varying function under a narrow bell,
//
//   T(w) = ∫_w^∞ e^(−Nζ²/2) f(ζ) dζ   over the same from −∞,   f(ζ) = 1 + f₁ζ + f₂ζ² + …
//
// By parts, ∫ζⁿe^(−Nζ²/2) = wⁿ⁻¹e^(−Nw²/2)/N + (n − 1)/N ∫ζⁿ⁻²e^(−Nζ²/2): every power comes down to the normal tail
// and a polynomial. With bₙ = fₙ + (n + 1)/N bₙ₊₂ from the top,
//
//   T(w) = Φ(−w√N) + φ(w√N)/√N · (b₁ + b₂w + b₃w² + …)/b₀,
//
// which needs no normalising constant of its own: b₀ is it. The gamma and Student distributions are of this form.
import { normalDensity } from "./normal.ts";

/**
 * What the share above `w` exceeds the normal share above w√N by.
 *
 * @param f coefficients of f from f₀ = 1 on; |w| well inside their circle of convergence.
 * @param work room for as many numbers as f has, overwritten.
 */
export function excessOverNormal(N: number, f: Float64Array, w: number, work: Float64Array): number {
  const top = f.length - 1;
  work[top] = f[top]!;
  work[top - 1] = f[top - 1]!;
  for (let n = top - 2; n >= 0; n--) work[n] = f[n]! + ((n + 1) / N) * work[n + 2]!;
  let sum = 0;
  for (let n = top; n >= 1; n--) sum = sum * w + work[n]!;
  const rootN = Math.sqrt(N);
  return ((normalDensity(w * rootN) / rootN) * sum) / work[0]!;
}
