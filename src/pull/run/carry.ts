/**
 * Carries readings of a stand-in rig to the rig it stands for: the anchor angle that the stand-in has under the load read,
 * and the loads of the other rig whose anchor is pulled at that same angle.
 */
import {
  type Budget,
  budget,
  type Comparison,
  type Correlation,
  compareBudget,
  propagate,
  rng,
  type UncertainInput,
} from "../../chance/index.ts";
import {
  type CompiledRode,
  compile,
  find,
  glancer,
  perturbed,
  pullForAngle,
  type Rig,
  settle,
} from "../../rode/index.ts";
import type { Run } from "./run-file.ts";

export interface CarriedRow {
  /** Load read, N, at the run's load cell. */
  readonly read: number;
  /** Angle at both anchors, rad. */
  readonly anchorAngle: number;
  /**
   * `equal`: one load pulls at that angle. `atMost`: the stand-in's anchor is not lifted, and neither is the other's up
   * to these loads, those of its lift-off.
   */
  readonly says: "equal" | "atMost";
  /** Loads in the rig carried to, N. */
  readonly anchor: number;
  readonly bow: number;
  readonly budget: { readonly anchor: Budget; readonly bow: Budget };
  /** First order against Monte Carlo, for the load at the bow; null where nothing is uncertain. */
  readonly comparison: Comparison | null;
}

/** A reading that no load in the other rig stands for, and why. */
export interface NotCarried {
  readonly read: number;
  readonly why: string;
}

export interface CarryOutcome {
  readonly rows: CarriedRow[];
  readonly notCarried: NotCarried[];
}

/** Trials of the Monte Carlo check of a row: enough for two digits of u to within a few per cent. */
const TRIALS = 20_000;

/** What the carried loads depend on, in this order: load read, and of each rig mass per length (as a factor) and rise. */
const INPUTS = [
  "load read",
  "mass per length, stand-in",
  "rise, stand-in",
  "mass per length, carried to",
  "rise, carried to",
] as const;

/**
 * @param run readings on `standIn`; the angles read play no part, only the loads
 * @param seed of the Monte Carlo check; the same seed gives the same answer
 * @source JCGM 100:2008 eq. 13 for the budget; JCGM 101:2008 clause 8 for the check
 */
export function carry(run: Run, standIn: Rig, to: Rig, seed = 1): CarryOutcome {
  const rows: CarriedRow[] = [];
  const notCarried: NotCarried[] = [];
  const correlation = correlationOf(sameLine(standIn, to));
  for (const load of loadsOf(run)) {
    const given = settle(standIn, { at: run.loadCellAt, newtons: load });
    if (given.kind === "noEquilibrium") {
      notCarried.push({ read: load, why: `the stand-in rig has no equilibrium: ${given.why}` });
      continue;
    }
    const lifted = given.anchor.angleToBottom > 0;
    const carried = loadsAt(to, given.anchor.angle, lifted);
    if (carried === null) {
      notCarried.push({ read: load, why: "no load in the rig carried to pulls its anchor at that angle" });
      continue;
    }
    const inputs: UncertainInput[] = [
      { name: INPUTS[0], value: load, u: run.uncertainty.load },
      { name: INPUTS[1], value: 1, u: standIn.uncertainty.massPerLength ?? 0 },
      { name: INPUTS[2], value: 0, u: standIn.uncertainty.rise ?? 0 },
      { name: INPUTS[3], value: 1, u: to.uncertainty.massPerLength ?? 0 },
      { name: INPUTS[4], value: 0, u: to.uncertainty.rise ?? 0 },
    ];
    const model = (end: "anchor" | "bow") => (x: ArrayLike<number>) => {
      const there = glancer(perturbed(standIn, x[1]!, x[2]!))({ at: run.loadCellAt, newtons: x[0]! });
      if (there === null) return Number.NaN;
      const here = loadsAt(perturbed(to, x[3]!, x[4]!), there.anchorAngle, lifted);
      return here === null ? Number.NaN : here[end];
    };
    const anchor = budget(model("anchor"), inputs, { correlation });
    const bow = budget(model("bow"), inputs, { correlation });
    rows.push({
      read: load,
      anchorAngle: given.anchor.angle,
      says: lifted ? "equal" : "atMost",
      anchor: carried.anchor,
      bow: carried.bow,
      budget: { anchor, bow },
      comparison:
        bow.u > 1e-9 * bow.value && lifted && quick(to)
          ? compareBudget(
              bow,
              propagate(model("bow"), inputs, { rng: rng(seed), correlation, part: 0.2, mostTrials: TRIALS }),
            )
          : null,
    });
  }
  return { rows, notCarried };
}

/** Every load of a run once, in the order read. */
function loadsOf(run: Run): number[] {
  return [...new Set([...run.readings, ...run.release].map((row) => row.load))];
}

/** Loads at both ends under which a rig pulls its anchor at an angle; at lift-off where the angle says no more. */
function loadsAt(rig: Rig, angle: number, lifted: boolean): { anchor: number; bow: number } | null {
  const rode = compile(rig);
  if (quick(rig, rode)) return pullForAngle(rode, lifted ? angle : Math.atan(rode.tanSlope));
  const goal = lifted ? ({ goal: "anchorAngle", angle } as const) : ({ goal: "liftoff" } as const);
  const found = find(rig, { unknown: { what: "pull" }, goal, pull: { at: "bow", newtons: 1 } });
  return found.kind === "found" ? { anchor: found.settled.anchor.tension, bow: found.settled.bow.tension } : null;
}

/** Whether the direct search answers for a rig: the Monte Carlo check asks it tens of thousands of times. */
function quick(rig: Rig, rode: CompiledRode = compile(rig)): boolean {
  const still = rig.setting.medium === "air" || rig.setting.current === 0;
  return still && !rode.hasBuoyant && rode.totalLength > rode.rise;
}

/** The inputs hang together only where both rigs use one line: then its two factors are one. */
function correlationOf(oneLine: boolean): Correlation {
  return INPUTS.map((_, i) =>
    INPUTS.map((_, j) => (i === j || (oneLine && i + j === 4 && Math.abs(i - j) === 2) ? 1 : 0)),
  );
}

/** The same line in both rigs is one thing with one mass: what is not known of it is not known in both alike. */
function sameLine(a: Rig, b: Rig): boolean {
  const key = (rig: Rig) =>
    rig.rode.flatMap((part) => (part.kind === "line" ? [`${part.name} ${part.massPerLength}`] : []));
  const [first, second] = [key(a), key(b)];
  return (
    first.length > 0 &&
    first.every((name) => second.includes(name)) &&
    a.uncertainty.massPerLength === b.uncertainty.massPerLength
  );
}
