/**
 * The equilibria of a rode run through by H, for the rodes whose load at an end is not monotone in it: where rode at rest
 * on a slope is soft, a heavier pull stretches it up the slope, shortens what hangs, and may lighten the bow. Looked at
 * only where the plain search found nothing.
 */
import { brent } from "../numeric/index.ts";
import { closeRise } from "./close-rise.ts";
import type { CompiledRode } from "./compile.ts";
import { guessExcess } from "./guess.ts";
import { X } from "./march.ts";
import { refine } from "./refine.ts";
import { CLOSED, evaluate, SOLVED, solution, state, stated } from "./solve-state.ts";

const STEPS = 96;
const LEAST = 1e-10;
const MOST = 1e8;

/** @returns true with `solution` and `state` filled at the first crossing of the target */
export function sweepForce(rode: CompiledRode, kind: number, target: number): boolean {
  let before = Number.NaN;
  let missBefore = Number.NaN;
  for (let i = 0; i <= STEPS; i++) {
    const H = rode.totalLow * LEAST * (MOST / LEAST) ** (i / STEPS);
    const miss = missAt(rode, kind, target, H);
    if (missBefore * miss <= 0 && closePull(rode, kind, target, before, missBefore, H, miss)) return true;
    before = H;
    missBefore = miss;
  }
  return false;
}

/** What is stated less the target; NaN where there is no state afloat. */
function missAt(rode: CompiledRode, kind: number, target: number, H: number): number {
  if (closeRise(rode, H, guessExcess(rode, H)) !== SOLVED || state[X]! >= rode.afloatBelow) return Number.NaN;
  solution[0] = H;
  evaluate(kind);
  return stated[0]! - target;
}

function closePull(
  rode: CompiledRode,
  kind: number,
  target: number,
  from: number,
  missFrom: number,
  to: number,
  missTo: number,
): boolean {
  const miss = (u: number): number => missAt(rode, kind, target, Math.exp(u));
  // A state closes no nearer than this share of it.
  const root = brent((u) => snapped(miss(u), target), Math.log(from), Math.log(to), 0, missFrom, missTo);
  if (Number.isNaN(root) || Number.isNaN(miss(root))) return false;
  return refine(rode, kind, target) && state[X]! < rode.afloatBelow;
}

function snapped(miss: number, target: number): number {
  return Math.abs(miss) <= CLOSED * target ? 0 : miss;
}
