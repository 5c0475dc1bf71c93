/**
 * What lies beside a boat's own points: her load by windage at the same wind, and the loads published tables print for boats
 * of her length. Neither is blended into the other; here is how far they are apart.
 */

import type { LoadEnd } from "./boat.ts";
import type { DesignLoads } from "./design-loads.ts";
import type { Measured } from "./estimate.ts";
import { predictLoad } from "./load-law.ts";
import type { MeasuredLoads, Weather } from "./weather.ts";

/** Two that differ by more than so many times the uncertainty of their difference are apart (GUM 5.1.2, 95 %). */
const APART = 2;

/** Her mean load by windage and by her own points of one end, N. */
export interface RoadsBeside {
  readonly at: LoadEnd;
  readonly windage: Measured;
  /** What windage means: her swinging mean where she is taken to swing, as a cell reads it; else the steady load. */
  readonly swinging: boolean;
  readonly points: Measured;
  /** Within what their ± allow, taken as independent. */
  readonly agree: boolean;
}

/** Both roads where both stand and are of the bow: an anchor feels less, by the weight that hangs between. */
export function roadsBeside({ windage, measured }: Pick<Weather, "windage" | "measured">): readonly RoadsBeside[] {
  if (windage === undefined) return [];
  const { steady, veered } = windage;
  const mean: Measured =
    veered === undefined
      ? { value: steady.value, u: steady.u }
      : { value: veered.mean, u: veered.mean * veered.relativeU };
  return measured
    .filter(({ at }) => at !== "anchor")
    .map(({ at, mean: points }) => ({
      at,
      windage: mean,
      swinging: veered !== undefined,
      points: { value: points.value, u: points.u },
      agree: Math.abs(points.value - mean.value) <= APART * Math.hypot(points.u, mean.u),
    }));
}

/** What tables print at one of their winds, beside her own mean there, N. */
export interface TablesBeside {
  /** m/s: the printed wind nearest the one asked about */
  readonly wind: number;
  readonly printed: readonly number[];
  readonly own: Measured;
  /** No printed load is further off than her own ± allows. */
  readonly agree: boolean;
}

/** @param wind asked about, m/s; undefined where there are no tables or no points of hers */
export function tablesBeside(
  measured: readonly MeasuredLoads[],
  tables: readonly DesignLoads[],
  wind: number,
): TablesBeside | undefined {
  const points = measured.find(({ at }) => at !== "anchor") ?? measured[0];
  const cells = tables.flatMap(({ row }) => row.loads);
  if (points === undefined || cells.length === 0) return undefined;
  const far = (at: number): number => Math.abs(at - wind);
  const nearest = cells.reduce((best, cell) => (far(cell.wind) < far(best) ? cell.wind : best), cells[0]!.wind);
  const own = predictLoad(points.calibration.mean, { value: nearest, u: 0 });
  const printed = cells.filter((cell) => Math.abs(cell.wind - nearest) < 1e-9 * nearest).map(({ load }) => load);
  return {
    wind: nearest,
    printed,
    own: { value: own.value, u: own.u },
    agree: printed.every((load) => Math.abs(load - own.value) <= APART * own.u),
  };
}
