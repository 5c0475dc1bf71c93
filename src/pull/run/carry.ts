/**
 * Carries readings of a stand-in rig to the rig it stands for: the angle to the bottom at which the stand-in pulls its
 * anchor under the load read, and the loads of the other rig whose anchor is pulled at that same angle to its own bottom.
 */

import {
  type CompiledRode,
  compile,
  endForcesOf,
  find,
  inStillWater,
  movedRig,
  type Near,
  type NoEquilibrium,
  pullForAngle,
  type Rig,
  rigInputs,
  settlesFast,
  settleTraced,
  sharedLineCorrelation,
} from "../../rode/index.ts";
import {
  type Bounds,
  boundsOf,
  combined,
  drawResults,
  jacobian,
  rng,
  type UncertainInput,
  type VectorModel,
} from "../../statistics/index.ts";
import type { Run } from "./run-file.ts";
import { assumedLoadShare, uOfLoad } from "./theory.ts";

/** What the uncertainty of the carried loads comes from: one input of either rig, or the load read. */
export interface CarriedSource {
  readonly name: string;
  /** What one standard uncertainty of it does to the loads, N. */
  readonly anchor: number;
  readonly bow: number;
  /** Its share of the square of the uncertainty at the bow; below zero where it undoes another's. */
  readonly share: number;
}

/** What draws of the inputs say; null in `CarriedRow` where the anchor is not lifted, or first order has no answer. */
export interface CarriedSpread {
  readonly draws: number;
  /** Draws in which either rig has no equilibrium, or none at the angle. */
  readonly without: number;
  /** Draws in which the stand-in's anchor is lifted. */
  readonly lifted: number;
  /** Where 95 of 100 lie; a bound that does not exist is null. */
  readonly anchor: Bounds;
  readonly bow: Bounds;
}

/** One reading carried to another rig, with both ends and every ±. */
export interface CarriedRow {
  /** Load read, N, at the run's load cell. */
  readonly read: number;
  /** Angle at the stand-in's anchor above the horizontal, rad. */
  readonly anchorAngle: number;
  /** Angle at both anchors above their bottoms, rad: what is carried. */
  readonly angleToBottom: number;
  /**
   * `equal`: one load pulls at that angle. `atMost`: the stand-in's anchor is not lifted, and neither is the other's up
   * to these loads, those of its lift-off.
   */
  readonly says: "equal" | "atMost";
  /** Loads in the rig carried to, N. */
  readonly anchor: number;
  readonly bow: number;
  /** Standard uncertainties of both, N, first order; null where the model ends on both sides of `cannotMove`. */
  readonly u: { readonly anchor: number; readonly bow: number } | null;
  readonly cannotMove: string | null;
  readonly sources: readonly CarriedSource[];
  readonly spread: CarriedSpread | null;
}

/** A reading that no load in the other rig stands for: the stand-in has no equilibrium, or the other none at its angle. */
export interface NotCarried {
  readonly read: number;
  readonly cause: { readonly kind: "noEquilibrium"; readonly none: NoEquilibrium } | { readonly kind: "noSuchAngle" };
}

/** The readings of a run carried, and those that cannot be. */
export interface CarryOutcome {
  readonly rows: CarriedRow[];
  readonly notCarried: NotCarried[];
  /** Share of itself by which each load is taken as uncertain, since the run states nothing; null where it does. */
  readonly assumedLoadShare: number | null;
}

/** Of rigs settled by closed forms, and of those that are stepped along, whose loads are searched for. */
const DRAWS = 4000;
const DRAWS_STEPPED = 400;
/** How closely a draw's search is closed, of the load. */
const CLOSE_ENOUGH = 1e-10;

/**
 * @param run readings on `standIn`; the angles read play no part, only the loads
 * @param seed of the draws; the same seed gives the same answer
 * @param onDraw told now and then how many draws are made, of how many in all
 * @source JCGM 100:2008 eq. 13 for the budget; JCGM 101:2008 for the draws
 */
export function carry(
  run: Run,
  standIn: Rig,
  to: Rig,
  seed = 1,
  onDraw?: (made: number, of: number) => void,
): CarryOutcome {
  const rows: CarriedRow[] = [];
  const notCarried: NotCarried[] = [];
  let [before, carriedBefore]: [Near | undefined, Carried | null] = [undefined, null];
  const loads = loadsOf(run);
  for (const [i, load] of loads.entries()) {
    const there = settleTraced(standIn, { at: run.loadCellAt, newtons: load }, before);
    if (!("settled" in there)) {
      notCarried.push({ read: load, cause: { kind: "noEquilibrium", none: there } });
      continue;
    }
    before = there.near;
    const { angle, angleToBottom } = there.settled.anchor;
    const lifted = angleToBottom > 0;
    const carried = loadsAt(to, angleToBottom, lifted, carriedBefore);
    if (carried === null) {
      notCarried.push({ read: load, cause: { kind: "noSuchAngle" } });
      continue;
    }
    carriedBefore = carried;
    const told = onDraw && ((made: number, of: number) => onDraw(i * of + made, loads.length * of));
    rows.push({
      read: load,
      anchorAngle: angle,
      angleToBottom,
      says: lifted ? "equal" : "atMost",
      anchor: carried.anchor,
      bow: carried.bow,
      ...certaintyAt(run, load, standIn, to, carried, there.near, lifted, seed, told),
    });
  }
  return { rows, notCarried, assumedLoadShare: assumedLoadShare(run) };
}

function certaintyAt(
  run: Run,
  load: number,
  standIn: Rig,
  to: Rig,
  carried: Carried,
  near: Near | undefined,
  lifted: boolean,
  seed: number,
  onDraw: ((made: number, of: number) => void) | undefined,
): Pick<CarriedRow, "u" | "cannotMove" | "sources" | "spread"> {
  const [there, here] = [rigInputs(standIn), rigInputs(to)];
  const inputs: UncertainInput[] = [
    { name: "load read", value: load, u: uOfLoad(run, load) },
    ...there.map((input) => ({ ...input, name: `${input.name}, stand-in` })),
    ...here.map((input) => ({ ...input, name: `${input.name}, carried to` })),
  ];
  const moved = (rig: Rig, own: typeof there, x: Float64Array, from: number): Rig | null =>
    own.length === 0 ? rig : movedRig(rig, Object.fromEntries(own.map(({ input }, i) => [input, x[from + i]!])));
  const model: VectorModel = (x, out) => {
    out.fill(Number.NaN);
    const from = moved(standIn, there, x, 1);
    const other = moved(to, here, x, 1 + there.length);
    const ends = from === null || !(x[0]! > 0) ? null : endForcesOf(from, near)({ at: run.loadCellAt, newtons: x[0]! });
    const loads =
      ends === null || other === null ? null : loadsAt(other, ends.angleToBottom, lifted, carried, CLOSE_ENOUGH);
    if (loads === null) return;
    out[0] = loads.anchor;
    out[1] = loads.bow;
    out[2] = ends!.angleToBottom;
  };
  const first = jacobian(model, 3, inputs);
  if (first.kind !== "jacobian")
    return { u: null, cannotMove: first.kind === "cannotMove" ? first.input : null, sources: [], spread: null };
  const correlation = sharedLineCorrelation(standIn, to, there, 1, here, 1 + there.length);
  const { u, shares } = combined(first, correlation);
  const draws = settlesFast(standIn) && settlesFast(to) ? DRAWS : DRAWS_STEPPED;
  const drawn = lifted
    ? drawResults(model, inputs, first, {
        rng: rng(seed),
        draws,
        correlation,
        onDraw: onDraw && ((made) => onDraw(made, draws)),
      })
    : null;
  return {
    u: { anchor: u[0]!, bow: u[1]! },
    cannotMove: null,
    sources: inputs.map(({ name }, i) => ({
      name,
      anchor: first.contributions[i]![0]!,
      bow: first.contributions[i]![1]!,
      share: shares[i]![1]!,
    })),
    spread: drawn && {
      draws: drawn.draws,
      without: drawn.without,
      lifted: drawn.sorted[2]!.filter((angle) => angle > 0 && Number.isFinite(angle)).length,
      anchor: boundsOf(drawn, 0),
      bow: boundsOf(drawn, 1),
    },
  };
}

/** Every load of a run once, in the order read. */
function loadsOf(run: Run): number[] {
  return [...new Set([...run.readings, ...run.release].map((row) => row.load))];
}

/** Loads at both ends, N, and how the rode lies under them. */
interface Carried {
  readonly anchor: number;
  readonly bow: number;
  readonly lies?: Near | undefined;
}

/**
 * Loads at both ends under which a rig pulls its anchor at an angle to the bottom; at lift-off where that says no more.
 * @param near the loads of a rig or an angle much like it
 */
function loadsAt(rig: Rig, angle: number, lifted: boolean, near: Carried | null, tolerance?: number): Carried | null {
  const rode = compile(rig);
  if (quick(rig, rode)) return pullForAngle(rode, lifted ? angle : 0);
  const goal = lifted ? ({ goal: "angleToBottom", angle } as const) : ({ goal: "liftoff" } as const);
  const found = find(rig, {
    unknown: { what: "pull" },
    goal,
    pull: { at: "bow", newtons: 1 },
    ...(near === null ? {} : { near: near.bow, ...(near.lies && { from: near.lies }) }),
    ...(tolerance === undefined ? {} : { tolerance }),
  });
  if (found.kind !== "found") return null;
  return { anchor: found.settled.anchor.tension, bow: found.settled.bow.tension, lies: found.lies };
}

/** Whether the direct search answers for a rig: draws ask it thousands of times. */
function quick(rig: Rig, rode: CompiledRode): boolean {
  return inStillWater(rig.setting) && !rode.hasBuoyant;
}
