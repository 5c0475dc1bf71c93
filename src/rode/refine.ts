import type { CompiledRode } from "./compile.ts";
import { DZ_DEXCESS, DZ_DH, march, X, Z } from "./march.ts";
import { CLOSED, evaluate, STATED_ANCHOR, STATED_SPAN, solution, state, stated } from "./solve-state.ts";

/** How far off z and the stated quantity may be left: what rounding makes of a rode a million times stiffer one way. */
const PASSABLE = 1e-11;

/**
 * Newton steps in both unknowns from a point near the solution, keeping the best: a search that closed z first leaves the
 * stated quantity as blurred as z is stiff. Leaves `solution` and `state` at the best.
 * @returns whether both equations hold
 */
export function refine(rode: CompiledRode, kind: number, target: number): boolean {
  const lengths = rode.rise + rode.totalLength;
  let H = solution[0]!;
  let excess = solution[1]!;
  let best = Number.POSITIVE_INFINITY;
  let passable = false;
  let bestH = H;
  let bestExcess = excess;
  for (let i = 0; i < 6; i++) {
    march(rode, H, excess, state, null);
    evaluate(kind);
    const f = state[Z]! - rode.rise;
    const g = stated[0]! - target;
    // The anchor's load is the bow's less friction, a span what a long rode leaves: no sharper than the larger rounds.
    const size = target + 1e-3 * (kind === STATED_ANCHOR ? H : kind === STATED_SPAN ? lengths : 0);
    const off = Math.max(Math.abs(f) / lengths, Math.abs(g) / size);
    if (off < best) {
      best = off;
      bestH = H;
      bestExcess = excess;
      // A rode stretched to many times its length rounds with that; an excess far larger than what hangs rounds coarsely.
      const blur = 4e-16 * Math.abs(excess);
      passable =
        Math.abs(f) <= PASSABLE * (lengths + Math.abs(state[X]!)) + blur * Math.abs(state[DZ_DEXCESS]!) &&
        Math.abs(g) <= PASSABLE * size + blur * Math.abs(stated[2]!);
    }
    if (off <= CLOSED) break;
    const fH = state[DZ_DH]!;
    const fL = state[DZ_DEXCESS]!;
    const dH = (f * stated[2]! - g * fL) / (fL * stated[1]! - fH * stated[2]!);
    H += dH;
    excess -= (f + fH * dH) / fL;
    if (!(H > 0 && excess >= -rode.totalLow)) break;
  }
  solution[0] = bestH;
  solution[1] = bestExcess;
  march(rode, bestH, bestExcess, state, null);
  return passable;
}
