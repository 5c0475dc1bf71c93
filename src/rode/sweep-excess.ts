/**
 * The equilibria of a rode as a curve run through by the excess of the anchor instead of by H. On a level or falling bottom
 * the bow sinks as H grows at a fixed excess, so each excess has one H at most, even where one H has several excesses: a rode
 * soft enough to stretch by its own length down a falling bottom that holds it by friction. The first crossing of the
 * target, counted from the most that can rest, is the answer.
 */
import { brent } from "../numeric/index.ts";
import type { CompiledRode } from "./compile.ts";
import { DZ_DH, march, Z } from "./march.ts";
import { refine } from "./refine.ts";
import { AT_SURFACE, CLOSED, evaluate, JUMPS, SOLVED, solution, state, stated } from "./solve-state.ts";

const STEPS = 240;

/** @returns SOLVED with `solution` and `state` filled, AT_SURFACE, or JUMPS */
export function sweepExcess(rode: CompiledRode, kind: number, target: number): number {
  if (rode.tanSlope > 0) return JUMPS;
  let before = Number.NaN;
  let missBefore = Number.NaN;
  for (let i = 0; i <= STEPS; i++) {
    const excess = excessAt(rode, i / STEPS);
    const miss = missAt(rode, kind, target, excess);
    if (missBefore <= 0 && miss >= 0 && closeExcess(rode, kind, target, before, missBefore, excess, miss))
      return SOLVED;
    before = excess;
    missBefore = miss;
  }
  return Math.abs(state[Z]! - rode.rise) > 1e-9 * rode.rise ? AT_SURFACE : JUMPS;
}

/** Excesses from all that rests (u = 0) over lift-off (u = ½) to a million times the weight. */
function excessAt(rode: CompiledRode, u: number): number {
  if (u <= 0.5) return -rode.totalLow * (1 - 2 * u);
  return rode.totalLow * (1e6 ** (2 * u - 1) - 1);
}

/** The stated quantity less the target at the H that closes z for an excess; NaN when none does. */
function missAt(rode: CompiledRode, kind: number, target: number, excess: number): number {
  const H = closeH(rode, excess);
  if (Number.isNaN(H)) return Number.NaN;
  solution[0] = H;
  solution[1] = excess;
  evaluate(kind);
  return stated[0]! - target;
}

/** H at which z closes for a fixed excess, N; NaN when the rode at rest is too long to reach the roller. */
function closeH(rode: CompiledRode, excess: number): number {
  const closed = CLOSED * (rode.rise + rode.totalLength);
  let lo = 0;
  let hi = Number.POSITIVE_INFINITY;
  let H = rode.totalLow;
  for (let i = 0; i < 300; i++) {
    march(rode, H, excess, state, null);
    const f = state[Z]! - rode.rise;
    if (Math.abs(f) <= closed) return H;
    if (f > 0) lo = H;
    else hi = H;
    let next = H - f / state[DZ_DH]!;
    if (!(next > lo && next < hi) || i % 5 === 4) {
      next = lo === 0 ? hi / 16 : hi === Number.POSITIVE_INFINITY ? 16 * lo : Math.sqrt(lo * hi);
    }
    if (hi < 1e-13 * rode.totalLow || lo > 1e18 * rode.totalLow) return Number.NaN;
    if (next === H || !(next > lo && next < hi)) return H;
    H = next;
  }
  return H;
}

function closeExcess(
  rode: CompiledRode,
  kind: number,
  target: number,
  from: number,
  missFrom: number,
  to: number,
  missTo: number,
): boolean {
  const miss = (excess: number): number => {
    const off = missAt(rode, kind, target, excess);
    return Math.abs(off) <= CLOSED * target ? 0 : off;
  };
  const root = brent(miss, from, to, 0, missFrom, missTo);
  if (Number.isNaN(root) || Number.isNaN(miss(root))) return false;
  return refine(rode, kind, target);
}
