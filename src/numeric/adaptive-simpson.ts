/** A function of one number with several values: as many, in the same order, wherever it is asked. */
export type Curve = (u: number) => Float64Array;

/**
 * ∫ f from a to b by adaptive Simpson halves with Richardson's correction, every component on one mesh: for smooth
 * functions with a few kinks.
 *
 * @param accuracy absolute, in the integral's unit, of the worst component
 * @param depth halvings at most
 * @param fa f at a, and fb at b, where they are known already
 * @returns NaN where f is NaN
 */
export function integrateCurve(
  f: Curve,
  a: number,
  b: number,
  accuracy: number,
  depth: number,
  fa = f(a),
  fb = f(b),
): Float64Array {
  return halves(f, a, fa, f(0.5 * (a + b)), b, fb, accuracy, depth);
}

/**
 * `integrateCurve` of a function of one value: ∫ f from a to b, in the unit of f times that of its argument.
 *
 * @param accuracy absolute, in the integral's unit
 * @param depth halvings at most
 * @returns NaN where f is NaN
 */
export function integrateAdaptively(
  f: (u: number) => number,
  a: number,
  b: number,
  accuracy: number,
  depth: number,
  fa = f(a),
  fb = f(b),
): number {
  return integrateCurve(
    (u) => Float64Array.of(f(u)),
    a,
    b,
    accuracy,
    depth,
    Float64Array.of(fa),
    Float64Array.of(fb),
  )[0]!;
}

function halves(
  f: Curve,
  a: number,
  fa: Float64Array,
  fm: Float64Array,
  b: number,
  fb: Float64Array,
  accuracy: number,
  depth: number,
): Float64Array {
  const h = b - a;
  const m = 0.5 * (a + b);
  const fl = f(0.5 * (a + m));
  const fr = f(0.5 * (m + b));
  let worst = 0;
  const best = fa.map((atA, i) => {
    const coarse = (h / 6) * (atA + 4 * fm[i]! + fb[i]!);
    const fine = (h / 12) * (atA + 4 * fl[i]! + 2 * fm[i]! + 4 * fr[i]! + fb[i]!);
    const error = (fine - coarse) / 15;
    worst = Math.max(worst, Math.abs(error));
    return fine + error;
  });
  if (depth <= 0 || !(worst > accuracy)) return best;
  const left = halves(f, a, fa, fl, m, fm, 0.5 * accuracy, depth - 1);
  const right = halves(f, m, fm, fr, b, fb, 0.5 * accuracy, depth - 1);
  return left.map((value, i) => value + right[i]!);
}
