/** First guesses for a solve, from a uniform rode of the same length and mean weight. */
import type { CompiledRode } from "./compile.ts";
import { GIVEN_ANCHOR, GIVEN_BOW, GIVEN_HORIZONTAL } from "./given.ts";

/** H, N, > 0: the rode hangs from the rise, or is nearly straight. */
export function guessH(rode: CompiledRode, kind: number, target: number): number {
  const w = rode.totalLow / rode.totalLength;
  const hang = w * rode.rise;
  if (kind === GIVEN_HORIZONTAL) return target;
  const reach = Math.sqrt(Math.max(rode.totalLength ** 2 - rode.rise ** 2, 1e-12 * rode.totalLength ** 2));
  if (kind === GIVEN_BOW) {
    const straight = (target * reach) / rode.totalLength;
    return target - hang > 0.2 * target ? Math.min(target - hang, straight) : 0.2 * target;
  }
  if (kind === GIVEN_ANCHOR) return Math.max(target * (reach / rode.totalLength), 0.3 * target);
  const chord = Math.hypot(target, rode.rise);
  const slack = Math.max(rode.totalLength / chord - 1, 1e-6);
  return Math.max((w * target * target) / (chord * Math.sqrt(24 * slack)), 1e-3 * hang, 1e-9);
}

/** The lift at a horizontal force, N. */
export function guessLift(rode: CompiledRode, H: number): number {
  const W = rode.totalLow;
  const w = W / rode.totalLength;
  const { rise, totalLength: L, tanSlope: t } = rode;
  const hanging = Math.sqrt(Math.max(w * rise * (2 * H + w * rise), 0));
  if (hanging < W) return hanging - W;
  const reach = Math.sqrt(Math.max(L * L - rise * rise, 1e-12 * L * L));
  return Math.max((H * rise) / reach - 0.5 * W - H * t, -0.5 * W);
}
