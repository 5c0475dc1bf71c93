/**
 * Integrals of smooth positive functions over frequency, ∫ g(f) df from `from` to `to`.
 *
 * A spectrum spreads over decades, so the variable is ln f and the range is cut into equal panels of it, each summed by
 * the eight-point Gauss-Legendre rule. Sixteen panels a decade hold the spectra of this room to 1e-9 of their variance
 * (tested against their closed forms).
 */
const nodes = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363];
const weights = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];

/** ∫ g(x) dx over [from, to] in `panels` equal pieces; exact for polynomials of degree 15 in each. */
export function integrate(g: (x: number) => number, from: number, to: number, panels: number): number {
  const half = (to - from) / (2 * panels);
  let sum = 0;
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half;
    for (let i = 0; i < 4; i++) {
      const step = half * nodes[i]!;
      sum += weights[i]! * (g(middle - step) + g(middle + step));
    }
  }
  return sum * half;
}

/** ∫ g(f) df over [from, to], 0 < from < to, with ln f as the variable. */
export function integrateOverDecades(g: (f: number) => number, from: number, to: number, panelsPerDecade = 16): number {
  const a = Math.log(from);
  const b = Math.log(to);
  const panels = Math.max(1, Math.ceil(((b - a) / Math.LN10) * panelsPerDecade));
  return integrate((x) => g(Math.exp(x)) * Math.exp(x), a, b, panels);
}
