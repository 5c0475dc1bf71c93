import { type SettledTrace, shapeOf } from "../rode/index.ts";
import { type Bow, ledBow } from "./bow.ts";
import type { Elements } from "./elements.ts";
import { restLoops } from "./loop-forces.ts";
import { type RodeState, rodeState } from "./rode-state.ts";
import { generalisedAlpha, step } from "./step.ts";
import type { Surroundings } from "./surroundings.ts";

/**
 * The state of a rode that hangs still where `settle` has it, its friction pulling back all along as `settle` takes it.
 * The straight elements hang a little otherwise than the curve they stand for: `quieten` lets them find their own rest.
 */
export function atRest(traced: SettledTrace, elements: Elements, around: Surroundings): RodeState {
  const state = rodeState(elements, around);
  const shape = shapeOf(traced, 200);
  let v = 0;
  for (let n = 0; n < state.nodes; n++) {
    const s = elements.along[n]!;
    while (v < shape.along.length - 2 && shape.along[v + 1]! < s) v++;
    const from = shape.along[v]!;
    const to = shape.along[v + 1]!;
    const share = to > from ? Math.min(1, (s - from) / (to - from)) : 1;
    state.place[3 * n] = shape.x[v]! + share * (shape.x[v + 1]! - shape.x[v]!);
    state.place[3 * n + 2] = shape.z[v]! + share * (shape.z[v + 1]! - shape.z[v]!);
    // The friction's spring, drawn to where it slips, toward the boat.
    const reach = (around.friction * state.bedRest[n]!) / (state.gripStiffness[n]! || 1);
    state.grip[3 * n] = state.place[3 * n]! - reach * around.cosSlope;
    state.grip[3 * n + 2] = state.place[3 * n + 2]! - reach * around.sinSlope;
  }
  const last = 3 * (state.nodes - 1);
  for (let i = 0; i < 3; i++) state.q[i] = state.place[last + i]!;
  restLoops(state);
  return state;
}

/**
 * Brings a state to rest with its bow where it is: steps that grow, the motion stopped after each, until nothing moves by
 * more than `still` metres in one.
 * @returns false where it comes to no rest within `most` steps
 */
export function quieten(state: RodeState, still = 1e-9, most = 400): boolean {
  const last = 3 * (state.nodes - 1);
  const place = state.place.slice(last, last + 3);
  const held: Bow = ledBow((_, p, v, a) => {
    p.set(place);
    v.fill(0);
    a.fill(0);
  });
  const q = state.q.slice();
  const time = state.time;
  state.q.set(place);
  const method = generalisedAlpha(0);
  const was = new Float64Array(state.place.length);
  let h = 0.02;
  let quiet = false;
  for (let turn = 0; turn < most && !quiet; turn++) {
    was.set(state.place);
    stop(state);
    if (!step(state, held, method, h)) return false;
    let moved = 0;
    for (let i = 0; i < was.length; i++) moved = Math.max(moved, Math.abs(state.place[i]! - was[i]!));
    quiet = moved < still && h > 1;
    h = Math.min(20, h * 1.5);
  }
  stop(state);
  state.q.set(q);
  state.qRate.fill(0);
  state.qAcceleration.fill(0);
  state.time = time;
  restLoops(state);
  return quiet;
}

function stop(state: RodeState): void {
  state.speed.fill(0);
  state.acceleration.fill(0);
}
