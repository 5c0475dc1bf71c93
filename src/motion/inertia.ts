/** Inertia of the nodes of a moving rode, with the water that moves with it. */
import { SYMMETRIC_BLOCK } from "../numeric/index.ts";
import { BY_INERTIA, type RodeState } from "./rode-state.ts";

/** Inertia of every node but the anchor at the present places, times what an inertia weighs (BY_INERTIA): mass, and the water moving with each element across and along it. */
export function assembleInertia(state: RodeState): void {
  const share = state.numbers[BY_INERTIA]!;
  const { elements: e, place, inertia, around } = state;
  inertia.fill(0);
  for (let k = 0; k < e.count; k++) {
    const i = 3 * k;
    const dx = place[i + 3]! - place[i]!;
    const dy = place[i + 4]! - place[i + 1]!;
    const dz = place[i + 5]! - place[i + 2]!;
    const squared = dx * dx + dy * dy + dz * dz;
    const wet = 0.5 * wetShare(place[i + 2]!, place[i + 5]!, around.surface);
    const across = wet * e.addedAcross[k]!;
    const along = squared > 0 ? (share * (wet * e.addedAlong[k]! - across)) / squared : 0;
    const own = share * (0.5 * e.mass[k]! + across);
    const xx = own + along * dx * dx;
    const xy = along * dx * dy;
    const xz = along * dx * dz;
    const yy = own + along * dy * dy;
    const yz = along * dy * dz;
    const zz = own + along * dz * dz;
    const a = SYMMETRIC_BLOCK * k;
    for (let b = a; b <= a + SYMMETRIC_BLOCK; b += SYMMETRIC_BLOCK) {
      inertia[b]! += xx;
      inertia[b + 1]! += xy;
      inertia[b + 2]! += xz;
      inertia[b + 3]! += yy;
      inertia[b + 4]! += yz;
      inertia[b + 5]! += zz;
    }
  }
  for (let n = 0; n < state.nodes; n++) {
    const lump = share * (e.pointMass[n]! + (place[3 * n + 2]! <= around.surface ? 0.5 * e.pointDisplaced[n]! : 0));
    if (lump === 0) continue;
    inertia[SYMMETRIC_BLOCK * n]! += lump;
    inertia[SYMMETRIC_BLOCK * n + 3]! += lump;
    inertia[SYMMETRIC_BLOCK * n + 5]! += lump;
  }
  // The anchor stands still: there is nothing to solve for.
  for (let k = 0; k < SYMMETRIC_BLOCK; k++) inertia[k] = 0;
}

/** Share of a straight piece that lies below the surface. */
export function wetShare(z1: number, z2: number, surface: number): number {
  if (z1 <= surface && z2 <= surface) return 1;
  if (z1 >= surface && z2 >= surface) return 0;
  return (surface - Math.min(z1, z2)) / Math.abs(z2 - z1);
}
