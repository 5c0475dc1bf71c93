/** What an anchor holds under conditions asked about, draw by draw. */
import { DEGREES } from "../quantity/index.ts";
import { REFERENCE_ANGLE } from "./model.ts";
import { type Posterior, sortedQuantile } from "./posterior.ts";
import { scatterQuantile } from "./predict.ts";

/** Conditions asked about; what is left out is that of the pulls. */
export interface Conditions {
  /** rad */
  readonly anchorAngle?: number;
  /** kg, of every anchor: shapes alone are then compared. Left out: each at its own. */
  readonly mass?: number;
  readonly seabed?: string;
}

/** Limits are 95 %. */
export interface Between {
  readonly middle: number;
  readonly low: number;
  readonly high: number;
}

export function geometricMean(values: readonly (number | undefined)[]): number | undefined {
  const known = values.filter((value) => value !== undefined);
  if (known.length === 0) return undefined;
  return Math.exp(known.reduce((sum, value) => sum + Math.log(value), 0) / known.length);
}

export function draw({ draws, model }: Posterior, s: number): Float64Array {
  return draws.subarray(s * model.parameters, (s + 1) * model.parameters);
}

export function column({ draws, model, length }: Posterior, k: number): Float64Array {
  return Float64Array.from({ length }, (_, s) => draws[s * model.parameters + k]!);
}

/** Centre of ln H of an anchor under the conditions, a draw each. A seabed nobody pulled on has its prior's spread left out. */
export function anchorCentres(
  posterior: Posterior,
  anchor: number,
  { anchorAngle, seabed }: Conditions,
  mass: number | undefined,
): Float64Array {
  const { model } = posterior;
  const angle = anchorAngle === undefined ? 0 : anchorAngle * DEGREES - REFERENCE_ANGLE;
  const lnMass = mass === undefined ? 0 : Math.log(mass) - model.lnMassMiddle;
  const bed = model.seabeds === undefined || seabed === undefined ? -1 : model.seabeds.names.indexOf(seabed);
  return Float64Array.from({ length: posterior.length }, (_, s) => {
    const at = draw(posterior, s);
    return (
      at[0]! +
      model.effect(at, model.anchors, anchor) +
      (model.angleAt < 0 ? 0 : at[model.angleAt]! * angle) +
      (model.massAt < 0 ? 0 : at[model.massAt]! * lnMass) +
      (bed < 0 ? 0 : model.effect(at, model.seabeds, bed))
    );
  });
}

/** Shift of ln H below which a share p of pulls at a new site and day lies, a draw each. */
export function quantiles(posterior: Posterior, p: number): Float64Array {
  const { model } = posterior;
  return Float64Array.from({ length: posterior.length }, (_, s) => {
    const at = draw(posterior, s);
    return scatterQuantile(model.law, p, model.newSpread(at), model.scatter(at));
  });
}

export function betweenOf(values: Float64Array): Between {
  const sorted = values.slice().sort();
  return {
    middle: sortedQuantile(sorted, 0.5),
    low: sortedQuantile(sorted, 0.025),
    high: sortedQuantile(sorted, 0.975),
  };
}
