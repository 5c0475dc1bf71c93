// Roots and minima of a function of one number, by Brent (Algorithms for Minimization without Derivatives, 1973).

import { InputError } from "../quantity/index.ts";

/** @throws InputError unless f(low) and f(high) are finite and of different sign (or one of them zero). */
function checkBracket(low: number, high: number, atLow: number, atHigh: number): void {
  if (!(Number.isFinite(atLow) && Number.isFinite(atHigh)) || atLow * atHigh > 0) {
    throw new InputError(
      "bracket",
      `${atLow} at ${low}, ${atHigh} at ${high}`,
      "values of different sign are expected",
    );
  }
}

/**
 * Root of `f` between two places where its sign differs: inverse quadratic interpolation or the secant while they gain
 * on bisection, which they never do worse than by more than its square.
 *
 * @param tolerance largest error of the root, in its unit; rounding of the root itself (2⁻⁵² of it) is added.
 * @param fLow f at the lower end, and fHigh at the upper, where they are known already
 * @returns a place within the tolerance of a change of sign; NaN when f has no value on the way there.
 * @throws InputError when the signs do not differ.
 */
export function brent(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
  fLow = f(low),
  fHigh = f(high),
): number {
  let a = low;
  let b = high;
  let fa = fLow;
  let fb = fHigh;
  checkBracket(a, b, fa, fb);
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let turn = 0; turn < 2000; turn++) {
    // b is the best place, c on the other side of the root, a the best before.
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const near = Number.EPSILON * Math.abs(b) + 0.5 * tolerance;
    const half = 0.5 * (c - b);
    if (Math.abs(half) <= near || fb === 0) return b;
    if (Math.abs(before) < near || Math.abs(fa) <= Math.abs(fb)) {
      step = half;
      before = half;
    } else {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const t = fa / fc;
        const r = fb / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      p = Math.abs(p);
      if (2 * p < Math.min(3 * half * q - Math.abs(near * q), Math.abs(before * q))) {
        before = step;
        step = p / q;
      } else {
        step = half;
        before = half;
      }
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > near ? step : Math.sign(half) * near;
    fb = f(b);
    if (Number.isNaN(fb)) return Number.NaN;
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
  }
  return b;
}

/**
 * Place of a minimum of `f` between two limits: golden section, and a parabola through the best three places while it
 * gains. With one minimum it is found; with several, one of them.
 *
 * @param tolerance error of the place; below about 1.5e-8 of it (the root of rounding) the values no longer differ.
 */
export function minimise(f: (x: number) => number, low: number, high: number, tolerance: number): number {
  const golden = (3 - Math.sqrt(5)) / 2;
  let a = Math.min(low, high);
  let b = Math.max(low, high);
  let x = a + golden * (b - a);
  let w = x;
  let v = x;
  let fx = f(x);
  let fw = fx;
  let fv = fx;
  let step = 0;
  let before = 0;
  for (let turn = 0; turn < 500; turn++) {
    const middle = 0.5 * (a + b);
    const near = 1.5e-8 * Math.abs(x) + tolerance / 3;
    if (Math.abs(x - middle) <= 2 * near - 0.5 * (b - a)) return x;
    let parabola = false;
    if (Math.abs(before) > near) {
      const r = (x - w) * (fx - fv);
      let q = (x - v) * (fx - fw);
      let p = (x - v) * q - (x - w) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      q = Math.abs(q);
      if (Math.abs(p) < Math.abs(0.5 * q * before) && p > q * (a - x) && p < q * (b - x)) {
        before = step;
        step = p / q;
        parabola = true;
        const u = x + step;
        if (u - a < 2 * near || b - u < 2 * near) step = x < middle ? near : -near;
      }
    }
    if (!parabola) {
      before = x < middle ? b - x : a - x;
      step = golden * before;
    }
    const u = x + (Math.abs(step) >= near ? step : Math.sign(step) * near);
    const fu = f(u);
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      [v, w, x] = [w, x, u];
      [fv, fw, fx] = [fw, fx, fu];
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu <= fw || w === x) {
        [v, w] = [w, u];
        [fv, fw] = [fw, fu];
      } else if (fu <= fv || v === x || v === w) {
        v = u;
        fv = fu;
      }
    }
  }
  return x;
}
