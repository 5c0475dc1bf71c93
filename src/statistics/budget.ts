// Uncertainty of a result by its first-order budget: JCGM 100:2008 (GUM), clause 5 and annex G.
//   u² = Σᵢ Σⱼ cᵢ uᵢ r(i, j) cⱼ uⱼ,   cᵢ = ∂f/∂xᵢ at the estimates               (eq. 13 and 16)
//   dof = u⁴ / Σ (uᵍ⁴ / dofᵍ)                                  Welch and Satterthwaite (eq. G.2b)
// The second-order part, on demand, is that of the note to 5.1.2, for inputs that do not hang together.

import { slope } from "../numeric/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { type Correlation, factorCorrelation, groups } from "./correlation.ts";
import { tQuantile } from "./student-t.ts";
import { checkInputs, type UncertainInput } from "./uncertain-input.ts";

/** A result as a function of its inputs, in their order; not finite where there is none. */
export type Model = (inputs: ArrayLike<number>) => number;

/** What a budget may be told beside its inputs: correlations, coverage. */
export interface BudgetOptions {
  /** Coefficients between the inputs, in their order; without, all 0. */
  readonly correlation?: Correlation;
  /** Writes ∂result/∂input; without, extrapolated central differences. */
  readonly sensitivities?: (inputs: ArrayLike<number>, out: Float64Array) => void;
  /** Share of cases the expanded uncertainty is to cover; 0.95 without. */
  readonly coverage?: number;
  /** Adds `withSecondOrder`, at about 4 n² evaluations of the model. */
  readonly secondOrder?: boolean;
}

/** One input's part in the budget. */
export interface Source {
  readonly name: string;
  readonly value: number;
  readonly u: number;
  /** ∂result/∂input, result's unit over input's. */
  readonly sensitivity: number;
  /** Estimated relative error of a numeric sensitivity; 0 for one that was given. */
  readonly sensitivityError: number;
  /** sensitivity · u, with its sign, in the result's unit. */
  readonly contribution: number;
  /**
   * Part of u² that is this input's; all shares add up to 1. What two correlated inputs bring together, 2 cᵢuᵢ r cⱼuⱼ, is
   * given half to each, so that a share may be negative where one undoes another.
   */
  readonly share: number;
}

/** An uncertainty budget: the value, its combined uncertainty, and what each source has in it. */
export interface Budget {
  readonly value: number;
  /** Combined standard uncertainty, first order. */
  readonly u: number;
  /**
   * Effective degrees of freedom; Infinity when every u is known for sure. Inputs that hang together count as one source
   * with the fewest degrees of freedom among them: the formula itself holds for independent sources only.
   */
  readonly dof: number;
  readonly coverage: number;
  /** Student's t for the coverage, at the degrees of freedom cut down to a whole number (G.4.1). */
  readonly coverageFactor: number;
  /** coverageFactor · u. */
  readonly expanded: number;
  readonly sources: readonly Source[];
  /** Standard uncertainty with the second-order terms; well above `u` says that the model bends within the uncertainty. */
  readonly withSecondOrder?: number;
}

/**
 * First-order uncertainty budget of `model` at the estimates of `inputs`.
 *
 * Tested against JCGM 100:2008 H.1 and H.2 (test/published/jcgm-100.test.ts).
 * @throws InputError for inputs that make no sense, or at whose estimates the model has no value or no slope.
 */
export function budget(model: Model, inputs: readonly UncertainInput[], options: BudgetOptions = {}): Budget {
  checkInputs(inputs);
  const n = inputs.length;
  const { correlation } = options;
  if (correlation !== undefined) factorCorrelation(correlation, n);
  const coverage = options.coverage ?? 0.95;
  if (!(coverage > 0 && coverage < 1))
    throw new InputError("coverage", quoted(coverage), "a share between 0 and 1 is expected");
  const at = Float64Array.from(inputs, (input) => input.value);
  const value = model(at);
  if (!Number.isFinite(value)) {
    throw new InputError("model", `[${at.join(", ")}]`, "estimates at which the result exists are expected");
  }
  const slopes = sensitivities(model, inputs, at, options);
  const part = slopes.map(({ sensitivity }, i) => sensitivity * inputs[i]!.u);
  const r = (i: number, j: number): number => (i === j ? 1 : (correlation?.[i]?.[j] ?? 0));
  const pulled = part.map((own, i) => own * part.reduce((sum, other, j) => sum + r(i, j) * other, 0));
  const variance = Math.max(
    0,
    pulled.reduce((sum, x) => sum + x, 0),
  );
  const u = Math.sqrt(variance);

  let thin = 0;
  for (const group of groups(correlation, n)) {
    const dof = Math.min(...group.map((i) => inputs[i]!.dof ?? Number.POSITIVE_INFINITY));
    const own = group.reduce((sum, i) => sum + pulled[i]!, 0);
    thin += own ** 2 / dof;
  }
  const dof = thin > 0 ? variance ** 2 / thin : Number.POSITIVE_INFINITY;
  const coverageFactor = tQuantile((1 + coverage) / 2, Number.isFinite(dof) ? Math.max(1, Math.floor(dof)) : dof);
  return {
    value,
    u,
    dof,
    coverage,
    coverageFactor,
    expanded: coverageFactor * u,
    sources: inputs.map((input, i) => ({
      name: input.name,
      value: input.value,
      u: input.u,
      sensitivity: slopes[i]!.sensitivity,
      sensitivityError: slopes[i]!.sensitivityError,
      contribution: part[i]!,
      share: variance > 0 ? pulled[i]! / variance : 0,
    })),
    ...(options.secondOrder === true ? { withSecondOrder: secondOrder(model, inputs, at, variance, correlation) } : {}),
  };
}

function sensitivities(
  model: Model,
  inputs: readonly UncertainInput[],
  at: Float64Array,
  options: BudgetOptions,
): { sensitivity: number; sensitivityError: number }[] {
  const out = new Float64Array(inputs.length);
  if (options.sensitivities !== undefined) {
    options.sensitivities(at, out);
    return Array.from(out, (sensitivity, i) => {
      if (Number.isFinite(sensitivity)) return { sensitivity, sensitivityError: 0 };
      throw new InputError(inputs[i]!.name, quoted(sensitivity), "a finite sensitivity is expected");
    });
  }
  const moved = Float64Array.from(at);
  const found = new Float64Array(1);
  return inputs.map(({ name, value, u }, i) => {
    const shifted = (shift: number, result: Float64Array): void => {
      moved[i] = value + shift;
      result[0] = model(moved);
    };
    // The uncertainty is the size over which the result is asked for; a thousandth of the value when that is larger, so
    // that rounding stays small; a power of two, so that the shift is exact.
    const size = Math.max(u, 1e-3 * Math.abs(value)) || 1e-3;
    const sensitivityError = slope(shifted, 1, 2 ** Math.round(Math.log2(size)), 8, found);
    moved[i] = value;
    if (sensitivityError === Number.POSITIVE_INFINITY) {
      throw new InputError(name, quoted(value), "an estimate around which the result exists is expected");
    }
    return { sensitivity: found[0]!, sensitivityError };
  });
}

/** u with Σᵢⱼ [½ fᵢⱼ² + fᵢ fᵢⱼⱼ] uᵢ² uⱼ² added, each derivative by differences of a tenth of the uncertainty. */
function secondOrder(
  model: Model,
  inputs: readonly UncertainInput[],
  at: Float64Array,
  variance: number,
  correlation: Correlation | undefined,
): number {
  if (groups(correlation, inputs.length).some((group) => group.length > 1)) {
    throw new InputError(
      "secondOrder",
      "correlated inputs",
      "the second-order terms are known for independent inputs only",
    );
  }
  const h = 0.1;
  const moved = Float64Array.from(at);
  /** Result with input i moved by a, and j by b, steps of h uncertainties. */
  const value = (i: number, a: number, j: number, b: number): number => {
    moved[i]! += a * h * inputs[i]!.u;
    moved[j]! += b * h * inputs[j]!.u;
    const result = model(moved);
    moved.set(at);
    return result;
  };
  let sum = variance;
  for (let i = 0; i < inputs.length; i++) {
    if (inputs[i]!.u === 0) continue;
    const first = (value(i, 1, i, 0) - value(i, -1, i, 0)) / (2 * h);
    for (let j = 0; j < inputs.length; j++) {
      if (inputs[j]!.u === 0) continue;
      let mixed: number;
      let third: number;
      if (i === j) {
        mixed = (value(i, 1, i, 0) - 2 * value(i, 0, i, 0) + value(i, -1, i, 0)) / h ** 2;
        third =
          (value(i, 2, i, 0) - 2 * value(i, 1, i, 0) + 2 * value(i, -1, i, 0) - value(i, -2, i, 0)) / (2 * h ** 3);
      } else {
        const pp = value(i, 1, j, 1);
        const pm = value(i, 1, j, -1);
        const mp = value(i, -1, j, 1);
        const mm = value(i, -1, j, -1);
        mixed = (pp - pm - mp + mm) / (4 * h ** 2);
        third = (pp - 2 * value(i, 1, j, 0) + pm - (mp - 2 * value(i, -1, j, 0) + mm)) / (2 * h ** 3);
      }
      sum += 0.5 * mixed ** 2 + first * third;
    }
  }
  return Math.sqrt(Math.max(0, sum));
}
