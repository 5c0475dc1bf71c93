import type { CompiledRode } from "./compile.ts";
import { DZ_DEXCESS, march, Z } from "./march.ts";
import { AGROUND, AT_SURFACE, CLOSED, SOLVED, solution, state } from "./solve-state.ts";

/**
 * The excess that closes z at a fixed H, by Newton inside a bracket that only shrinks. Leaves the last march in `state`.
 * @returns SOLVED, AGROUND or AT_SURFACE; the excess in solution[1]
 */
export function closeRise(rode: CompiledRode, H: number, start: number): number {
  const closed = CLOSED * (rode.rise + rode.totalLength);
  let lo = -rode.totalLow;
  march(rode, H, lo, state, null);
  if (state[Z]! >= rode.rise) return AGROUND;
  let hi = Number.POSITIVE_INFINITY;
  let excess = start > lo ? start : lo * 0.5;
  let width = Math.max(rode.totalLow, H, Math.abs(excess));
  for (let i = 0; i < 400; i++) {
    march(rode, H, excess, state, null);
    const f = state[Z]! - rode.rise;
    if (Math.abs(f) <= closed) break;
    if (f < 0) lo = excess;
    else hi = excess;
    const slope = state[DZ_DEXCESS]!;
    let next = slope > 0 ? excess - f / slope : Number.NaN;
    if (hi === Number.POSITIVE_INFINITY) {
      if (!(next > excess)) next = excess + width;
      if (next > excess + 8 * width) next = excess + 8 * width;
      width *= 4;
    } else if (!(next > lo && next < hi) || i % 6 === 5) {
      next = 0.5 * (lo + hi);
    }
    if (next === excess || next === lo || next === hi) {
      // The bracket is two neighbouring numbers: either rounding closes it, or z jumps there.
      const near = 4e-16 * Math.max(Math.abs(lo), Math.abs(hi));
      if (Math.abs(f) > 1e5 * closed && hi - lo <= near) {
        solution[1] = excess;
        return AT_SURFACE;
      }
      if (!(hi - lo > near)) break;
      next = 0.5 * (lo + hi);
      if (next === lo || next === hi) break;
    }
    excess = next;
  }
  solution[1] = excess;
  return SOLVED;
}
