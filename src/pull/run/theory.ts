/**
 * What theory says a tester reads: angle at the gauge and movement of the loaded end, for one set of the unknowns.
 *
 * Angle at load F:     θ(F) + zero
 * Movement since F₁:   x(F₁) − x(F) + give · (F₁ − F) + zero of the tape,     x the span of the rode
 */
import { DEGREE } from "../../quantity/index.ts";
import { endForcesOf, find, lengthOf, perturbed, type Rig } from "../../rode/index.ts";
import type { Run } from "./run-file.ts";

/** Where no uncertainty of a reading is stated: a hand-held gauge and a tape. */
export const UNSTATED = { angle: 0.5 * DEGREE, movement: 0.005, loadShare: 0.01 } as const;

export interface Theory {
  /** rad at the gauge, its zero included; NaN where there is no equilibrium */
  angle(load: number): number;
  /** m read since the first row of the release, the tape's zero included */
  movement(load: number): number;
  /** N at the cell */
  liftoff(): number;
  resting(load: number): boolean;
  /** Standard uncertainty of a reading about theory: its own and, through the slope of the curve, that of its load. */
  uOfAngle(load: number): number;
  uOfMovement(load: number): number;
  /** Standard uncertainty of the tape's zero: of the first reading, and of the load it was read at. */
  uOfTapeZero(): number;
}

/**
 * @param mass factor on the mass per length of every line
 * @param riseShift m
 * @param zero of the gauge, rad
 * @param give of the rig, m/N
 * @param tapeZero what is in every movement alike, m: the error of the first reading, turned round
 */
export function theoryOf(
  run: Run,
  rig: Rig,
  mass: number,
  riseShift: number,
  zero: number,
  give: number,
  tapeZero: number,
): Theory {
  const here = perturbed(rig, mass, riseShift);
  const endForces = endForcesOf(here);
  const settled = (load: number) => endForces({ at: run.loadCellAt, newtons: load });
  const gauged = run.angleAt === "anchor" ? "anchorAngle" : "bowAngle";
  const pure = (load: number): number => settled(load)?.[gauged] ?? Number.NaN;
  const whole = here.rode.reduce((sum, part) => sum + lengthOf(part), 0);
  const span = (load: number): number => settled(load)?.span ?? Number.NaN;
  const from = run.release[0]?.load ?? 0;
  const atFirst = run.release.length > 0 ? span(from) : 0;
  const movement = (load: number) => atFirst - span(load) + give * (from - load) + tapeZero;
  let lifted: number | null = null;
  return {
    angle: (load) => pure(load) + zero,
    movement,
    liftoff: () => {
      lifted ??= liftoffLoad(here, run.loadCellAt);
      return lifted;
    },
    resting: (load) => (settled(load)?.grounded ?? 0) > 1e-9 * whole,
    uOfAngle: (load) => Math.hypot(run.uncertainty.angle || UNSTATED.angle, slopeOf(pure, load) * uOfLoad(run, load)),
    uOfTapeZero: () =>
      Math.hypot(
        run.uncertainty.tapeZero ?? (run.uncertainty.movement || UNSTATED.movement),
        slopeOf(movement, from) * uOfLoad(run, from),
      ),
    uOfMovement: (load) =>
      Math.hypot(run.uncertainty.movement || UNSTATED.movement, slopeOf(movement, load) * uOfLoad(run, load)),
  };
}

function slopeOf(f: (load: number) => number, load: number): number {
  const h = 1e-3 * load;
  const slope = (f(load + h) - f(load - h)) / (2 * h);
  return Number.isFinite(slope) ? slope : 0;
}

/** The share of a load that stands in for its uncertainty where the run states none, in carry and reduce alike; null where it does. */
export function assumedLoadShare(run: Run): number | null {
  return run.uncertainty.load ? null : UNSTATED.loadShare;
}

export function uOfLoad(run: Run, load: number): number {
  return run.uncertainty.load || UNSTATED.loadShare * load;
}

/** Load at the cell at which the anchor end is about to rise, N; NaN where none lifts it. */
export function liftoffLoad(rig: Rig, at: "anchor" | "bow"): number {
  const found = find(rig, { unknown: { what: "pull" }, goal: { goal: "liftoff" }, pull: { at, newtons: 1 } });
  return found.kind === "found" ? found.value : Number.NaN;
}
