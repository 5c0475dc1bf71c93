/** What is stated of a rode, how a solve ends, and the numbers it leaves: shared by the files that solve. */
import {
  ANCHOR,
  ASKED_H,
  DANCHOR_DEXCESS,
  DANCHOR_DH,
  DV_DEXCESS,
  DV_DH,
  DX_DEXCESS,
  DX_DH,
  MARCH_SLOTS,
  V,
  X,
} from "./march.ts";

/** What is stated: horizontal force, tension at the bow, tension at the anchor (N), or span (m). */
export const STATED_HORIZONTAL = 0;
export const STATED_BOW = 1;
export const STATED_ANCHOR = 2;
export const STATED_SPAN = 3;
export const KINDS = {
  horizontal: STATED_HORIZONTAL,
  bow: STATED_BOW,
  anchor: STATED_ANCHOR,
  span: STATED_SPAN,
} as const;

/** How a solve ended. */
export const SOLVED = 0;
/** Not even the least horizontal force leaves so little of what was stated. */
export const TOO_LITTLE = 1;
/** No horizontal force, however large, gives so much. */
export const TOO_MUCH = 2;
/** A point weight lies just in the water surface: its weight there is between its two. */
export const AT_SURFACE = 3;
/** The rode lies on a bottom that rises past the bow roller. */
export const AGROUND = 4;
/** What is stated jumps past the target as the pull grows: the rode snaps from one shape to another. */
export const JUMPS = 5;

/** z closes to this share of the rode's and the rise's length: some tens of roundings of the march's sums. */
export const CLOSED = 2e-14;

/** The last march: its slots are those of march.ts. Overwritten by every solve. */
export const state = new Float64Array(MARCH_SLOTS);
/** The solution: H, excess. */
export const solution = new Float64Array(2);
/** What is stated, N or m: where `solveStated` looks for it. */
export const TARGET = 3;
/** Value and both derivatives of the stated quantity, and what is stated. */
export const stated = new Float64Array(4);

/** The stated quantity at the last march into stated[0], its derivatives by H and excess into stated[1], stated[2]. */
export function evaluate(kind: number): void {
  const H = state[ASKED_H]!;
  if (kind === STATED_HORIZONTAL) {
    stated[0] = H;
    stated[1] = 1;
    stated[2] = 0;
  } else if (kind === STATED_BOW) {
    const v = state[V]!;
    const T = Math.sqrt(H * H + v * v);
    stated[0] = T;
    stated[1] = (H + v * state[DV_DH]!) / T;
    stated[2] = (v * state[DV_DEXCESS]!) / T;
  } else if (kind === STATED_ANCHOR) {
    stated[0] = state[ANCHOR]!;
    stated[1] = state[DANCHOR_DH]!;
    stated[2] = state[DANCHOR_DEXCESS]!;
  } else {
    stated[0] = state[X]!;
    stated[1] = state[DX_DH]!;
    stated[2] = state[DX_DEXCESS]!;
  }
}
