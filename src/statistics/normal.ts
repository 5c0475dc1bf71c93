// The standard normal distribution: φ(x) = exp(−x²/2)/√2π and Φ(x), the share below x.
//
// Three regions, each a quotient of polynomials: Φ(x) − ½ near the middle, where it is x times a function of x²; and
// beyond it the tail without its exponential, Φ(−x)/φ(x)·1/√2π, which neither under- nor overflows, so that the
// logarithm of a tail is known where the tail itself is below the smallest double.
//
// Source: middle and near tail W. J. Cody, Math. Comp. 23 (1969) 631 in the normal's own form (coefficients recalled;
// 5e-17 from the function at 40 digits); far tail a fit of our own at 60 digits, 5e-17. Quantile: M. J. Wichura,
// Algorithm AS 241, Applied Statistics 37 (1988) 477 (coefficients recalled, tested at 40 digits).
import { checkedShare } from "./distribution-input.ts";
import { polynomial } from "./polynomial.ts";

const ROOT_2PI = Math.sqrt(2 * Math.PI);
const LOG_ROOT_2PI = 0.5 * Math.log(2 * Math.PI);

const MIDDLE = 0.66291;
const FAR = 5.656854249492381;
const MIDDLE_OVER = [
  18154.98125334356, 1067.6894854603709, 161.02823106855587, 2.2352520354606837, 0.06568233791820745,
];
const MIDDLE_UNDER = [45507.78933502673, 10260.932208618979, 976.0985517377767, 47.202581904688245, 1];
const NEAR_OVER = [
  9842.714838383978, 11602.65143764735, 6848.190450536283, 2494.5375852903726, 597.2702763948002, 93.50665613217785,
  8.883149794388377, 0.39894151208813466, 1.0765576773720192e-8,
];
const NEAR_UNDER = [
  19685.429676859992, 38912.00328609327, 34900.95272114598, 18615.571640885097, 6485.558298266761, 1519.3775994075547,
  235.387901782625, 22.266688044328117, 1,
];
const FAR_OVER = [0.9999999999999983, 42.229678253821824, 545.4407470369633, 2370.013270341893, 2481.179395668191];
const FAR_UNDER = [1, 45.22967825380781, 666.1297818173341, 3794.957431999297, 7678.223914730506, 3706.441943322585];

/** Φ(x) − ½, exact in relation to itself for x near 0 as well. Accurate to 5e-16 of itself. */
export function normalFromMiddle(x: number): number {
  if (Math.abs(x) > MIDDLE) return x > 0 ? 0.5 - normalBelow(-x) : normalBelow(x) - 0.5;
  const square = x * x;
  return (x * polynomial(MIDDLE_OVER, square)) / polynomial(MIDDLE_UNDER, square);
}

/** Φ(−x)·exp(x²/2) for x above the middle. */
function bareTail(x: number): number {
  if (x <= FAR) return polynomial(NEAR_OVER, x) / polynomial(NEAR_UNDER, x);
  const s = 1 / (x * x);
  return (1 - (s * polynomial(FAR_OVER, s)) / polynomial(FAR_UNDER, s)) / (x * ROOT_2PI);
}

/** exp(−x²/2), x split so that the larger part's square is exact: without that the far tail loses three digits. */
function bell(x: number): number {
  if (!(x < 40)) return Math.exp(-0.5 * x * x);
  const head = Math.trunc(x * 16) / 16;
  return Math.exp(-0.5 * head * head) * Math.exp(-0.5 * (x - head) * (x + head));
}

/** Φ(x), the share of a standard normal below `x`, in both tails to 1e-15 of itself down to the smallest normal double; source at the head. */
export function normalBelow(x: number): number {
  if (Math.abs(x) <= MIDDLE) return 0.5 + normalFromMiddle(x);
  if (x < 0) return bareTail(-x) * bell(-x);
  return x > 0 ? 1 - bareTail(x) * bell(x) : Number.NaN;
}

/** 1 − Φ(x) = Φ(−x), the share of a standard normal above `x`, as exact as the share below. */
export function normalAbove(x: number): number {
  return normalBelow(-x);
}

/**
 * Logarithm of the share below `x`: finite as far as x² is (−804.6 at −40), and in relation to itself as exact where
 * the share is near one (−Φ(−x)).
 */
export function logNormalBelow(x: number): number {
  if (x < -MIDDLE) return Math.log(bareTail(-x)) - 0.5 * x * x;
  return x > MIDDLE ? Math.log1p(-normalBelow(-x)) : Math.log(normalBelow(x));
}

/**
 * [0] the same logarithm, [1] its slope φ(x)/Φ(x), which grows as −x far below: both by one tail, for loops that want
 * gradients of likelihoods.
 */
export function logNormalBelowWithSlope(x: number, out: Float64Array): void {
  if (x < -MIDDLE) {
    const tail = bareTail(-x);
    out[0] = Math.log(tail) - 0.5 * x * x;
    out[1] = 1 / (tail * ROOT_2PI);
    return;
  }
  const height = bell(x);
  if (x > MIDDLE) {
    const above = bareTail(x) * height;
    out[0] = Math.log1p(-above);
    out[1] = height / (ROOT_2PI * (1 - above));
    return;
  }
  const below = 0.5 + normalFromMiddle(x);
  out[0] = Math.log(below);
  out[1] = height / (ROOT_2PI * below);
}

/** ln φ(x) = −x²/2 − ln √(2π), finite as far as x² is. */
export function logNormalDensity(x: number): number {
  return -0.5 * x * x - LOG_ROOT_2PI;
}

/** φ(x) = exp(−x²/2) / √(2π), to rounding in the far tail as well. */
export function normalDensity(x: number): number {
  return bell(Math.abs(x)) / ROOT_2PI;
}

const A = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
  33430.57558358813, 2509.0809287301227,
];
const B = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271, 28729.085735721943,
  5226.495278852854,
];
const C = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684, 0.2417807251774506,
  0.022723844989269184, 0.0007745450142783414,
];
const D = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
  0.0005475938084995345, 1.0507500716444169e-9,
];
const E = [
  6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
  0.0012426609473880784, 0.000027115555687434876, 2.0103343992922881e-7,
];
const F = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 0.000018463183175100548,
  1.421511758316446e-7, 2.0442631033899397e-15,
];

/**
 * The standard normal value below which a share `p` lies; the one above which it lies is its negative. To 1e-15 of
 * itself for every share a double can hold.
 *
 * @throws InputError unless 0 < p < 1.
 */
export function normalQuantile(p: number): number {
  const q = checkedShare(p) - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(A, r)) / polynomial(B, r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const value = r <= 5 ? polynomial(C, r - 1.6) / polynomial(D, r - 1.6) : polynomial(E, r - 5) / polynomial(F, r - 5);
  return q < 0 ? -value : value;
}
