/** First guesses for a solve, from a uniform rode of the same length and mean weight. */
import type { CompiledRode } from "./compile.ts";
import { ASKED_EXCESS, ASKED_H } from "./march.ts";
import { STATED_ANCHOR, STATED_BOW, STATED_HORIZONTAL, state, stated, TARGET } from "./solve-state.ts";

/** Guesses both unknowns for what stands in stated[TARGET], into the slots of what a march is asked. */
export function guessAsked(rode: CompiledRode, kind: number): void {
  guessPull(rode, kind);
  guessHang(rode);
  if (kind !== STATED_BOW && kind !== STATED_ANCHOR) return;
  // Where rode rests, what it bears of the load or adds to it follows from how much of it rests: two turns settle that.
  const target = stated[TARGET]!;
  const { rise, totalLength: L, sinSlope } = rode;
  const w = rode.totalLow / L;
  for (let turn = 0; turn < 2 && state[ASKED_EXCESS]! < 0; turn++) {
    const excess = state[ASKED_EXCESS]!;
    // Tension grows by w for every metre climbed, along what hangs as along a bottom without friction.
    const atTouchdown = target - (kind === STATED_ANCHOR ? rode.restDrag * excess : w * rise + sinSlope * excess);
    state[ASKED_H] = Math.max(atTouchdown * rode.cosSlope, 0.2 * target);
    guessHang(rode);
  }
}

/** H, N, > 0: the rode hangs from the rise, or is nearly straight. */
export function guessH(rode: CompiledRode, kind: number, target: number): number {
  stated[TARGET] = target;
  guessPull(rode, kind);
  return state[ASKED_H]!;
}

/** The excess at a horizontal force, N. */
export function guessExcess(rode: CompiledRode, H: number): number {
  state[ASKED_H] = H;
  guessHang(rode);
  return state[ASKED_EXCESS]!;
}

function guessPull(rode: CompiledRode, kind: number): void {
  const target = stated[TARGET]!;
  const w = rode.totalLow / rode.totalLength;
  const { rise, totalLength: L } = rode;
  const hang = w * rise;
  const reach = Math.sqrt(Math.max(L * L - rise * rise, 1e-12 * L * L));
  if (kind === STATED_HORIZONTAL) {
    state[ASKED_H] = target;
  } else if (kind === STATED_BOW) {
    const straight = (target * reach) / L;
    state[ASKED_H] = target - hang > 0.2 * target ? Math.min(target - hang, straight) : 0.2 * target;
  } else if (kind === STATED_ANCHOR) {
    state[ASKED_H] = Math.max(target * (reach / L), 0.3 * target);
  } else {
    const chord = Math.hypot(target, rise);
    const slack = Math.max(L / chord - 1, 1e-6);
    state[ASKED_H] = Math.max((w * target * target) / (chord * Math.sqrt(24 * slack)), 1e-3 * hang, 1e-9);
  }
}

/**
 * What hangs, `hang` N of weight, leaves the bottom tangent to it: with V = H t at touchdown and T − w z the same at both
 * its ends, √(H² + (H t + hang)²) = H/cos + w (rise − sin (L − hang/w)), a quadratic in `hang`.
 */
function guessHang(rode: CompiledRode): void {
  const H = state[ASKED_H]!;
  const W = rode.totalLow;
  const { rise, totalLength: L, tanSlope: t, sinSlope: sin, cosSlope: cos } = rode;
  const A = (W / L) * rise - W * sin + H / cos;
  const b = H * t - A * sin;
  const square = b * b + A * cos * (A * cos) - H * H;
  const hang = square > 0 ? (Math.sqrt(square) - b) / (cos * cos) : 0;
  if (hang > 0 && hang < W) {
    state[ASKED_EXCESS] = hang - W;
  } else {
    const reach = Math.sqrt(Math.max(L * L - rise * rise, 1e-12 * L * L));
    state[ASKED_EXCESS] = Math.max((H * rise) / reach - 0.5 * W - H * t, -0.5 * W);
  }
}
