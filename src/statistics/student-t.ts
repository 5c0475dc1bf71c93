// Student's t distribution, density ∝ (1 + t²/ν)^(−(ν+1)/2).
//
// - P(T > t) = ½ I_x(ν/2, ½), x = ν/(ν + t²) (DLMF 8.17 and Johnson, Kotz and Balakrishnan, ch. 28).
// - ν ≥ 20, where the normal is near: with w² = ln(1 + t²/ν) the density becomes, in w,
//     e^(−(ν−½)w²/2) √((w²/2)/sinh(w²/2)) = e^(−(ν−½)w²/2) (1 − w⁴/48 + …),
//   a bell times a power series in w⁴ that converges for w² < 2π, used for w² ≤ 2: exact to rounding for every ν, to
//   1e300 as well, and the normal as ν grows.
import { excessOverNormal } from "./bell-integral.ts";
import { checkedDegreesOfFreedom, checkedShare } from "./distribution-input.ts";
import { gamma } from "./gamma.ts";
import { incompleteBeta } from "./incomplete-beta.ts";
import { normalAbove, normalBelow, normalFromMiddle, normalQuantile } from "./normal.ts";
import { whereShareIs } from "./share-search.ts";

const TERMS = 72;
const work = new Float64Array(TERMS);
const slowPart = rootOfArgumentOverSinh();

/**
 * Share of Student's t below `t`, in both tails to 1e-14 + 4e-16 |ln of itself| of itself; the normal one for
 * infinitely many degrees of freedom.
 *
 * @throws InputError unless dof > 0.
 */
export function tBelow(t: number, dof: number): number {
  if (checkedDegreesOfFreedom(dof) === Number.POSITIVE_INFINITY) return normalBelow(t);
  return t < 0 ? tail(-t, dof) : 1 - tail(t, dof);
}

/** Share of Student's t with `dof` degrees of freedom above `t`: that below −t. @throws InputError unless dof > 0. */
export function tAbove(t: number, dof: number): number {
  return tBelow(-t, dof);
}

/**
 * Student's t below which a share `p` lies; the normal one for infinitely many degrees of freedom. The value above
 * which a share lies is its negative. As exact as p gives it: to 1e-14 of itself for ν ≥ 1.
 *
 * @throws InputError unless 0 < p < 1 and dof > 0.
 */
export function tQuantile(p: number, dof: number): number {
  if (checkedDegreesOfFreedom(dof) === Number.POSITIVE_INFINITY) return normalQuantile(p);
  if (checkedShare(p) === 0.5) return 0;
  const q = Math.min(p, 1 - p);
  const guess = guessAbove(q, dof);
  // Around the middle what is known well is the share between 0 and t.
  const value =
    q > 0.25
      ? whereShareIs((t) => fromMiddle(t, dof), Math.abs(p - 0.5), true, guess)
      : whereShareIs((t) => tail(t, dof), q, false, guess);
  return p < 0.5 ? -value : value;
}

/** P(T > t) for t ≥ 0. */
function tail(t: number, dof: number): number {
  const u = t / Math.sqrt(dof);
  const w = stretched(u);
  if (dof >= 20 && w * w <= 2) {
    const N = dof - 0.5;
    return normalAbove(w * Math.sqrt(N)) + excessOverNormal(N, slowPart, w, work);
  }
  const a = dof / 2;
  // Past 1e100 only the power is left, and u² would overflow.
  if (u > 1e100) return farShare(a) * u ** -dof;
  return 0.5 * incompleteBeta(a, 0.5, 1 / (1 + u * u), (u * u) / (1 + u * u));
}

/** P(0 < T < t) for t ≥ 0. */
function fromMiddle(t: number, dof: number): number {
  const u = t / Math.sqrt(dof);
  const w = stretched(u);
  if (dof >= 20 && w * w <= 2) {
    const N = dof - 0.5;
    return normalFromMiddle(w * Math.sqrt(N)) - excessOverNormal(N, slowPart, w, work);
  }
  return u > 1e100 ? 0.5 - tail(t, dof) : 0.5 * incompleteBeta(0.5, dof / 2, (u * u) / (1 + u * u), 1 / (1 + u * u));
}

/** w = √ln(1 + u²), which is u itself where u² would lose digits. */
function stretched(u: number): number {
  return u < 1e-9 ? u : u > 1e100 ? Math.sqrt(2 * Math.log(u)) : Math.sqrt(Math.log1p(u * u));
}

/** Γ(a + ½)/(2√π Γ(a + 1)), the share above u for large u times u^ν. */
function farShare(a: number): number {
  return gamma(a + 0.5) / (gamma(a + 1) * Math.sqrt(Math.PI) * 2);
}

function guessAbove(q: number, dof: number): number {
  const a = dof / 2;
  if (dof >= 2) {
    const z = normalQuantile(q);
    const N = dof - 0.5;
    return Math.sqrt(N * Math.expm1((z * z) / N));
  }
  return q > 0.25
    ? ((0.5 - q) * gamma(a) * Math.sqrt(Math.PI * dof)) / gamma(a + 0.5)
    : (farShare(a) / q) ** (1 / dof) * Math.sqrt(dof);
}

/**
 * √((v/2)/sinh(v/2)) in powers of w, v = w². sinh(v/2)/(v/2) = Σ sₖ, sₖ = (w⁴/4)ᵏ/(2k + 1)!, and the power −½ of a
 * series obeys n gₙ = Σ (k/2 − n) sₖ gₙ₋ₖ over k = 1…n.
 */
function rootOfArgumentOverSinh(): Float64Array {
  const f = new Float64Array(TERMS);
  const s = [1];
  const g = [1];
  for (let n = 1; 4 * n < TERMS; n++) {
    s.push(s[n - 1]! / (4 * (2 * n) * (2 * n + 1)));
    let sum = 0;
    for (let k = 1; k <= n; k++) sum += (k / 2 - n) * s[k]! * g[n - k]!;
    g.push(sum / n);
  }
  for (let n = 0; n < g.length; n++) f[4 * n] = g[n]!;
  return f;
}
