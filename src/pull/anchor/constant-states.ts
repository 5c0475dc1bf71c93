import { choleskyInPlace, choleskyInverse } from "../../numeric/index.ts";

/** A state that stands still over a stretch: how it enters the fixes, and what is known of it before. */
export interface ConstantState {
  readonly column: Float64Array;
  readonly mean: number;
  readonly u: number;
}

/** States and what the fixes say of them. */
export interface Estimated {
  readonly value: Float64Array;
  /** Covariance, row by row. */
  readonly covariance: Float64Array;
  /** ln of how likely these fixes are, but for a constant. */
  readonly evidence: number;
}

/**
 * Constant states of a linear Gaussian state-space model from its whitened observations: the filter run once for the
 * observations and once for each column, the states then solved for together.
 *
 * @param y whitened observations, and the columns of `states` whitened likewise
 * @source Rosenberg, Ann. Econ. Soc. Meas. 2 (1973) 399; de Jong, Ann. Statist. 19 (1991) 1073 (both recalled); checked
 * against the dense normal law in test/pull/anchor
 */
export function constantStates(y: Float64Array, states: readonly ConstantState[], logDeterminant: number): Estimated {
  const n = states.length;
  const rest = Float64Array.from(y);
  for (const s of states) if (s.mean !== 0) for (let k = 0; k < rest.length; k++) rest[k]! -= s.mean * s.column[k]!;
  const a = new Float64Array(n * n);
  const b = new Float64Array(n);
  let logs = 0;
  for (let i = 0; i < n; i++) {
    b[i] = dot(states[i]!.column, rest);
    for (let j = 0; j <= i; j++) a[i * n + j] = a[j * n + i] = dot(states[i]!.column, states[j]!.column);
    a[i * n + i]! += 1 / states[i]!.u ** 2;
    logs += 2 * Math.log(states[i]!.u);
  }
  const factor = Float64Array.from(a);
  choleskyInPlace(factor, n);
  const covariance = choleskyInverse(factor, n);
  const value = new Float64Array(n);
  let gained = 0;
  for (let i = 0; i < n; i++) {
    let move = 0;
    for (let j = 0; j < n; j++) move += covariance[i * n + j]! * b[j]!;
    value[i] = states[i]!.mean + move;
    gained += move * b[i]!;
    logs += 2 * Math.log(factor[i * n + i]!);
  }
  return { value, covariance, evidence: -0.5 * (logDeterminant + logs + dot(rest, rest) - gained) };
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}
