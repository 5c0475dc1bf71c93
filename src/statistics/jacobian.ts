// A model of several values and its first-order uncertainty: JCGM 100:2008, eq. 13, for every value at once.
//   uₖ² = Σᵢ Σⱼ cₖᵢ uᵢ r(i, j) cₖⱼ uⱼ,   cₖᵢ = ∂fₖ/∂xᵢ by one pair of differences an input: 2 n + 1 evaluations.

import type { Correlation } from "./correlation.ts";
import { checkInputs, type UncertainInput } from "./uncertain-input.ts";

/** Writes the results for its inputs, in their order; NaN where there is none. */
export type VectorModel = (inputs: Float64Array, out: Float64Array) => void;

/** Slopes of every result over every input, with the inputs' uncertainties. */
export interface Jacobian {
  readonly kind: "jacobian";
  /** The results at the estimates. */
  readonly values: Float64Array;
  /** By input, then by result: cₖᵢ·uᵢ, what one standard uncertainty of the input does to each result. */
  readonly contributions: readonly Float64Array[];
  /** Names of inputs that could be moved to one side only: the model ends beside their estimates. */
  readonly oneSided: readonly string[];
}

/** What may stand in the place of a Jacobian: an input beside whose estimate the model has no value on either side. */
export type NoJacobian = { readonly kind: "noValue" } | { readonly kind: "cannotMove"; readonly input: string };

/**
 * Differences are taken over this share of the uncertainty: local enough that a model which bends within its uncertainty
 * keeps its slope to 1e-4 or so, and wide enough that one which is solved to 1e-9 does.
 */
const SHARE = 2 ** -6;

/**
 * @param size number of results
 * @param share of each uncertainty that differences are taken over: larger for a model that is not smooth to nine digits.
 *   "across": a contribution is the root mean square of the changes over the whole uncertainty to either side, without a
 *   sign; the same where a model is straight that far, and at a corner it does not vanish, as a slope would
 * @throws InputError for inputs that make no sense
 */
export function jacobian(
  model: VectorModel,
  size: number,
  inputs: readonly UncertainInput[],
  share: number | "across" = SHARE,
): Jacobian | NoJacobian {
  checkInputs(inputs);
  const at = Float64Array.from(inputs, (input) => input.value);
  const valueAt = (i: number, shift: number): Float64Array | null => {
    const moved = Float64Array.from(at);
    moved[i]! += shift;
    const out = new Float64Array(size);
    model(moved, out);
    return out.some(Number.isNaN) ? null : out;
  };
  const values = valueAt(0, 0);
  if (values === null) return { kind: "noValue" };
  const contributions: Float64Array[] = [];
  const oneSided: string[] = [];
  for (const [i, { name, u }] of inputs.entries()) {
    if (u === 0) {
      contributions.push(new Float64Array(size));
      continue;
    }
    const step = share === "across" ? u : share * u;
    const above = valueAt(i, step);
    const below = valueAt(i, -step);
    if (above === null && below === null) return { kind: "cannotMove", input: name };
    if (above === null || below === null) oneSided.push(name);
    if (share === "across") {
      const sides = [above, below].filter((side) => side !== null);
      contributions.push(
        values.map((value, k) =>
          Math.sqrt(sides.reduce((sum, side) => sum + (side[k]! - value) ** 2, 0) / sides.length),
        ),
      );
      continue;
    }
    const width = share * (above === null || below === null ? 1 : 2);
    contributions.push(values.map((value, k) => ((above?.[k] ?? value) - (below?.[k] ?? value)) / width));
  }
  return { kind: "jacobian", values, contributions, oneSided };
}

/**
 * Combined standard uncertainty of each result, and each input's share of its square (JCGM 100:2008, equations 13 and 16).
 * @param first contributions: what one standard uncertainty of an input adds to each result, as `jacobian` finds them or as a
 *   closed form has them; beside a value of 0 no rounding is told apart from an uncertainty
 */
export function combined(
  {
    values,
    contributions,
  }: { readonly values: ArrayLike<number>; readonly contributions: readonly ArrayLike<number>[] },
  correlation?: Correlation,
): { readonly u: Float64Array; readonly shares: readonly Float64Array[] } {
  const r = (i: number, j: number): number => (i === j ? 1 : (correlation?.[i]?.[j] ?? 0));
  const u = new Float64Array(values.length);
  const shares = contributions.map(() => new Float64Array(values.length));
  for (let k = 0; k < values.length; k++) {
    const pulled = contributions.map(
      (own, i) => own[k]! * contributions.reduce((sum, other, j) => sum + r(i, j) * other[k]!, 0),
    );
    const variance = Math.max(
      0,
      pulled.reduce((sum, each) => sum + each, 0),
    );
    // What is stated exactly comes back as rounding: that is no uncertainty.
    u[k] = variance > (1e-9 * values[k]!) ** 2 ? Math.sqrt(variance) : 0;
    for (const [i, each] of pulled.entries()) shares[i]![k] = variance > 0 ? each / variance : 0;
  }
  return { u, shares };
}
