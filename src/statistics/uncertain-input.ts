import { InputError, quoted } from "../quantity/index.ts";
import { mean, standardDeviation } from "./centre.ts";

/** What is known of one quantity that a result depends on. */
export interface UncertainInput {
  readonly name: string;
  /** Best estimate, in the quantity's unit. */
  readonly value: number;
  /** Standard uncertainty of the estimate, in the same unit; 0 for a number that is exact. */
  readonly u: number;
  /** Degrees of freedom behind `u`; without, infinitely many. */
  readonly dof?: number;
  /** What the quantity's possible values are like; without, Student's t where `dof` is given and normal where not. */
  readonly distribution?: DistributionShape;
}

/**
 * Shapes of JCGM 101:2008, 6.4, each set by value and u:
 * `normal`; `t` with the input's dof, scaled by u as for a mean of readings (6.4.9); `rectangular`, `triangular`,
 * `arcsine` (a cycling quantity, 6.4.6) between limits; `trapezoidal`, its flat top being that share of the base;
 * `inexactLimits`, rectangular between limits that are themselves uncertain by that share of the half-width (6.4.3).
 */
export type DistributionShape =
  | "normal"
  | "t"
  | "rectangular"
  | "triangular"
  | "arcsine"
  | { readonly trapezoidal: number }
  | { readonly inexactLimits: number };

/** A quantity known only to lie between two limits, in their unit, every value alike: u = (upper − lower) / √12 (JCGM 100:2008, 4.3.7). @throws InputError unless low < high */
export function betweenLimits(name: string, low: number, high: number): UncertainInput {
  if (!(high > low)) throw new InputError(name, `${low} to ${high}`, "limits with the lower one first are expected");
  return { name, value: (low + high) / 2, u: (high - low) / Math.sqrt(12), distribution: "rectangular" };
}

/** The mean of repeated readings, in their unit, with the standard deviation of that mean, s / √n, and n − 1 degrees of freedom (JCGM 100:2008, 4.2). @throws InputError for fewer than two */
export function fromReadings(name: string, readings: readonly number[]): UncertainInput {
  if (readings.length < 2) throw new InputError(name, `${readings.length} readings`, "at least 2 are expected");
  const u = standardDeviation(readings) / Math.sqrt(readings.length);
  return { name, value: mean(readings), u, dof: readings.length - 1, distribution: "t" };
}

/** The shape an input is drawn from. */
export function shapeOf(input: UncertainInput): DistributionShape {
  return input.distribution ?? (input.dof === undefined || input.dof === Number.POSITIVE_INFINITY ? "normal" : "t");
}

export function checkInputs(inputs: readonly UncertainInput[]): void {
  if (inputs.length === 0) throw new InputError("inputs", "", "at least one uncertain input is expected");
  for (const { name, value, u, dof, distribution } of inputs) {
    if (!Number.isFinite(value)) throw new InputError(`${name}.value`, quoted(value), "a finite number is expected");
    if (!(u >= 0 && Number.isFinite(u)))
      throw new InputError(`${name}.u`, quoted(u), "zero or a number above it is expected");
    if (dof !== undefined && !(dof > 0))
      throw new InputError(`${name}.dof`, quoted(dof), "a number above zero is expected");
    if (distribution === "t" && dof === undefined) {
      throw new InputError(`${name}.dof`, "", "Student's t asks for its degrees of freedom");
    }
    if (typeof distribution === "object") {
      const [kind, part] = Object.entries(distribution)[0] as [string, number];
      if (!(part >= 0 && part <= 1))
        throw new InputError(`${name}.${kind}`, quoted(part), "a share from 0 to 1 is expected");
    }
  }
}
