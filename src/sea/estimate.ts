/** A value with its standard uncertainty, the band that holds it 95 times in 100, and where the uncertainty comes from. */
import { type Budget, budget, tQuantile, type UncertainInput } from "../chance/index.ts";

export interface Measured {
  readonly value: number;
  /** Standard uncertainty, same unit; 0: taken as exact. */
  readonly u: number;
}

export interface Estimate extends Measured {
  /** Ends of the 95 % band. */
  readonly low: number;
  readonly high: number;
}

/** An estimate with each input's share of its variance; the shares add up to 1. */
export interface Shared extends Estimate {
  readonly shares: readonly { readonly name: string; readonly share: number }[];
}

/** Coverage factor of 95 % for so many degrees of freedom (Infinity: 1.96). */
export function coverage(dof: number): number {
  return tQuantile(0.975, dof);
}

/** A result that cannot be below zero, by its first-order budget (JCGM 100); exact inputs are left out of the shares. */
export function shared(inputs: readonly UncertainInput[], model: (values: ArrayLike<number>) => number): Shared {
  return fromBudget(budget(model, inputs), 1);
}

/**
 * The input named `unknown` that makes `model` zero, at the value it stands at, by the budget of the model around it:
 * u(x) = u(model) / |∂model/∂x|. Its own u must be 0 among the inputs.
 */
export function sharedRoot(
  unknown: string,
  inputs: readonly UncertainInput[],
  model: (values: ArrayLike<number>) => number,
): Shared {
  const around = budget(model, inputs);
  const slope = around.sources.find((source) => source.name === unknown)!;
  return fromBudget({ ...around, value: slope.value }, 1 / Math.abs(slope.sensitivity));
}

function fromBudget({ value, u, coverageFactor, sources }: Budget, scale: number): Shared {
  const wide = coverageFactor * u * scale;
  return {
    value,
    u: u * scale,
    low: Math.max(0, value - wide),
    high: value + wide,
    shares: sources.filter((source) => source.u > 0).map(({ name, share }) => ({ name, share })),
  };
}
