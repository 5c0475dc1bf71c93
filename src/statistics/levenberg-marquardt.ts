// Nonlinear least squares by Levenberg's and Marquardt's damped steps, in the trust-region form of Moré (1978).
// Each turn solves min |r − J·step| by QR with columns scaled to like size, lengthens or shortens the trust region by
// how well the promise was kept, and ends by the relative offset of Bates & Watts (Technometrics 23 (1981) 179): the
// part of the residuals that a further step could remove, in units of what would remain. An offset of 1e-8 says the
// parameters lie within about 1e-8 of their standard deviations of the least-squares values, whatever their units.

import { norm } from "../numeric/index.ts";
import { inverseNormal, leverages } from "./covariance.ts";
import { checkProblem, type FitProblem, type Whitened, whiten } from "./fit-problem.ts";
import { Search, type SearchOutcome, type SearchSettings } from "./least-squares-search.ts";

/** How a fit is run: tolerances, most steps, weights. */
export interface FitOptions {
  /** Relative offset at which the fit is done; 1e-8 without. At 1e-6 and above the careful end of the search is left out. */
  readonly offset?: number;
  /** Most turns of one search; 500 without. */
  readonly turns?: number;
  /** Size of each parameter where it is near zero, for numeric differences; |start| without, 1 for a start at zero. */
  readonly typical?: ArrayLike<number>;
  /** First radius of trust over the size of the start; without, 3, and where that fails 0.1, then 30. */
  readonly firstRadius?: number;
  /** Weights of the observations, 1 without: they multiply the squares. Robust fits set them. */
  readonly weights?: ArrayLike<number>;
}

/**
 * How a fit ended.
 * `converged`: at a least-squares point, by `offset`, or because the residuals or the steps are down to rounding.
 * `undetermined`: the data say nothing of some parameters, or only of a combination; `parameters` could not be told.
 * `stalled`: no such point was reached; `why` says what stood in the way. Its numbers are the best met on the way.
 */
export type FitOutcome = SearchOutcome;

/** A least-squares fit: parameters, their covariance, residuals, and how it ended. */
export interface Fit {
  readonly outcome: FitOutcome;
  readonly parameters: number[];
  /** Roots of the covariance's diagonal; Infinity for a parameter that the data do not determine. */
  readonly standardDeviations: number[];
  readonly covariance: number[][];
  /** Sum of squares, each over the square of its uncertainty when those are given; priors included. */
  readonly residualSumOfSquares: number;
  /** √(sum / degrees of freedom); with uncertainties given, near 1 when they tell the truth. */
  readonly residualStandardDeviation: number;
  /** Observations and priors, less parameters. */
  readonly dof: number;
  /** observed − predicted, in the observation's unit. */
  readonly residuals: number[];
  /** (prior value − parameter) / u of each prior. */
  readonly priorResiduals: number[];
  /** Pull of each observation on its own fitted value, 0 … 1. */
  readonly leverages: number[];
  /** Relative offset at the end: how far the least-squares point may still be, in standard deviations. */
  readonly offset: number;
  readonly iterations: number;
  /** Times the model was asked. */
  readonly evaluations: number;
}

/**
 * Least-squares parameters with their standard deviations.
 *
 * Accuracy: the 27 NIST StRD nonlinear sets from both starts (test/published/nist-strd.test.ts), to 6 digits and more
 * of every parameter and standard deviation.
 * @throws InputError for counts that do not match, numbers that are not finite, or a start at which the model does not
 *   exist.
 */
export function levenbergMarquardt(problem: FitProblem, start: ArrayLike<number>, options: FitOptions = {}): Fit {
  checkProblem(problem, start);
  const p = start.length;
  const typical = new Float64Array(p);
  for (let j = 0; j < p; j++) typical[j] = Math.abs(options.typical?.[j] ?? start[j]!) || 1;
  const weights = options.weights === undefined ? undefined : Float64Array.from(options.weights);
  const system = whiten(problem, typical, weights);
  // A search that runs off along a flat valley is begun again, with a shorter first reach and then a longer one.
  const radii = options.firstRadius === undefined ? [3, 0.1, 30] : [options.firstRadius];
  let best: { search: Search; outcome: FitOutcome } | undefined;
  let iterations = 0;
  for (const firstRadius of radii) {
    const settings: SearchSettings = { offset: options.offset ?? 1e-8, turns: options.turns ?? 500, firstRadius };
    const search = new Search(system, Float64Array.from(start), settings);
    const outcome = search.run();
    iterations += search.iterations;
    const arrived = outcome.kind === "converged";
    if (best === undefined || arrived || search.sum < best.search.sum) best = { search, outcome };
    if (arrived) break;
  }
  return report(problem, system, best!.search, best!.outcome, iterations);
}

function report(problem: FitProblem, system: Whitened, search: Search, outcome: FitOutcome, iterations: number): Fit {
  const { rows, columns, observations } = system;
  const dof = rows - columns;
  // The part of the residuals a further step could remove is left out: it is rounding of the parameters, not scatter.
  const scatter = search.offset < 0.01 ? norm(search.turned, rows, search.factored.rank) ** 2 : search.sum;
  const variance = problem.uncertainty !== undefined ? 1 : dof > 0 ? scatter / dof : Number.POSITIVE_INFINITY;
  const covariance = inverseNormal(search.factored, search.scale).map((row) =>
    row.map((value) => (value === 0 ? 0 : value * variance)),
  );
  const residuals = new Array<number>(observations);
  if (problem.difference !== undefined) {
    const out = new Float64Array(observations);
    problem.difference(search.x, out);
    for (let i = 0; i < observations; i++) residuals[i] = out[i]!;
  } else {
    const predicted = new Float64Array(observations);
    problem.predict(search.x, predicted);
    for (let i = 0; i < observations; i++) residuals[i] = problem.observed[i]! - predicted[i]!;
  }
  return {
    outcome,
    parameters: Array.from(search.x),
    standardDeviations: covariance.map((row, j) => Math.sqrt(row[j]!)),
    covariance,
    residualSumOfSquares: scatter,
    residualStandardDeviation: dof > 0 ? Math.sqrt(scatter / dof) : 0,
    dof,
    residuals,
    priorResiduals: Array.from(search.residuals.subarray(observations)),
    leverages: Array.from(leverages(search.factored, search.scaled, rows).subarray(0, observations)),
    offset: search.offset,
    iterations,
    evaluations: system.evaluations(),
  };
}
