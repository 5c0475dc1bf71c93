/**
 * Readings against theory. The unknowns a tester is unsure of are fitted together, by robust weights, with what is known of
 * them as priors:
 *  - mass per length (as a factor on every line) and rise, where the rig states their uncertainty; else they are as given;
 *  - the gauge's zero, added to every angle, where angles were read; its prior is the uncertainty stated for it, or that of
 *    one angle reading;
 *  - the give of the rig itself, m/N, where a release was read: the frame, the cell and the slings stretch too. No prior.
 *
 * Angle at load F:     θ(F) + zero
 * Movement since F₁:   x(F₁) − x(F) + give · (F₁ − F),     x the span of the rode
 *
 * A reading's uncertainty is its own and, through the slope of the curve, that of the load it was read at.
 */
import { type RobustFit, robustFit } from "../../chance/index.ts";
import { perturbed, type Rig, riseOf } from "../../rode/index.ts";
import type { Run } from "./run-file.ts";
import { theoryOf, UNSTATED, uOfLoad } from "./theory.ts";
import { expectSettled } from "./unsettled.ts";

/** How a reading stands to theory, in the unit of what was read. */
interface Compared {
  /** Theory with the fitted unknowns. */
  readonly theory: number;
  /** Standard uncertainty of the reading about theory. */
  readonly u: number;
  /** (read − theory) / u */
  readonly residual: number;
  /** Last robust weight, 0 … 1: how far the reading was believed. */
  readonly weight: number;
  /** Cook's distance in the plain fit: how far this reading alone would pull the unknowns. */
  readonly influence: number;
  readonly outlier: boolean;
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

export interface ReducedRelease extends Compared {
  /** N */
  readonly load: number;
  /** m */
  readonly movement: number;
}

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
}

export interface Reduction {
  readonly readings: ReducedReading[];
  readonly release: ReducedRelease[];
  readonly fitted: Fitted;
  /** What was known of the unknowns beforehand, as the fit took it; null where nothing was. */
  readonly beforehand: Fitted;
  /** The rig with the fitted mass per length and rise. */
  readonly rig: Rig;
  /** Factor by which the readings scatter more than their stated uncertainties. */
  readonly scatter: number;
  /** Residual, in stated standard uncertainties, beyond which a reading of this run is called an outlier. */
  readonly outlierBeyond: number;
  /** Load at which the anchor end comes level by the fitted theory, N; null where it has none. */
  readonly liftoff: number | null;
  /** How the fit ended. */
  readonly outcome: RobustFit["outcome"];
  /** Correlations of the fitted unknowns, in the order of `names`. */
  readonly names: readonly string[];
  readonly correlation: readonly (readonly number[])[];
}

/**
 * Beyond this scaled residual a reading is called an outlier: there Tukey's weight falls to a half, so that the fit believes
 * it less than not. By chance one good reading in 80 is; it is kept in view all the same.
 */
const OUTLIER = 2.5;

interface Parameter {
  readonly name: "mass per length" | "rise" | "gauge zero" | "rig give";
  readonly start: number;
  /** Size at which a difference is taken. */
  readonly typical: number;
  readonly prior: number | null;
}

/**
 * @returns residuals scaled by their uncertainty, the fitted unknowns with theirs, and what was not believed
 * @throws InputError where a reading has no equilibrium of the stated rig (`firstUnsettled` says why)
 * @source least squares with priors as further observations; weights by Huber's, then Tukey's function (chance)
 */
export function reduce(run: Run, rig: Rig): Reduction {
  const parameters = parametersOf(run, rig);
  const angles = run.readings;
  const release = run.release.slice(1);
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
    );
  const at = theory(start);
  expectSettled(run, rig, at.liftoff);
  const uncertainty = [
    ...angles.map((row) => (row.angle === undefined ? uOfLoad(run, row.load) : at.uOfAngle(row.load))),
    ...release.map((row) => at.uOfMovement(row.load)),
  ];
  const predict = (x: Float64Array, out: Float64Array): void => {
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
  const fit = robustFit({ observed, uncertainty, predict, priors }, start, {
    flagBeyond: OUTLIER,
    typical: parameters.map((parameter) => parameter.typical),
  });
  const by = theory(fit.parameters);
  const common = (i: number) => ({
    residual: fit.scaledResiduals[i]! * fit.scale,
    weight: fit.weights[i]!,
    influence: fit.cooksDistances[i]!,
    outlier: fit.flagged.includes(i),
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
    release: run.release.map((row, i) =>
      i === 0
        ? {
            load: row.load,
            movement: 0,
            theory: 0,
            u: 0,
            residual: 0,
            weight: 1,
            influence: 0,
            outlier: false,
            resting: by.resting(row.load),
          }
        : {
            load: row.load,
            movement: row.movement,
            theory: by.movement(row.load),
            resting: by.resting(row.load),
            ...common(angles.length + i - 1),
          },
    ),
    fitted: unknowns(fitted),
    beforehand: unknowns(beforehand),
    rig: perturbed(rig, mass, rise),
    scatter: fit.scale,
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
