/** Forces at the two ends of a moving rode. */
import type { RodeState } from "./rode-state.ts";

/** Slots of `endForces`. */
export const ANCHOR_TENSION = 0;
/** Slot of the angle at the anchor, rad. */
export const ANCHOR_ANGLE = 1;
/** Slot of whether the anchor's end is off the bottom. */
export const ANCHOR_LIFTED = 2;
/** Slot of the tension at the bow, N. */
export const BOW_TENSION = 3;
/** Slot of the angle at the bow, rad. */
export const BOW_ANGLE = 4;
/** How many slots the ends take. */
export const END_SLOTS = 5;

/**
 * What the anchor and the bow feel, as the forces were last worked out: tension, N; angle at the anchor above the bottom
 * and at the bow above the horizontal, rad; whether the anchor's end is off the bottom (1 or 0).
 */
export function endForces(state: RodeState, out: Float64Array): void {
  const { force, around, elements } = state;
  const up = around.cosSlope * force[0]! + around.sinSlope * force[2]!;
  const off = -around.sinSlope * force[0]! + around.cosSlope * force[2]!;
  // Square roots in place of Math.hypot, which makes its arguments anew in memory.
  const along = Math.sqrt(up * up + force[1]! * force[1]!);
  const lifted = off > 0;
  out[ANCHOR_LIFTED] = lifted ? 1 : 0;
  out[ANCHOR_TENSION] = lifted ? Math.sqrt(along * along + off * off) : along;
  out[ANCHOR_ANGLE] = lifted ? Math.atan2(off, along) : 0;
  const b = 3 * elements.count;
  const level = Math.sqrt(force[b]! * force[b]! + force[b + 1]! * force[b + 1]!);
  out[BOW_TENSION] = Math.sqrt(level * level + force[b + 2]! * force[b + 2]!);
  out[BOW_ANGLE] = Math.atan2(-force[b + 2]!, level);
}
