/** A rode over the load, point by point: for the page's own thread where that is quick, for a worker where it is not. */
import { compile, endForcesOf, inStillWater, type Rig } from "../../rode/index.ts";
import type { End } from "./state.ts";

export interface Points {
  /** At the stated end, N. */
  readonly loads: Float64Array;
  /** At the anchor, rad; NaN where there is no equilibrium. */
  readonly angle: Float64Array;
  /** m */
  readonly span: Float64Array;
}

/** Points of a curve that is drawn at every frame, and of one that takes a worker its time. */
const MANY = 72;
const FEW = 24;

/**
 * Whether a rode settles in a small part of a frame. Current and floats are solved by marching over and over: a hundred
 * times slower (measured on a busy machine: 0.1 ms against 5 ms with a float and 50 ms in a current).
 */
export function isQuick(rig: Rig): boolean {
  const still = inStillWater(rig.setting);
  return still && !compile(rig).hasBuoyant;
}

/** The curve up to a load. */
export function curveOf(rig: Rig, at: End, top: number): Points {
  const count = isQuick(rig) ? MANY : FEW;
  const loads = Float64Array.from({ length: count }, (_, i) => (top * (i + 1)) / count);
  const endForces = endForcesOf(rig);
  const angle = new Float64Array(count);
  const span = new Float64Array(count);
  loads.forEach((newtons, i) => {
    const seen = endForces({ at, newtons });
    angle[i] = seen?.anchorAngle ?? Number.NaN;
    span[i] = seen?.span ?? Number.NaN;
  });
  return { loads, angle, span };
}
