/**
 * Readings against theory. The unknowns a tester is unsure of are fitted together, with what is known of them as priors,
 * by the readings that agree with each other; one that does not is called an outlier and given little weight, or, where nobody
 * can tell which of several readings is wrong, a suspect and given none:
 *  - mass per length (as a factor on every line) and rise, where the rig states their uncertainty; else they are as given;
 *  - the gauge's zero, added to every angle, where angles were read; its prior is the uncertainty stated for it, or that of
 *    one angle reading;
 *  - the compliance of the rig itself, m/N, where a release was read: the frame, the cell and the slings stretch too. No prior;
 *  - the tape's zero, the error of its first reading, from which every movement is counted: it is in all of them alike.
 *
 * Angle at load F:     θ(F) + zero
 * Movement since F₁:   x(F₁) − x(F) + give · (F₁ − F) + zero of the tape,     x the span of the rode; the first row reads 0
 *
 * A reading's uncertainty is its own and, through the slope of the curve, that of the load it was read at.
 */

import { perturbed, type Rig, riseOf, settlesFast } from "../../rode/index.ts";
import { type OutlierFit, outlierFit, type Scatter } from "../../statistics/index.ts";
import type { Run } from "./run-file.ts";
import { type Theory, theoryOf, UNSTATED, uOfLoad } from "./theory.ts";
import { firstUnsettled, UnsettledRun } from "./unsettled.ts";

/** How a reading stands to theory, in the unit of what was read. */
interface Compared {
  /** Theory with the fitted unknowns. */
  readonly theory: number;
  /** Standard uncertainty of the reading about theory. */
  readonly u: number;
  /** (read − theory) / u */
  readonly residual: number;
  /** The residual over what the fit leaves of it, and over the scatter: standard normal for a good reading. */
  readonly standardised: number;
  /** How far the fit believed the reading: 1, or less than a half for an outlier. */
  readonly weight: number;
  /** Cook's distance in the plain fit: how far this reading alone would pull the unknowns. */
  readonly influence: number;
  readonly outlier: boolean;
  /** One of several readings of which at least one is wrong, nobody can tell which. */
  readonly suspect: boolean;
  /** Whether, by theory, rode rests on the ground at this load. */
  readonly resting: boolean;
}

/** An angle read, rad, gauge zero included in theory; for a lift-off noted by its load the residual is of the load. */
export interface ReducedReading extends Compared {
  /** N */
  readonly load: number;
  /** rad; absent for a lift-off noted by its load alone. */
  readonly angle: number | null;
}

/** A row of a release set against theory. */
export interface ReducedRelease extends Compared {
  /** N */
  readonly load: number;
  /** m */
  readonly movement: number;
}

/** A fitted value with its standard uncertainty, SI. */
export interface FittedValue {
  readonly value: number;
  readonly u: number;
}

/** A rig's unknowns: null where a quantity was not fitted. */
export interface Fitted {
  /** kg/m of the rode's longest line. */
  readonly massPerLength: FittedValue | null;
  /** m */
  readonly rise: FittedValue | null;
  /** rad */
  readonly gaugeZero: FittedValue | null;
  /** m/N */
  readonly rigGive: FittedValue | null;
  /** Error of the first tape reading, turned round: what is in every movement alike, m. */
  readonly tapeZero: FittedValue | null;
}

/** The readings of a run against theory, with the unknowns that were fitted. */
export interface Reduction {
  readonly readings: ReducedReading[];
  readonly release: ReducedRelease[];
  readonly fitted: Fitted;
  /** What was known of the unknowns beforehand, as the fit took it; null where nothing was. */
  readonly beforehand: Fitted;
  /** The rig with the fitted mass per length and rise. */
  readonly rig: Rig;
  /** How the believed readings scatter against their stated uncertainties. */
  readonly spread: Scatter;
  /** Factor by which the stated uncertainties, and every ±, were widened for it; 1 where they were not. */
  readonly scatter: number;
  /** How many unknowns the readings were taken up by: one that a prior holds does not count. */
  readonly effectiveUnknowns: number;
  /** How many readings there are of which a gross error could not be told from an error of another. */
  readonly untold: number;
  /** Residual, in stated standard uncertainties, beyond which a reading of this run is called an outlier. */
  readonly outlierBeyond: number;
  /** Load at which the anchor end comes level by the fitted theory, N; null where it has none. */
  readonly liftoff: number | null;
  /** How the fit ended. */
  readonly outcome: OutlierFit["outcome"];
  /** Correlations of the fitted unknowns, in the order of `names`. */
  readonly names: readonly string[];
  readonly correlation: readonly (readonly number[])[];
}

/**
 * Beyond this standardised residual a reading is called an outlier: by chance just under 1 good one in 100 is. Each is kept in view.
 */
const OUTLIER = 2.59;

interface Parameter {
  readonly name: "mass per length" | "rise" | "gauge zero" | "rig give" | "tape zero";
  readonly start: number;
  /** Size at which a difference is taken. */
  readonly typical: number;
  readonly prior: number | null;
}

/** A fit that asked the theory more often than it was to. */
export class TooLong extends Error {}

/**
 * @param most how often the theory may be asked, and of rodes that settle fast alone; without it as often as it takes
 * @returns residuals scaled by their uncertainty, the fitted unknowns with theirs, and what was not believed
 * @throws TooLong past `most`; UnsettledRun where `firstUnsettled` finds a row
 * @source least squares with priors as further observations; wild readings told by `outlierFit`
 */
export function reduce(run: Run, rig: Rig, most = Number.POSITIVE_INFINITY): Reduction {
  let asked = 0;
  const parameters = parametersOf(run, rig);
  const angles = run.readings;
  const { release } = run;
  const observed = [
    ...angles.map((row) => (row.angle === undefined ? row.load : row.angle)),
    ...release.map((row) => row.movement),
  ];
  const start = parameters.map((parameter) => parameter.start);
  const value = (x: ArrayLike<number>, name: Parameter["name"], otherwise: number): number => {
    const i = parameters.findIndex((parameter) => parameter.name === name);
    return i < 0 ? otherwise : x[i]!;
  };
  const theory = (x: ArrayLike<number>) =>
    theoryOf(
      run,
      rig,
      value(x, "mass per length", 1),
      value(x, "rise", 0),
      value(x, "gauge zero", 0),
      value(x, "rig give", 0),
      value(x, "tape zero", 0),
    );
  const unsettled = firstUnsettled(run, rig);
  if (unsettled !== null) throw new UnsettledRun(unsettled);
  const at = theory(start);
  const uncertaintyBy = (by: Theory): number[] => [
    ...angles.map((row) => (row.angle === undefined ? uOfLoad(run, row.load) : by.uOfAngle(row.load))),
    ...release.map((row, i) => (i === 0 ? by.uOfTapeZero() : by.uOfMovement(row.load))),
  ];
  const predict = (x: Float64Array, out: Float64Array): void => {
    asked += 1;
    const tried =
      most === Number.POSITIVE_INFINITY ? null : perturbed(rig, value(x, "mass per length", 1), value(x, "rise", 0));
    if (tried !== null && (asked > most || !settlesFast(tried))) throw new TooLong();
    const by = theory(x);
    angles.forEach((row, i) => {
      out[i] = row.angle === undefined ? by.liftoff() : by.angle(row.load);
    });
    release.forEach((row, i) => {
      out[angles.length + i] = by.movement(row.load);
    });
  };
  const priors = parameters.flatMap((parameter, i) =>
    parameter.prior === null ? [] : [{ parameter: i, value: parameter.start, u: parameter.prior }],
  );
  const fitWith = (uncertainty: readonly number[], from: readonly number[]): OutlierFit =>
    outlierFit({ observed, uncertainty, predict, priors }, from, {
      limit: OUTLIER,
      typical: parameters.map((parameter) => parameter.typical),
    });
  // How steep the curve is, and with it what the load's own error does, depends on what is fitted: once more with that.
  const beforehandU = uncertaintyBy(at);
  const first = fitWith(beforehandU, start);
  const refined = uncertaintyBy(theory(first.parameters));
  const moved = refined.some((u, i) => Math.abs(u / beforehandU[i]! - 1) > 0.01);
  const uncertainty = moved ? refined : beforehandU;
  const fit = moved ? fitWith(uncertainty, first.parameters) : first;
  const by = theory(fit.parameters);
  const common = (i: number) => ({
    residual: fit.residuals[i]! / uncertainty[i]!,
    standardised: fit.standardised[i]!,
    weight: fit.weights[i]!,
    influence: fit.cooksDistances[i]!,
    outlier: fit.outliers.includes(i),
    suspect: fit.suspects.includes(i),
    u: uncertainty[i]!,
  });
  const fitted = (name: Parameter["name"], scale: number, offset: number): FittedValue | null => {
    const i = parameters.findIndex((parameter) => parameter.name === name);
    return i < 0 ? null : { value: offset + scale * fit.parameters[i]!, u: scale * fit.standardDeviations[i]! };
  };
  const beforehand = (name: Parameter["name"], scale: number, offset: number): FittedValue | null => {
    const parameter = parameters.find((candidate) => candidate.name === name);
    if (parameter === undefined || parameter.prior === null) return null;
    return { value: offset + scale * parameter.start, u: scale * parameter.prior };
  };
  const unknowns = (of: typeof fitted): Fitted => ({
    massPerLength: of("mass per length", massOfLongest(rig), 0),
    rise: of("rise", 1, riseOf(rig.setting)),
    gaugeZero: of("gauge zero", 1, 0),
    rigGive: of("rig give", 1, 0),
    tapeZero: of("tape zero", 1, 0),
  });
  const mass = value(fit.parameters, "mass per length", 1);
  const rise = value(fit.parameters, "rise", 0);
  return {
    readings: angles.map((row, i) => ({
      load: row.load,
      angle: row.angle ?? null,
      theory: by.angle(row.load),
      resting: by.resting(row.load),
      ...common(i),
    })),
    release: release.map((row, i) => ({
      load: row.load,
      movement: row.movement,
      theory: by.movement(row.load),
      resting: by.resting(row.load),
      ...common(angles.length + i),
    })),
    fitted: unknowns(fitted),
    beforehand: unknowns(beforehand),
    rig: perturbed(rig, mass, rise),
    spread: fit.scatter,
    scatter: fit.scale,
    effectiveUnknowns: fit.effectiveUnknowns,
    untold: fit.untold.length,
    outlierBeyond: OUTLIER * fit.scale,
    liftoff: Number.isFinite(by.liftoff()) ? by.liftoff() : null,
    outcome: fit.outcome,
    names: parameters.map((parameter) => parameter.name),
    correlation: fit.covariance.map((row, i) =>
      row.map((c, j) => c / (fit.standardDeviations[i]! * fit.standardDeviations[j]!)),
    ),
  };
}

function parametersOf(run: Run, rig: Rig): Parameter[] {
  const { massPerLength = 0, rise = 0 } = rig.uncertainty;
  const parameters: Parameter[] = [];
  if (massPerLength > 0) parameters.push({ name: "mass per length", start: 1, typical: 0.01, prior: massPerLength });
  if (rise > 0) parameters.push({ name: "rise", start: 0, typical: 0.01 * riseOf(rig.setting), prior: rise });
  if (run.readings.some((row) => row.angle !== undefined)) {
    const u = run.uncertainty.gaugeZero || run.uncertainty.angle || UNSTATED.angle;
    parameters.push({ name: "gauge zero", start: 0, typical: 0.01, prior: u });
  }
  if (run.release.length > 2) {
    const [first, last] = [run.release[0]!, run.release.at(-1)!];
    const soft = Math.abs((first.load - last.load) / (last.movement || 1)) || 1e5;
    parameters.push({ name: "rig give", start: 0, typical: 0.1 / soft, prior: null });
  }
  if (run.release.length > 0) parameters.push({ name: "tape zero", start: 0, typical: 0.01, prior: null });
  if (parameters.length === 0)
    parameters.push({
      name: "gauge zero",
      start: 0,
      typical: 0.01,
      prior: run.uncertainty.gaugeZero || UNSTATED.angle,
    });
  return parameters;
}

function massOfLongest(rig: Rig): number {
  let longest = { length: 0, massPerLength: 0 };
  for (const part of rig.rode) if (part.kind === "line" && part.length > longest.length) longest = part;
  return longest.massPerLength;
}
