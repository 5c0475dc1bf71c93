import { slope } from "../numeric/index.ts";
import { InputError, quoted } from "../quantity/index.ts";

/**
 * What is fitted: observations, a model that predicts them from parameters, and what was known of the parameters
 * beforehand. Sums run over `((observed − predicted) / uncertainty)²` and `((value − parameter) / u)²` of each prior.
 */
export interface FitProblem {
  readonly observed: ArrayLike<number>;
  /**
   * Writes the predicted value of every observation. A value that is not finite says that the model does not exist
   * for these parameters: such a trial is turned down, the fit stays where it was.
   */
  readonly predict: (parameters: Float64Array, out: Float64Array) => void;
  /**
   * Standard uncertainty of each observation, in its unit. With it, variances are absolute: they follow from the stated
   * uncertainties. Without it every observation counts alike and their scatter about the fit sets the variance.
   */
  readonly uncertainty?: ArrayLike<number>;
  /** Writes ∂predicted/∂parameter, a row an observation. Without it: central differences, extrapolated. */
  readonly jacobian?: (parameters: Float64Array, out: Float64Array) => void;
  /** Writes observed − predicted, for a model that can say the difference to more digits than either number holds. */
  readonly difference?: (parameters: Float64Array, out: Float64Array) => void;
  /** Each a Gaussian belief in one parameter, counted as one more observation. Only with `uncertainty`. */
  readonly priors?: readonly Prior[];
}

/** What is known of a parameter beforehand: its value and standard uncertainty. */
export interface Prior {
  /** Which parameter, 0 the first. */
  readonly parameter: number;
  readonly value: number;
  /** Standard uncertainty, in the parameter's unit. */
  readonly u: number;
}

/** Relative error of an extrapolated central difference of a smooth model (measured: about 1e-12 to 1e-11). */
const numericNoise = 1e-10;

/** The problem in whitened form: residuals and Jacobian divided by uncertainty and multiplied by √weight. */
export interface Whitened {
  readonly rows: number;
  readonly columns: number;
  readonly observations: number;
  /** Relative error of the Jacobian: what is smaller cannot be told from zero. */
  readonly noise: number;
  /** Writes the whitened residuals; false when the model does not exist there. */
  residuals(parameters: Float64Array, out: Float64Array): boolean;
  /** Writes the whitened Jacobian of the predictions; `careful` spends more evaluations on a numeric one. */
  jacobian(parameters: Float64Array, careful: boolean, out: Float64Array): boolean;
  /** How often the model was asked so far. */
  evaluations(): number;
}

export function checkProblem(problem: FitProblem, start: ArrayLike<number>): void {
  const n = problem.observed.length;
  const p = start.length;
  if (p === 0) throw new InputError("start", "", "at least one parameter is expected");
  for (let j = 0; j < p; j++) finite(start[j]!, `start[${j}]`);
  for (let i = 0; i < n; i++) finite(problem.observed[i]!, `observed[${i}]`);
  const priors = problem.priors ?? [];
  if (problem.uncertainty === undefined && priors.length > 0) {
    throw new InputError("priors", "", "with priors the uncertainty of the observations is expected, to weigh them by");
  }
  if (problem.uncertainty !== undefined) {
    if (problem.uncertainty.length !== n) {
      throw new InputError(
        "uncertainty",
        `${problem.uncertainty.length} values`,
        `one an observation, ${n}, is expected`,
      );
    }
    for (let i = 0; i < n; i++) positive(problem.uncertainty[i]!, `uncertainty[${i}]`);
  }
  priors.forEach((prior, k) => {
    if (!Number.isInteger(prior.parameter) || prior.parameter < 0 || prior.parameter >= p) {
      throw new InputError(
        `priors[${k}].parameter`,
        quoted(prior.parameter),
        `a number from 0 to ${p - 1} is expected`,
      );
    }
    finite(prior.value, `priors[${k}].value`);
    positive(prior.u, `priors[${k}].u`);
  });
  if (n + priors.length < p) {
    throw new InputError("observed", `${n} observations, ${priors.length} priors`, `at least ${p} for ${p} parameters`);
  }
}

/**
 * @param weights of the observations (robust fits), 1 without; priors always count in full.
 * @param typical size of each parameter, for the width of numeric differences when a parameter is near zero.
 */
export function whiten(problem: FitProblem, typical: Float64Array, weights: Float64Array | undefined): Whitened {
  const n = problem.observed.length;
  const p = typical.length;
  const priors = problem.priors ?? [];
  const factor = new Float64Array(n);
  for (let i = 0; i < n; i++) factor[i] = Math.sqrt(weights?.[i] ?? 1) / (problem.uncertainty?.[i] ?? 1);
  const predicted = new Float64Array(n);
  const moved = new Float64Array(p);
  const column = new Float64Array(n);
  let asked = 0;

  const predict = (parameters: Float64Array, out: Float64Array): void => {
    asked++;
    problem.predict(parameters, out);
  };

  return {
    rows: n + priors.length,
    columns: p,
    observations: n,
    noise: problem.jacobian === undefined ? numericNoise : (n + priors.length) * Number.EPSILON,
    evaluations: () => asked,
    residuals(parameters, out) {
      if (problem.difference !== undefined) {
        asked++;
        problem.difference(parameters, predicted);
        for (let i = 0; i < n; i++) out[i] = predicted[i]! * factor[i]!;
      } else {
        predict(parameters, predicted);
        for (let i = 0; i < n; i++) out[i] = (problem.observed[i]! - predicted[i]!) * factor[i]!;
      }
      priors.forEach((prior, k) => {
        out[n + k] = (prior.value - parameters[prior.parameter]!) / prior.u;
      });
      for (let i = 0; i < n; i++) if (!Number.isFinite(out[i]!)) return false;
      return true;
    },
    jacobian(parameters, careful, out) {
      if (problem.jacobian !== undefined) {
        problem.jacobian(parameters, out);
      } else {
        moved.set(parameters);
        for (let j = 0; j < p; j++) {
          const here = parameters[j]!;
          const size = Math.max(Math.abs(here), typical[j]! * (here === 0 ? 1 : 0.01));
          const shifted = (shift: number, values: Float64Array): void => {
            moved[j] = here + shift;
            predict(moved, values);
          };
          // A power of two shifts a parameter exactly, so that the width is what was meant.
          const width = 2 ** Math.round(Math.log2(size * (careful ? 1e-2 : 1e-3)));
          const error = slope(shifted, n, width, careful ? 8 : 2, column);
          moved[j] = here;
          if (error === Number.POSITIVE_INFINITY) return false;
          for (let i = 0; i < n; i++) out[i * p + j] = column[i]!;
        }
      }
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < p; j++) {
          out[i * p + j]! *= factor[i]!;
          if (!Number.isFinite(out[i * p + j]!)) return false;
        }
      }
      priors.forEach((prior, k) => {
        out.fill(0, (n + k) * p, (n + k + 1) * p);
        out[(n + k) * p + prior.parameter] = 1 / prior.u;
      });
      return true;
    },
  };
}

function finite(value: number, place: string): void {
  if (!Number.isFinite(value)) throw new InputError(place, quoted(value), "a finite number is expected");
}

function positive(value: number, place: string): void {
  if (!(value > 0 && Number.isFinite(value)))
    throw new InputError(place, quoted(value), "a number above zero is expected");
}
