/** A value with its standard uncertainty, the band that holds it 95 times in 100, and where the uncertainty comes from. */
import studentT from "@stdlib/stats-base-dists-t";

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

/** Normal coverage factor of 95 %. */
const NORMAL_95 = 1.959963984540054;

/** Coverage factor of 95 % for so many degrees of freedom (Infinity: 1.96). */
export function coverage(dof: number): number {
  return dof === Number.POSITIVE_INFINITY ? NORMAL_95 : studentT.quantile(0.975, dof);
}

/**
 * First order (JCGM 100) for inputs that know nothing of each other; an input of u = 0 is exact and left out of the shares.
 * The band of a positive quantity never reaches below zero.
 */
export function shared(
  inputs: readonly { readonly name: string; readonly value: number; readonly u: number }[],
  model: (values: readonly number[]) => number,
): Shared {
  const values = inputs.map((input) => input.value);
  const value = model(values);
  const parts = inputs
    .filter((input) => input.u > 0)
    .map((input) => {
      const at = inputs.indexOf(input);
      const moved = (by: number): number => model(values.map((v, i) => (i === at ? v + by : v)));
      const step = 1e-4 * input.u;
      return { name: input.name, part: (((moved(step) - moved(-step)) / (2 * step)) * input.u) ** 2 };
    });
  const variance = parts.reduce((sum, { part }) => sum + part, 0);
  const u = Math.sqrt(variance);
  return {
    value,
    u,
    low: Math.max(0, value - NORMAL_95 * u),
    high: value + NORMAL_95 * u,
    shares: parts.map(({ name, part }) => ({ name, share: variance === 0 ? 0 : part / variance })),
  };
}
