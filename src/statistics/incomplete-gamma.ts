// The regularised incomplete gamma functions
//
//   P(a, x) = 1/Γ(a) ∫₀^x t^(a−1) e^(−t) dt,   Q(a, x) = 1 − P(a, x).
//
// - Below about a: P = D Σ xⁿ/((a + 1)…(a + n)), all terms positive, D = x^a e^(−x)/Γ(a + 1) (DLMF 8.7.1).
// - Above: Legendre's continued fraction for Q (DLMF 8.9.2), by the modified Lentz method.
// - a ≥ 20 and x near a, where both want √a terms: with ½η² = λ − 1 − ln λ, λ = x/a,
//   Q = √(a/2π)/Γ*(a) ∫_η^∞ e^(−½aζ²) ζ/(λ(ζ) − 1) dζ (N. M. Temme, SIAM J. Math. Anal. 10 (1979) 757), a bell
//   times a power series that converges for |ζ| < 2√π, used for |η| ≤ 1.
//
// The one sought directly is the smaller, so that both keep their digits in their own far tail.
import { excessOverNormal } from "./bell-integral.ts";
import { gamma, stirlingError } from "./gamma.ts";
import { logExcess } from "./log-excess.ts";
import { normalAbove, normalBelow } from "./normal.ts";

export interface Shares {
  /** P. */
  below: number;
  /** Q. */
  above: number;
}

const TERMS = 40;
const work = new Float64Array(TERMS);
const slowPart = etaOverRise();

/**
 * Writes P(a, x) and Q(a, x), each to 1e-14 + 4e-16 |ln of itself| of itself for a ≥ ½; for a down to 0.05 the upper
 * one to 5e-14 (test/statistics/distributions.test.ts).
 *
 * @param a above 0. @param x at least 0.
 */
export function incompleteGamma(a: number, x: number, out: Shares): void {
  if (x === 0 || x === Number.POSITIVE_INFINITY) {
    split(out, x === 0 ? 0 : 1, true);
    return;
  }
  if (a >= 20) {
    const delta = (x - a) / a;
    const eta = Math.sign(delta) * Math.sqrt(2 * logExcess(delta));
    if (Math.abs(eta) <= 1) {
      const z = eta * Math.sqrt(a);
      const excess = excessOverNormal(a, slowPart, eta, work);
      out.below = normalBelow(z) - excess;
      out.above = normalAbove(z) + excess;
      return;
    }
  }
  if (x > (a < 0.5 ? 0.3 : a + 1)) split(out, kernel(a, x) * a * fraction(a, x), false);
  else split(out, kernel(a, x) * series(a, x), true);
}

function split(out: Shares, share: number, isBelow: boolean): void {
  out.below = isBelow ? share : 1 - share;
  out.above = isBelow ? 1 - share : share;
}

/** x^a e^(−x)/Γ(a + 1). */
function kernel(a: number, x: number): number {
  if (a > 100) return Math.exp(-a * logExcess((x - a) / a) - stirlingError(a)) / Math.sqrt(2 * Math.PI * a);
  // Here x^a would overflow; the product has long been below the smallest double.
  if (x > 1200) return 0;
  // The exponential in two halves: e^(−x) loses its digits to denormal numbers before the product does.
  const half = Math.exp(-0.5 * x);
  return ((x ** a * half) / gamma(a + 1)) * half;
}

function series(a: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; term > 1e-18 * sum; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

/** 1/(x + 1 − a − 1(1 − a)/(x + 3 − a − 2(2 − a)/(x + 5 − a − …))). */
function fraction(a: number, x: number): number {
  const tiny = 1e-290;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < 10000; n++) {
    const up = n * (a - n);
    b += 2;
    d = up * d + b;
    if (d === 0) d = tiny;
    c = b + up / c;
    if (c === 0) c = tiny;
    d = 1 / d;
    const factor = c * d;
    value *= factor;
    if (Math.abs(factor - 1) < 2e-16) break;
  }
  return value;
}

/**
 * η/(λ − 1) in powers of η. From ½η² = λ − 1 − ln λ, (λ − 1) λ′ = λη; with λ − 1 = Σ cₙηⁿ, c₁ = 1, comparing powers
 * gives each cₙ from those before.
 */
function etaOverRise(): Float64Array {
  const c = new Float64Array(TERMS + 2);
  c[1] = 1;
  for (let n = 2; n <= TERMS + 1; n++) {
    // Power n of (λ − 1)λ′ − λη: Σ cᵢ (n + 1 − i) c₍ₙ₊₁₋ᵢ₎ over i = 1…n, less cₙ₋₁.
    let sum = c[n - 1]!;
    for (let i = 2; i < n; i++) sum -= c[i]! * (n + 1 - i) * c[n + 1 - i]!;
    c[n] = sum / (n + 1);
  }
  const f = new Float64Array(TERMS);
  f[0] = 1;
  for (let n = 1; n < TERMS; n++) {
    let sum = 0;
    for (let i = 1; i <= n; i++) sum -= c[i + 1]! * f[n - i]!;
    f[n] = sum;
  }
  return f;
}
