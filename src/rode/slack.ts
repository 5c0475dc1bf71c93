/**
 * A slack rode at a stated span: no horizontal force, the rode hangs straight down from the bow and what the bottom takes
 * of it lies slack between there and the anchor, in whatever heap.
 */

import { closeRise } from "./close-rise.ts";
import type { CompiledRode } from "./compile.ts";
import { layOut } from "./contact/lay-out.ts";
import { closedFormStepper } from "./contact/stepper.ts";
import { ANCHOR, GROUNDED, march, V, X } from "./march.ts";
import { AT_SURFACE, SOLVED, solution, state } from "./solve-state.ts";
import { R_KIND, R_RUN, R_V1, R_W, R_X, R_Z, RESTING, TRACE_COLUMNS, type Trace } from "./trace.ts";

/**
 * Leaves the slack state in `solution` and `state` of solve.ts and its pieces in `trace`, as a march does.
 *
 * @param span m, less than where the bottom leaves the water
 * @returns false when it does not lie slack: it does not reach so far, or slides down the bottom under its own weight
 */
export function hangSlack(rode: CompiledRode, span: number, trace: Trace): boolean {
  if (rode.restDrag < 0) return false;
  // Seen from the bottom under the bow the slope does not matter: what rests pulls at nothing.
  const under = span * rode.tanSlope;
  const level: CompiledRode = {
    ...rode,
    rise: rode.rise - under,
    surface: rode.surface - under,
    ashore: Number.POSITIVE_INFINITY,
    afloatBelow: Number.POSITIVE_INFINITY,
    sinSlope: 0,
    cosSlope: 1,
    tanSlope: 0,
    restDrag: 0,
  };
  if (!(level.rise > 0)) return false;
  if (!hangLimp(level, trace)) return false;
  state[ANCHOR] = 0;
  solution[0] = 0;
  return layOnSlope(rode, trace, span);
}

/**
 * The rode without horizontal force, straight along the bottom and straight up: what a pull must exceed. Left in `state`,
 * its lift in `solution`.
 */
export function hangLimp(rode: CompiledRode, trace: Trace | null = null): boolean {
  const how = closeRise(rode, 0, -0.5 * rode.totalLow);
  if (how === SOLVED) {
    march(rode, 0, solution[1]!, state, trace);
    return true;
  }
  if (how !== AT_SURFACE) return false;
  // A point that hangs in the surface is for the contact machine, which needs some horizontal force: too little to see.
  const laid = layOut(rode, closedFormStepper(rode), 1e-13 * rode.totalLow, trace);
  if (typeof laid === "string") return false;
  state[X] = laid.end.x;
  state[V] = laid.end.V;
  state[ANCHOR] = laid.anchor;
  state[GROUNDED] = laid.grounded;
  solution[1] = laid.legs[0]!.value;
  return true;
}

/**
 * Puts the record of a slack rode in place: what rests covers the span however long it is, what hangs hangs over its end.
 * @returns false when what rests does not reach so far
 */
function layOnSlope(rode: CompiledRode, trace: Trace, span: number): boolean {
  const d = trace.data;
  let covered = 0;
  for (let row = 0; row < trace.rows; row++) {
    if (d[row * TRACE_COLUMNS + R_KIND] === RESTING) covered += d[row * TRACE_COLUMNS + R_RUN]!;
  }
  if (covered * rode.cosSlope < span) return false;
  const share = span / covered;
  for (let at = 0; at < trace.rows * TRACE_COLUMNS; at += TRACE_COLUMNS) {
    const x = d[at + R_X]! * share;
    d[at + R_X] = x;
    d[at + R_Z] = d[at + R_Z]! + x * rode.tanSlope;
    if (d[at + R_KIND] !== RESTING) continue;
    d[at + R_RUN] = (d[at + R_RUN]! * share) / rode.cosSlope;
    d[at + R_V1] = 0;
    d[at + R_W] = 0;
  }
  return true;
}
