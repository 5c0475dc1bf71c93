import { InputError } from "../quantity/index.ts";

/** What a root is sought of: its value, and, in `slope`, its derivative there; NaN where that is not known. */
export interface Differentiable {
  (x: number): number;
  slope: number;
}

/**
 * Root of a function that tells its own derivative: Newton's steps inside a bracket that only shrinks; where a step leaves
 * it, or gains less than bisection would in two, the bracket is halved, in logarithms where both its ends are above zero
 * and far apart. Some four calls for a smooth function, where `brent` takes nine.
 *
 * @param f writes f.slope at each call
 * @param tolerance largest error of the root, in its unit; rounding of the root itself is added. At a root that is not
 *   simple (f flat there) Newton's steps tell less than the error: `brent` keeps to its tolerance there too
 * @returns a place within the tolerance of a change of sign; NaN when f has no value on the way there
 * @throws InputError when the signs at the ends do not differ
 */
export function bracketedRoot(
  f: Differentiable,
  low: number,
  high: number,
  tolerance: number,
  fLow = f(low),
  fHigh = f(high),
): number {
  if (!(fLow * fHigh <= 0)) {
    throw new InputError("bracket", `${fLow} at ${low}, ${fHigh} at ${high}`, "values of different sign are expected");
  }
  if (fLow === 0) return low;
  if (fHigh === 0) return high;
  const rising = fLow < 0;
  let a = low;
  let b = high;
  // The secant through both ends stands for the first step: no derivative is known yet.
  let x = a - (fLow * (b - a)) / (fHigh - fLow);
  if (!(x > a && x < b)) x = halfway(a, b);
  let width = b - a;
  for (let turn = 0; turn < 500; turn++) {
    const fx = f(x);
    if (Number.isNaN(fx)) return Number.NaN;
    if (fx === 0) return x;
    if (fx < 0 === rising) a = x;
    else b = x;
    const near = tolerance + 2 * Number.EPSILON * Math.abs(x);
    if (b - a <= near) return x;
    let next = x - fx / f.slope;
    const inside = next > a && next < b;
    if (inside && Math.abs(next - x) <= 0.5 * near) return next;
    if (!inside || (turn % 3 === 2 && b - a > 0.25 * width)) next = halfway(a, b);
    if (turn % 3 === 2) width = b - a;
    if (next === a || next === b) return x;
    x = next;
  }
  return x;
}

function halfway(a: number, b: number): number {
  return a > 0 && b > 16 * a ? Math.sqrt(a * b) : 0.5 * (a + b);
}
