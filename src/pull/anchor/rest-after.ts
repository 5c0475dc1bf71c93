import { type ConstantState, dot } from "./constant-states.ts";
import type { Whitener } from "./fix-error.ts";

/** A movement measured beside all other states: its size, and how much the fixes tell of it, 1/u². */
export interface Rest {
  value: number;
  left: number;
}

/** Less than this share of a movement's own column left by the other states tells nothing of it. */
const NONE_LEFT = 1e-6;

/**
 * Movements at one speed measured beside other states, fast for many windows: the other states are made orthogonal once
 * (Gram–Schmidt, what is known of one beforehand being a row more), and their products with any ramp come from running
 * sums behind the transposed filter.
 *
 * @param states whitened
 * @returns the movement beginning `from` steps in and `long` steps long, given the sum of squares of its whitened column;
 * the same object each time
 */
export function restAfter(
  whitener: Whitener,
  y: Float64Array,
  states: readonly ConstantState[],
): (from: number, long: number, power: number) => Readonly<Rest> {
  const basis: { v: Float64Array; rows: Float64Array }[] = [];
  const project = (v: Float64Array, rows: Float64Array): void => {
    for (const q of basis) {
      const c = dot(v, q.v) + dot(rows, q.rows);
      for (let k = 0; k < v.length; k++) v[k]! -= c * q.v[k]!;
      for (let k = 0; k < rows.length; k++) rows[k]! -= c * q.rows[k]!;
    }
  };
  states.forEach((s, j) => {
    const v = Float64Array.from(s.column);
    const rows = Float64Array.from(states, (_, i) => (i === j ? 1 / s.u : 0));
    project(v, rows);
    const size = Math.sqrt(dot(v, v) + dot(rows, rows));
    if (size > 1e-9) basis.push({ v: v.map((x) => x / size), rows: rows.map((x) => x / size) });
  });
  const target = whitener.whiten(y);
  project(
    target,
    Float64Array.from(states, (s) => s.mean / s.u),
  );
  const ofTarget = rampProduct(whitener.transposed(target));
  const ofBasis = basis.map((q) => rampProduct(whitener.transposed(q.v)));
  const out: Rest = { value: 0, left: 0 };
  return (from, long, power) => {
    let left = power;
    for (const product of ofBasis) left -= product(from, long) ** 2;
    out.left = left > NONE_LEFT * power ? left : 0;
    out.value = out.left > 0 ? ofTarget(from, long) / left : 0;
    return out;
  };
}

/** Product of a series with a ramp from 0 at `from` to 1 `long` steps on, by sums from each step to the end. */
function rampProduct(series: Float64Array): (from: number, long: number) => number {
  const n = series.length;
  const plain = new Float64Array(n + 1);
  const timed = new Float64Array(n + 1);
  for (let k = n - 1; k >= 0; k--) {
    plain[k] = plain[k + 1]! + series[k]!;
    timed[k] = timed[k + 1]! + (k + 0.5) * series[k]!;
  }
  const stepOf = (t: number): number => Math.min(n, Math.max(0, Math.ceil(t - 0.5)));
  return (from, long) => {
    const [a, b] = [stepOf(from), stepOf(from + long)];
    return (timed[a]! - timed[b]! - from * (plain[a]! - plain[b]!)) / long + plain[b]!;
  };
}
