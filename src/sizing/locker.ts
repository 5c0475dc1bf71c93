/** What a rode weighs and takes up aboard. */
import type { Part } from "../rode/index.ts";
import { facts } from "./facts.gen.ts";

/** What a rode weighs and takes up aboard. */
export interface Stowed {
  /** kg */
  readonly weight: number;
  /** m³ of a heap of chain and flaked rope, with the standard uncertainty of the heaping. */
  readonly volume: { readonly value: number; readonly u: number };
}

/**
 * Chain (and whatever else is metal) as its metal over the share of a heap that is metal; rope as a full round of its diameter
 * over the share of a flaked heap that is rope.
 */
export function stowed(rode: readonly Part[]): Stowed {
  const { chainSolid, ropeSolid } = facts.locker;
  let [weight, metal, rope] = [0, 0, 0];
  for (const part of rode) {
    const mass = part.kind === "line" ? part.massPerLength * part.length : part.mass;
    weight += mass;
    if (part.kind === "point" || part.material === "chain" || part.material === "wire") metal += mass / part.density;
    else if (part.diameter !== undefined) rope += 0.25 * Math.PI * part.diameter ** 2 * part.length;
    // Without a diameter: fibres fill some seven tenths of the round of a laid rope (12 mm polyamide: 0.089 kg/m of 1140 kg/m³).
    else rope += mass / part.density / 0.7;
  }
  const [chainHeap, ropeHeap] = [metal / chainSolid.value, rope / ropeSolid.value];
  return {
    weight,
    volume: {
      value: chainHeap + ropeHeap,
      u: Math.hypot((chainHeap * chainSolid.u) / chainSolid.value, (ropeHeap * ropeSolid.u) / ropeSolid.value),
    },
  };
}
