/** Rows of the solver's system for the two ends: one that does not move by what is solved for, and the bow in its own coordinates. */
import { type BlockTridiagonal, FULL_BLOCK, SYMMETRIC_BLOCK } from "../numeric/index.ts";
import type { Bow } from "./bow.ts";
import { AT_TIME, BY_INERTIA, BY_PLACE, BY_RATE, type RodeState } from "./rode-state.ts";

const when = new Float64Array(1);
const bowForce = new Float64Array(3);
const bowDamping = new Float64Array(9);
const bowStiffness = new Float64Array(9);
const product = new Float64Array(FULL_BLOCK);
/** Where each of a symmetric block's nine numbers stands among its six. */
const PLACE = Int32Array.of(0, 1, 2, 1, 3, 4, 2, 4, 5);

/** Takes an end node out of the system. */
export function holdNode(system: BlockTridiagonal, right: Float64Array, n: number): void {
  const { diagonal, beside, count } = system;
  const d = SYMMETRIC_BLOCK * n;
  const b = FULL_BLOCK * n;
  for (let k = 0; k < SYMMETRIC_BLOCK; k++) diagonal[d + k] = 0;
  diagonal[d] = 1;
  diagonal[d + 3] = 1;
  diagonal[d + 5] = 1;
  if (n > 0) for (let k = b - FULL_BLOCK; k < b; k++) beside[k] = 0;
  if (n < count - 1) for (let k = b; k < b + FULL_BLOCK; k++) beside[k] = 0;
  for (let k = 0; k < 3; k++) right[3 * n + k] = 0;
}

/** The bow within a step: its coordinates, their rates and accelerations where forces are worked out, ∂p/∂q, and its inertia. */
export interface BowBetween {
  readonly q: Float64Array;
  readonly rate: Float64Array;
  readonly acceleration: Float64Array;
  readonly byQ: Float64Array;
  readonly inertia: Float64Array;
}

/**
 * The bow's equations in its own coordinates, with B = ∂p/∂q: forces Bᵀ f + Q − M q̈, its block Bᵀ D B with M and what damps
 * and stiffens it of its own, and C B beside it.
 */
export function bowRow(state: RodeState, bow: Bow, { q, rate, acceleration, byQ, inertia }: BowBetween): void {
  const { nodes, system, change, force, numbers } = state;
  const { diagonal, beside } = system;
  const byInertia = numbers[BY_INERTIA]!;
  const byPlace = numbers[BY_PLACE]!;
  const byRate = numbers[BY_RATE]!;
  const last = 3 * (nodes - 1);
  when[0] = numbers[AT_TIME]!;
  bow.force(q, rate, when, bowForce, bowDamping, bowStiffness);
  for (let r = 0; r < 3; r++) {
    let sum = bowForce[r]!;
    for (let k = 0; k < 3; k++) {
      sum += byQ[3 * k + r]! * force[last + k]!;
      sum -= inertia[3 * r + k]! * acceleration[k]!;
    }
    change[last + r] = sum;
  }
  const d = SYMMETRIC_BLOCK * (nodes - 1);
  for (let r = 0; r < 3; r++)
    for (let k = 0; k < 3; k++) {
      let sum = 0;
      for (let m = 0; m < 3; m++) sum += diagonal[d + PLACE[3 * r + m]!]! * byQ[3 * m + k]!;
      product[3 * r + k] = sum;
    }
  for (let r = 0; r < 3; r++)
    for (let k = r; k < 3; k++) {
      const i = 3 * r + k;
      let sum = byInertia * inertia[i]! + byRate * bowDamping[i]! + byPlace * bowStiffness[i]!;
      for (let m = 0; m < 3; m++) sum += byQ[3 * m + r]! * product[3 * m + k]!;
      diagonal[d + PLACE[i]!] = sum;
    }
  const b = FULL_BLOCK * (nodes - 2);
  for (let r = 0; r < 3; r++)
    for (let k = 0; k < 3; k++) {
      let sum = 0;
      for (let m = 0; m < 3; m++) sum += beside[b + 3 * r + m]! * byQ[3 * m + k]!;
      product[3 * r + k] = sum;
    }
  beside.set(product, b);
}
