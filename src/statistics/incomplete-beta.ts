// The regularised incomplete beta function
//
//   I_x(a, b) = 1/B(a, b) ∫₀^x t^(a−1) (1 − t)^(b−1) dt
//
// by its continued fraction (DLMF 8.17.22), which converges fast up to the mean; past it I_x(a, b) = 1 − I_y(b, a),
// y = 1 − x.
import { gamma, stirlingError } from "./gamma.ts";
import { logExcess } from "./log-excess.ts";

/**
 * I_x(a, b), to 1e-14 + 1e-15 |ln of itself| of itself up to the mean, beyond it absolutely.
 *
 * @param a above 0. @param b above 0.
 * @param x from 0 to 1. @param y 1 − x, asked for beside x because the smaller of them keeps its digits.
 */
export function incompleteBeta(a: number, b: number, x: number, y: number): number {
  if (x === 0 || y === 0) return x === 0 ? 0 : 1;
  return x <= (a + 1) / (a + b + 2)
    ? (kernel(a, b, x, y) / a) * fraction(a, b, x)
    : 1 - (kernel(a, b, x, y) / b) * fraction(b, a, y);
}

/** x^a y^b/B(a, b). */
function kernel(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  if (n <= 100) return (((x ** a * gamma(n)) / gamma(a)) * y ** b) / gamma(b);
  const [small, large, xs, xl] = a < b ? [a, b, x, y] : [b, a, y, x];
  // Γ(n)/Γ(large) and the powers by Stirling: large^large and n^n never stand alone.
  const correction = stirlingError(n) - stirlingError(large);
  if (small <= 10) {
    // Γ(n)/(Γ(l) l^s) = (1 + s/l)^(n−½) e^(−s) e^δ.
    const rise = -large * logExcess(small / large) + (small - 0.5) * Math.log1p(small / large);
    return ((large * xs) ** small / gamma(small)) * Math.exp(rise + correction + large * logOf(xl, xs));
  }
  const d = xs * large - xl * small;
  const exponent = -small * logExcess(d / small) - large * logExcess(-d / large);
  return Math.sqrt((small * large) / (2 * Math.PI * n)) * Math.exp(exponent + correction - stirlingError(small));
}

/** ln x where x = 1 − y. */
function logOf(x: number, y: number): number {
  return y < 0.5 ? Math.log1p(-y) : Math.log(x);
}

function fraction(a: number, b: number, x: number): number {
  const tiny = 1e-290;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  if (d === 0) d = tiny;
  d = 1 / d;
  let value = d;
  for (let m = 1; m < 10000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonzero(1 + even * d);
    c = nonzero(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonzero(1 + odd * d);
    c = nonzero(1 + odd / c);
    const factor = d * c;
    value *= factor;
    if (Math.abs(factor - 1) < 2e-16) break;
  }
  return value;
}

function nonzero(value: number): number {
  return value === 0 ? 1e-290 : value;
}
