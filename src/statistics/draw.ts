// Draws of the inputs from what is known of them, as JCGM 101:2008, 6.4 and annex C.

import { InputError } from "../quantity/index.ts";
import { type Correlation, factorCorrelation, groups } from "./correlation.ts";
import type { Rng } from "./rng.ts";
import { type DistributionShape, shapeOf, type UncertainInput } from "./uncertain-input.ts";

/** Writes one draw of every input. */
export type Draw = (out: Float64Array) => void;

/**
 * @throws InputError when inputs that are correlated are not all normal, or all t with the same degrees of freedom: for
 *   other shapes a coefficient does not say how they hang together.
 */
export function drawer(inputs: readonly UncertainInput[], correlation: Correlation | undefined, rng: Rng): Draw {
  const draws: Draw[] = [];
  for (const group of groups(correlation, inputs.length)) {
    const first = group[0]!;
    draws.push(
      group.length === 1 ? drawOne(inputs[first]!, first, rng) : drawTogether(inputs, group, correlation!, rng),
    );
  }
  return (out) => {
    for (const draw of draws) draw(out);
  };
}

function drawOne(input: UncertainInput, place: number, rng: Rng): Draw {
  const { value, u, dof } = input;
  const shape = shapeOf(input);
  if (u === 0) {
    return (out) => {
      out[place] = value;
    };
  }
  const standard = standardDraw(shape, dof, rng);
  return (out) => {
    out[place] = value + u * standard();
  };
}

/** A draw with mean 0 and standard deviation 1; for t, of scale 1. */
function standardDraw(shape: DistributionShape, dof: number | undefined, rng: Rng): () => number {
  if (typeof shape === "object") {
    if ("trapezoidal" in shape) {
      // Sum of two rectangular ones, of half-widths 1 + flat and 1 − flat (6.4.4); variance (1 + flat²) / 6 of the base's.
      const flat = shape.trapezoidal;
      const half = Math.sqrt(6 / (1 + flat ** 2));
      return () => (half / 2) * ((1 + flat) * (2 * rng.uniform() - 1) + (1 - flat) * (2 * rng.uniform() - 1));
    }
    // Half-width 1, its limits even within ± d about it (6.4.3); variance 1/3 + d²/9.
    const d = shape.inexactLimits;
    const scale = 1 / Math.sqrt(1 / 3 + d ** 2 / 9);
    return () => {
      const low = -1 + d * (2 * rng.uniform() - 1);
      return scale * (low + -2 * low * rng.uniform());
    };
  }
  switch (shape) {
    case "normal":
      return () => rng.normal();
    case "t":
      return () => rng.t(dof!);
    case "rectangular":
      return () => Math.sqrt(3) * (2 * rng.uniform() - 1);
    case "triangular":
      return () => Math.sqrt(6) * (rng.uniform() - rng.uniform());
    case "arcsine":
      return () => Math.SQRT2 * Math.sin(2 * Math.PI * rng.uniform());
  }
}

/** Inputs that hang together: multivariate normal, or multivariate t with one chi-squared for all (JCGM 102:2011, 5.3.2). */
function drawTogether(
  inputs: readonly UncertainInput[],
  group: readonly number[],
  correlation: Correlation,
  rng: Rng,
): Draw {
  const shape = shapeOf(inputs[group[0]!]!);
  const dof = inputs[group[0]!]!.dof;
  for (const i of group) {
    const same = shape === "normal" || (shape === "t" && inputs[i]!.dof === dof);
    if (!same || shapeOf(inputs[i]!) !== shape) {
      throw new InputError(
        inputs[i]!.name,
        "correlated",
        "correlated inputs are expected to be all normal, or all t with the same degrees of freedom",
      );
    }
  }
  const l = factorCorrelation(
    group.map((i) => group.map((j) => correlation[i]![j]!)),
    group.length,
  );
  const z = new Float64Array(group.length);
  return (out) => {
    for (let k = 0; k < z.length; k++) z[k] = rng.normal();
    const stretch = shape === "t" ? Math.sqrt(dof! / (2 * rng.gamma(dof! / 2))) : 1;
    for (let k = 0; k < z.length; k++) {
      let sum = 0;
      for (let j = 0; j <= k; j++) sum += l[k]![j]! * z[j]!;
      const { value, u } = inputs[group[k]!]!;
      out[group[k]!] = value + u * stretch * sum;
    }
  };
}
