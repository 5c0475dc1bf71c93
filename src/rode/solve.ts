/**
 * Finds the horizontal force H and the anchor's vertical excess at which a rode heavier than its water meets the bow roller under a
 * stated load: two equations,
 *
 *     z(H, excess) = rise,     g(H, excess) = target,    g one of: H, tension at the bow, tension at the anchor, span,
 *
 * by Newton on the march's own derivatives. Where Newton leaves the way a nested search inside shrinking brackets takes
 * over (solve-bracketed.ts).
 */

import type { CompiledRode } from "./compile.ts";
import { guessAsked } from "./guess.ts";
import { ASKED_EXCESS, ASKED_H, DZ_DEXCESS, DZ_DH, marchAsked, X, Z } from "./march.ts";
import { refine } from "./refine.ts";
import { solveBracketed } from "./solve-bracketed.ts";
import {
  AGROUND,
  CLOSED,
  evaluate,
  SOLVED,
  STATED_HORIZONTAL,
  STATED_SPAN,
  solution,
  state,
  stated,
  TARGET,
  TOO_LITTLE,
} from "./solve-state.ts";
import { sweepForce } from "./sweep-force.ts";

const MOST_NEWTON = 24;
/** Past this closeness one more Newton step lands at rounding: quadratic convergence squares it. */
const NEAR = 1e-7;

/**
 * @param kind one of the STATED_ values
 * @param target N or m, > 0
 * @returns SOLVED with `solution` and `state` filled, or why there is no such state
 */
export function solve(rode: CompiledRode, kind: number, target: number): number {
  stated[TARGET] = target;
  return solveStated(rode, kind);
}

/** As `solve`, for the target that stands in stated[TARGET]: where Newton closes, nothing is put on the heap. */
export function solveStated(rode: CompiledRode, kind: number): number {
  const target = stated[TARGET]!;
  const at = state;
  const scale = rode.rise + rode.totalLength;
  const closed = CLOSED * scale;
  guessAsked(rode, kind);
  let last = false;
  for (let i = 0; i < MOST_NEWTON; i++) {
    const H = at[ASKED_H]!;
    const excess = at[ASKED_EXCESS]!;
    marchAsked(rode, at, null, last || kind === STATED_SPAN);
    evaluate(kind);
    const f = at[Z]! - rode.rise;
    const g = stated[0]! - target;
    const off = Math.abs(g) / target;
    const miss = f < 0 ? -f : f;
    const closes = miss <= closed && off <= CLOSED;
    if (last || closes) {
      // Closed sooner than foreseen: the span was not looked at.
      if (!last && kind !== STATED_SPAN) marchAsked(rode, at, null, true);
      if (miss <= 1e3 * closed && off <= 1e3 * CLOSED && (at[X]! < rode.afloatBelow || kind === STATED_HORIZONTAL)) {
        solution[0] = H;
        solution[1] = excess;
        // Where the surface cuts a nearly level rode the step lands short of rounding: a few more close it.
        if (miss <= 20 * closed || refine(rode, kind, target)) return SOLVED;
      }
      break;
    }
    last = miss <= NEAR * scale && off <= NEAR;
    const fH = at[DZ_DH]!;
    const fL = at[DZ_DEXCESS]!;
    const det = fL * stated[1]! - fH * stated[2]!;
    const dH = (fH === 0 && kind === STATED_HORIZONTAL) || det === 0 ? -g : (f * stated[2]! - g * fL) / det;
    const nextH = H + dH;
    const dL = fL > 0 ? -(f + fH * dH) / fL : 0;
    if (Number.isNaN(dH) || Number.isNaN(dL) || nextH > 1e3 * H || fL <= 0) break;
    // Steps that would leave H > 0 are cut; excess may not pass below the weight of all that can rest.
    at[ASKED_H] = Math.max(nextH, 0.1 * H);
    at[ASKED_EXCESS] = excess + dL < -rode.totalLow ? -rode.totalLow * (1 - 1e-3) : excess + dL;
  }
  const how = solveBracketed(rode, kind, target);
  const turns = kind !== STATED_HORIZONTAL && kind !== STATED_SPAN && rode.tanSlope !== 0 && rode.stretches;
  if (turns && (how === TOO_LITTLE || how === AGROUND) && sweepForce(rode, kind, target)) return SOLVED;
  return how;
}
