/** The few numbers of an equilibrium that loops ask for, without energies, sag and record: an order faster. */
import { type CompiledRode, compile } from "./compile.ts";
import type { Near } from "./contact/close-legs.ts";
import { contactRode, type Laid, layContact } from "./contact/settle-contact.ts";
import { ANCHOR, GROUNDED, V, X } from "./march.ts";
import { inStillWater, type Pull, type Rig } from "./model.ts";
import { settle } from "./settle.ts";
import { solve } from "./solve.ts";
import { KINDS, SOLVED, solution, state } from "./solve-state.ts";

/** Loads and angles at both ends of a rode, SI and radians. */
export interface EndForces {
  /** N */
  readonly anchor: number;
  readonly bow: number;
  readonly horizontal: number;
  /** rad, above the horizontal */
  readonly anchorAngle: number;
  /** rad, above the bottom: 0 where the anchor is not lifted */
  readonly angleToBottom: number;
  readonly bowAngle: number;
  /** m */
  readonly span: number;
  readonly grounded: number;
}

/**
 * A function that settles one rig under many loads; null where there is no equilibrium.
 * @param from how the rode lies about there, where that is known: with floats or in a current each load begins from the last
 */
export function endForcesOf(rig: Rig, from?: Near): (pull: Pull) => EndForces | null {
  const rode = compile(rig);
  const usual = rode.rise > 0 && rode.totalLength > rode.rise;
  if (!usual) return (pull) => whole(rig, pull);
  if (inStillWater(rig.setting) && !rode.hasBuoyant) return (pull) => quick(rode, pull) ?? whole(rig, pull);
  const contact = contactRode(rig);
  let near = from;
  return (pull) => {
    const laid = layContact(contact, pull, near);
    if ("kind" in laid) return null;
    near = laid.near;
    return ends(rode, laid);
  };
}

function ends(rode: CompiledRode, { laid, span, angleToBottom }: Laid): EndForces {
  const { end, anchor, grounded } = laid;
  return {
    anchor,
    bow: Math.hypot(end.H, end.V),
    horizontal: end.H,
    anchorAngle: Math.atan(rode.tanSlope) + angleToBottom,
    angleToBottom,
    bowAngle: Math.atan2(end.V, end.H),
    span,
    grounded,
  };
}

function quick(rode: CompiledRode, pull: Pull): EndForces | null {
  const target = pull.at === "span" ? pull.metres : pull.newtons;
  if (solve(rode, KINDS[pull.at], target) !== SOLVED) return null;
  const H = solution[0]!;
  const excess = solution[1]!;
  const span = state[X]!;
  // Aground, and whatever else the whole answer refuses, is left to it.
  if (span >= rode.afloatBelow) return null;
  const slope = Math.atan(rode.tanSlope);
  const angleToBottom = excess > 0 ? Math.atan2(H * rode.tanSlope + excess, H) - slope : 0;
  return {
    anchor: Math.max(0, state[ANCHOR]!),
    bow: Math.hypot(H, state[V]!),
    horizontal: H,
    anchorAngle: slope + angleToBottom,
    angleToBottom,
    bowAngle: Math.atan2(state[V]!, H),
    span,
    grounded: state[GROUNDED]!,
  };
}

function whole(rig: Rig, pull: Pull): EndForces | null {
  const settled = settle(rig, pull);
  if (settled.kind === "noEquilibrium") return null;
  const { anchor, bow, horizontal, span, grounded } = settled;
  return {
    anchor: anchor.tension,
    bow: bow.tension,
    horizontal,
    anchorAngle: anchor.angle,
    angleToBottom: anchor.angleToBottom,
    bowAngle: bow.angle,
    span,
    grounded,
  };
}
