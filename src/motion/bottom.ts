/**
 * The bottom under a moving rode: a spring under each node whose rest force is the node's weight, so that resting rode lies
 * on the plane itself; friction is a spring that slips at μ times the normal force.
 */
import { SYMMETRIC_BLOCK } from "../numeric/index.ts";
import { BY_PLACE, BY_RATE, type RodeState } from "./rode-state.ts";

/** Which nodes but the anchor and the bow lie on the bottom, and what its spring bears there. */
export function findResting(state: RodeState): void {
  const { at, around, borne, lifted, nodes, bedStiffness, bedRest } = state;
  const { sinSlope: s, cosSlope: c } = around;
  for (let n = 1, i = 3; n < nodes - 1; n++, i += 3) {
    const normal = bedRest[n]! - bedStiffness[n]! * (c * at[i + 2]! - s * at[i]!);
    const rests = normal > 0;
    borne[n] = rests ? normal : 0;
    lifted[n] = rests ? 0 : 1;
  }
}

/** Forces of the bottom on what rests on it. */
export function addBottom(state: RodeState): void {
  const byPlace = state.numbers[BY_PLACE]!;
  const byRate = state.numbers[BY_RATE]!;
  const { at, rate, force, around, grip, borne, nodes, bedStiffness, bedDamping, gripStiffness } = state;
  const { diagonal } = state.system;
  const { sinSlope: s, cosSlope: c, friction } = around;
  for (let n = 1; n < nodes - 1; n++) {
    let normal = borne[n]!;
    if (normal === 0) continue;
    const i = 3 * n;
    const k = bedStiffness[n]!;
    const sinking = s * rate[i]! - c * rate[i + 2]!;
    const d = bedDamping[n]!;
    const damped = normal + d * sinking;
    const damps = damped > 0;
    normal = damps ? damped : 0;
    borne[n] = normal;
    force[i]! -= s * normal;
    force[i + 2]! += c * normal;
    const kn = byPlace * k + (damps ? byRate * d : 0);
    const b = SYMMETRIC_BLOCK * n;
    diagonal[b]! += kn * s * s;
    diagonal[b + 2]! -= kn * s * c;
    diagonal[b + 5]! += kn * c * c;
    if (friction === 0) continue;
    // Along the bottom: up the slope, and across it.
    const up = c * (at[i]! - grip[i]!) + s * (at[i + 2]! - grip[i + 2]!);
    const side = at[i + 1]! - grip[i + 1]!;
    const away = Math.sqrt(up * up + side * side);
    const kt = gripStiffness[n]!;
    const most = friction * normal;
    const slips = kt * away > most;
    const pull = slips ? (away > 0 ? most / away : 0) : kt;
    force[i]! -= pull * up * c;
    force[i + 1]! -= pull * side;
    force[i + 2]! -= pull * up * s;
    const g = byPlace * pull;
    diagonal[b]! += g * c * c;
    diagonal[b + 2]! += g * c * s;
    diagonal[b + 3]! += g;
    diagonal[b + 5]! += g * s * s;
  }
}

/** Lets the friction of every node follow it: what has slipped holds where it came to, what is off the bottom anywhere. */
export function followGrip(state: RodeState): void {
  const { at, grip, around, borne } = state;
  const { sinSlope: s, cosSlope: c, friction } = around;
  if (friction === 0 || !around.bottom) return;
  for (let n = 1; n < state.nodes - 1; n++) {
    const i = 3 * n;
    if (borne[n] === 0) {
      grip[i] = at[i]!;
      grip[i + 1] = at[i + 1]!;
      grip[i + 2] = at[i + 2]!;
      continue;
    }
    const up = c * (at[i]! - grip[i]!) + s * (at[i + 2]! - grip[i + 2]!);
    const side = at[i + 1]! - grip[i + 1]!;
    const away = Math.sqrt(up * up + side * side);
    const reach = (friction * borne[n]!) / state.gripStiffness[n]!;
    if (away <= reach || away === 0) continue;
    const keep = reach / away;
    grip[i] = at[i]! - keep * up * c;
    grip[i + 1] = at[i + 1]! - keep * side;
    grip[i + 2] = at[i + 2]! - keep * up * s;
  }
}
