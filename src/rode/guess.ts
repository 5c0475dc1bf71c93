/** First guesses for a solve, from a uniform rode of the same length and mean weight. */
import type { CompiledRode } from "./compile.ts";
import { GIVEN_ANCHOR, GIVEN_BOW, GIVEN_HORIZONTAL, given, STATED, state } from "./given.ts";
import { ASKED_H, ASKED_LIFT } from "./march.ts";

/** Guesses both unknowns for what stands in given[STATED], into the slots of what a march is asked. */
export function guessAsked(rode: CompiledRode, kind: number): void {
  guessPull(rode, kind);
  guessHang(rode);
}

/** H, N, > 0: the rode hangs from the rise, or is nearly straight. */
export function guessH(rode: CompiledRode, kind: number, target: number): number {
  given[STATED] = target;
  guessPull(rode, kind);
  return state[ASKED_H]!;
}

/** The lift at a horizontal force, N. */
export function guessLift(rode: CompiledRode, H: number): number {
  state[ASKED_H] = H;
  guessHang(rode);
  return state[ASKED_LIFT]!;
}

function guessPull(rode: CompiledRode, kind: number): void {
  const target = given[STATED]!;
  const w = rode.totalLow / rode.totalLength;
  const { rise, totalLength: L } = rode;
  const hang = w * rise;
  const reach = Math.sqrt(Math.max(L * L - rise * rise, 1e-12 * L * L));
  if (kind === GIVEN_HORIZONTAL) {
    state[ASKED_H] = target;
  } else if (kind === GIVEN_BOW) {
    const straight = (target * reach) / L;
    state[ASKED_H] = target - hang > 0.2 * target ? Math.min(target - hang, straight) : 0.2 * target;
  } else if (kind === GIVEN_ANCHOR) {
    state[ASKED_H] = Math.max(target * (reach / L), 0.3 * target);
  } else {
    const chord = Math.hypot(target, rise);
    const slack = Math.max(L / chord - 1, 1e-6);
    state[ASKED_H] = Math.max((w * target * target) / (chord * Math.sqrt(24 * slack)), 1e-3 * hang, 1e-9);
  }
}

function guessHang(rode: CompiledRode): void {
  const H = state[ASKED_H]!;
  const W = rode.totalLow;
  const w = W / rode.totalLength;
  const { rise, totalLength: L, tanSlope: t } = rode;
  const hanging = Math.sqrt(Math.max(w * rise * (2 * H + w * rise), 0));
  const reach = Math.sqrt(Math.max(L * L - rise * rise, 1e-12 * L * L));
  state[ASKED_LIFT] = hanging < W ? hanging - W : Math.max((H * rise) / reach - 0.5 * W - H * t, -0.5 * W);
}
