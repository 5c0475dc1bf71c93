// The step of a trust region (Moré 1978, Lecture Notes in Mathematics 630, 105): among all steps no longer than the
// radius, the one that lowers |residual − A·step| most. It solves (AᵀA + λ·1)·step = Aᵀ·residual with the λ ≥ 0 at
// which the step is as long as the radius, or with λ = 0 when the free step is short enough. A is given by its QR, and
// each λ is solved by QR of R stacked on √λ·1, never through AᵀA.

import { type Factored, factorise, norm, solveUpper, solveUpperTransposed } from "../numeric/index.ts";

export interface TrustStep {
  readonly step: Float64Array;
  readonly length: number;
  readonly lambda: number;
  /** By how much the sum of squares should fall. */
  readonly promised: number;
}

/**
 * @param factored QR of A, columns of like size.
 * @param head the first `columns` places of Qᵀ·residual.
 * @param radius longest step allowed.
 */
export function trustStep(factored: Factored, head: Float64Array, radius: number): TrustStep {
  const { r, order, rank } = factored;
  const p = order.length;
  const inOrder = new Float64Array(p);
  if (rank === p) {
    solveUpper(r, p, p, head, inOrder);
    const length = norm(inOrder);
    if (length <= 1.1 * radius) return finished(factored, head, inOrder, 0, length);
  }
  // length(λ) falls and is convex; Newton on 1/length − 1/radius meets the root in a few turns (Hebden 1973).
  const gradient = new Float64Array(p);
  for (let j = 0; j < p; j++) for (let i = 0; i <= j; i++) gradient[j]! += r[i * p + j]! * head[i]!;
  let upper = norm(gradient) / radius;
  if (upper === 0) return finished(factored, head, inOrder.fill(0), 0, 0);
  let lower = 0;
  let lambda = Math.max(1e-3 * upper, Number.MIN_VALUE);
  let length = 0;
  for (let turn = 0; turn < 40; turn++) {
    const damped = solveDamped(r, head, p, lambda, inOrder);
    length = norm(inOrder);
    const excess = length - radius;
    if (Math.abs(excess) <= 0.1 * radius) break;
    if (excess > 0) lower = Math.max(lower, lambda);
    else upper = Math.min(upper, lambda);
    const w = new Float64Array(p);
    for (let k = 0; k < p; k++) w[k] = inOrder[damped.order[k]!]! / length;
    solveUpperTransposed(damped.r, p, p, w, w);
    const correction = excess / radius / norm(w) ** 2;
    const next = lambda + correction;
    lambda = next > lower && next < upper ? next : Math.max(1e-3 * upper, Math.sqrt(lower * upper));
  }
  return finished(factored, head, inOrder, lambda, length);
}

/** Least squares of [R; √λ·1]·x = [head; 0]. */
function solveDamped(r: Float64Array, head: Float64Array, p: number, lambda: number, x: Float64Array): Factored {
  const stacked = new Float64Array(2 * p * p);
  stacked.set(r);
  const root = Math.sqrt(lambda);
  for (let j = 0; j < p; j++) stacked[(p + j) * p + j] = root;
  const rhs = new Float64Array(2 * p);
  rhs.set(head);
  const damped = factorise(stacked, 2 * p, p, rhs);
  const solved = new Float64Array(p);
  solveUpper(damped.r, p, damped.rank, rhs, solved);
  for (let k = 0; k < p; k++) x[damped.order[k]!] = solved[k]!;
  return damped;
}

/** Solves (AᵀA + λ·1)·x = b, for a correction to the step: through R, so to fewer digits than the step itself. */
export function solveNormal(factored: Factored, lambda: number, b: Float64Array): Float64Array {
  const { r, order } = factored;
  const p = order.length;
  const x = new Float64Array(p);
  const inOrder = new Float64Array(p);
  for (let k = 0; k < p; k++) inOrder[k] = b[order[k]!]!;
  const damped = lambda > 0 ? solveDamped(r, new Float64Array(p), p, lambda, x) : undefined;
  const upper = damped?.r ?? r;
  const w = new Float64Array(p);
  for (let k = 0; k < p; k++) w[k] = inOrder[damped?.order[k] ?? k]!;
  solveUpperTransposed(upper, p, p, w, w);
  solveUpper(upper, p, p, w, w);
  for (let k = 0; k < p; k++) x[order[damped?.order[k] ?? k]!] = w[k]!;
  return x;
}

function finished(
  factored: Factored,
  head: Float64Array,
  inOrder: Float64Array,
  lambda: number,
  length: number,
): TrustStep {
  const { r, order } = factored;
  const p = order.length;
  const step = new Float64Array(p);
  // |head|² − |head − R·s|², as R·s·(2·head − R·s): no difference of two near squares.
  let promised = 0;
  for (let i = 0; i < p; i++) {
    let moved = 0;
    for (let j = i; j < p; j++) moved += r[i * p + j]! * inOrder[j]!;
    promised += moved * (2 * head[i]! - moved);
    step[order[i]!] = inOrder[i]!;
  }
  return { step, length, lambda, promised };
}
