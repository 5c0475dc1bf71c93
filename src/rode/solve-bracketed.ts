/**
 * The search that stands behind Newton's: closes z at each H it tries, inside a bracket of H that only shrinks. What is
 * stated grows with H along z = rise as far as the boat is afloat, so it cannot fail, only be slower; the one exception, a
 * soft rode stretching down a falling bottom that holds it by friction, is left to sweep-excess.ts.
 */

import { closeRise } from "./close-rise.ts";
import type { CompiledRode } from "./compile.ts";
import { guessExcess, guessH } from "./guess.ts";
import { DZ_DEXCESS, DZ_DH, X } from "./march.ts";
import { refine } from "./refine.ts";
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
  TOO_LITTLE,
  TOO_MUCH,
} from "./solve-state.ts";
import { sweepExcess } from "./sweep-excess.ts";

export function solveBracketed(rode: CompiledRode, kind: number, target: number): number {
  if (kind === STATED_HORIZONTAL) {
    const how = closeRise(rode, target, guessExcess(rode, target));
    solution[0] = target;
    return how;
  }
  // A load at either end is felt beside the least H there is; a span may turn on the last trace of it.
  const least = kind === STATED_SPAN ? 1e-17 * rode.totalLow : 1e-13 * (rode.totalLow + target);
  let H = guessH(rode, kind, target);
  let lo = 0;
  let hi = Number.POSITIVE_INFINITY;
  let groundedAbove = false;
  let excess = guessExcess(rode, H);
  for (let i = 0; i < 600; i++) {
    const how = closeRise(rode, H, excess);
    excess = solution[1]!;
    if (how === AGROUND || (how === SOLVED && state[X]! >= rode.afloatBelow)) {
      // The rode reaches past where a rising bottom leaves the water: so does it under every heavier pull, whatever the
      // load at either end does there.
      hi = H;
      groundedAbove = true;
      H = lo > 0 ? Math.sqrt(lo * H) : H / 4;
      if (hi < 1e-12 * (target + rode.totalLow) || !(H > lo && H < hi)) return AGROUND;
      continue;
    }
    if (how !== SOLVED) {
      solution[0] = H;
      return how;
    }
    evaluate(kind);
    const g = stated[0]! - target;
    if (Math.abs(g) <= CLOSED * target) break;
    if (g < 0) lo = H;
    else {
      hi = H;
      groundedAbove = false;
    }
    // Along z = rise: dg/dH = g_H − g_lift z_H / z_lift.
    const along = stated[1]! - (stated[2]! * state[DZ_DH]!) / state[DZ_DEXCESS]!;
    let next = along > 0 ? H - g / along : Number.NaN;
    if (hi === Number.POSITIVE_INFINITY) {
      if (!(next > H)) next = 4 * H;
      if (next > 64 * H) next = 64 * H;
      if (H > 1e18 * (target + rode.totalLow + 1)) return TOO_MUCH;
    } else if (lo === 0) {
      if (!(next > 0 && next < hi)) next = hi / 16;
      if (hi < least) {
        solution[0] = H;
        return TOO_LITTLE;
      }
    } else if (!(next > lo && next < hi) || i % 6 === 5) {
      next = Math.sqrt(lo * hi);
    }
    if (next === H || next === lo || next === hi) {
      if (!(hi - lo > 1e-15 * hi)) break;
      next = Math.sqrt(lo * hi);
      if (next === lo || next === hi) break;
    }
    excess += (-state[DZ_DH]! / state[DZ_DEXCESS]!) * (next - H);
    H = next;
  }
  solution[0] = H;
  solution[1] = excess;
  if (refine(rode, kind, target)) return SOLVED;
  return groundedAbove ? AGROUND : sweepExcess(rode, kind, target);
}
