/** The few numbers of an equilibrium that loops ask for, without the survey of energies and sag: an order faster. */
import { type CompiledRode, compile } from "./compile.ts";
import { KINDS, SOLVED, solution, state } from "./given.ts";
import { ANCHOR, GROUNDED, V, X } from "./march.ts";
import type { Pull, Rig } from "./model.ts";
import { settle } from "./settle.ts";
import { solve } from "./solve.ts";

export interface Glance {
  /** N */
  readonly anchor: number;
  readonly bow: number;
  readonly horizontal: number;
  /** rad, above the horizontal */
  readonly anchorAngle: number;
  readonly bowAngle: number;
  /** m */
  readonly span: number;
  readonly grounded: number;
}

/** A function that glances at one rig under many loads; null where there is no equilibrium. */
export function glancer(rig: Rig): (pull: Pull) => Glance | null {
  const rode = compile(rig);
  const still = rig.setting.medium === "air" || rig.setting.current === 0;
  const plain = still && !rode.hasBuoyant && rode.totalLength > rode.rise;
  return (pull) => (plain ? (quick(rode, pull) ?? whole(rig, pull)) : whole(rig, pull));
}

function quick(rode: CompiledRode, pull: Pull): Glance | null {
  const target = pull.at === "span" ? pull.metres : pull.newtons;
  if (solve(rode, KINDS[pull.at], target) !== SOLVED) return null;
  const H = solution[0]!;
  const lift = solution[1]!;
  const span = state[X]!;
  // Aground, and whatever else the whole answer refuses, is left to it.
  if (span >= rode.afloatBelow) return null;
  return {
    anchor: Math.max(0, state[ANCHOR]!),
    bow: Math.hypot(H, state[V]!),
    horizontal: H,
    anchorAngle: lift > 0 ? Math.atan2(H * rode.tanSlope + lift, H) : Math.atan(rode.tanSlope),
    bowAngle: Math.atan2(state[V]!, H),
    span,
    grounded: state[GROUNDED]!,
  };
}

function whole(rig: Rig, pull: Pull): Glance | null {
  const settled = settle(rig, pull);
  if (settled.kind === "noEquilibrium") return null;
  const { anchor, bow, horizontal, span, grounded } = settled;
  return {
    anchor: anchor.tension,
    bow: bow.tension,
    horizontal,
    anchorAngle: anchor.angle,
    bowAngle: bow.angle,
    span,
    grounded,
  };
}
