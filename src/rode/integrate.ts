/**
 * ∫ f from a to b by adaptive Simpson halves with Richardson's correction: for smooth functions with a few kinks.
 *
 * @param accuracy absolute, in the integral's unit
 * @param depth halvings at most
 * @param fa f at a, and fb at b, where they are known already
 * @returns NaN where f is NaN
 */
export function integrate(
  f: (u: number) => number,
  a: number,
  b: number,
  accuracy: number,
  depth: number,
  fa = f(a),
  fb = f(b),
): number {
  return halves(f, a, fa, f(0.5 * (a + b)), b, fb, accuracy, depth);
}

function halves(
  f: (u: number) => number,
  a: number,
  fa: number,
  fm: number,
  b: number,
  fb: number,
  accuracy: number,
  depth: number,
): number {
  const h = b - a;
  const m = 0.5 * (a + b);
  const fl = f(0.5 * (a + m));
  const fr = f(0.5 * (m + b));
  const coarse = (h / 6) * (fa + 4 * fm + fb);
  const fine = (h / 12) * (fa + 4 * fl + 2 * fm + 4 * fr + fb);
  const error = (fine - coarse) / 15;
  if (depth <= 0 || !(Math.abs(error) > accuracy)) return fine + error;
  return (
    halves(f, a, fa, fl, m, fm, 0.5 * accuracy, depth - 1) + halves(f, m, fm, fr, b, fb, 0.5 * accuracy, depth - 1)
  );
}
