/** A value with its standard uncertainty, the band that holds it 95 times in 100, and where the uncertainty comes from. */
import { type Budget, budget, tQuantile, type UncertainInput } from "../statistics/index.ts";

/** A value with its standard uncertainty, SI. */
export interface Measured {
  readonly value: number;
  /** Standard uncertainty, same unit; 0: taken as exact. */
  readonly u: number;
}

/** A value with its standard uncertainty and 95 % interval. */
export interface Estimate extends Measured {
  /** Ends of the 95 % band. */
  readonly low: number;
  readonly high: number;
}

/** An estimate with each input's share of its variance; the shares add up to 1. */
export interface Shared extends Estimate {
  readonly shares: readonly { readonly name: string; readonly share: number }[];
}

/** Widest relative uncertainty for which a band is laid in logarithms. */
const widestInLogarithms = 0.5;

/** Coverage factor of 95 % for so many degrees of freedom (Infinity: 1.96). */
export function coverage(dof: number): number {
  return tQuantile(0.975, dof);
}

/**
 * A result that cannot be below zero, by its first-order budget (JCGM 100); exact inputs are left out of the shares.
 *
 * The band is laid in logarithms, value · exp(±k u/value): loads and winds are products of factors that are known to so
 * many per cent, and a symmetric band misses their long upper tail. A result known to no better than half its own size
 * (a current that all but holds the wind) gets the symmetric band, cut off at zero.
 */
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

function fromBudget({ value, u, coverageFactor: k, sources }: Budget, scale: number): Shared {
  const own = u * scale;
  const inLogarithms = value > 0 && own <= widestInLogarithms * value;
  return {
    value,
    u: own,
    low: inLogarithms ? value * Math.exp((-k * own) / value) : Math.max(0, value - k * own),
    high: inLogarithms ? value * Math.exp((k * own) / value) : value + k * own,
    shares: sources.filter((source) => source.u > 0).map(({ name, share }) => ({ name, share })),
  };
}
