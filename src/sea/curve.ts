/** Load over wind for drawing: both roads with their bands, the measured points and the tables' points, none blended. */
import type { Boat, LoadEnd, MeasuredPoint } from "./boat.ts";
import { calibrate, windAt10m } from "./calibrate.ts";
import { type DesignLoadTable, designLoadsFor } from "./design-loads.ts";
import type { Estimate } from "./estimate.ts";
import { type Prediction, predictLoad } from "./load-law.ts";
import { CALM_SURROUNDINGS, type Conditions, steadyLoad } from "./windage-load.ts";

/** Load at one wind, with what it is made of. */
export interface CurveRow {
  /** Mean wind at 10 m, m/s. */
  readonly wind: number;
  /** Steady load by windage, N; absent when the boat states no windage. */
  readonly windage?: Estimate;
  readonly measured: readonly { readonly at: LoadEnd; readonly mean: Prediction; readonly peak?: Prediction }[];
}

/** Load over wind, row by row. */
export interface WindLoadCurve {
  readonly rows: readonly CurveRow[];
  /** The boat's own points, their wind brought to 10 m, m/s and N. */
  readonly points: readonly (MeasuredPoint & { readonly windAt10m: number })[];
  /** Each table's loads in the boat's row, m/s and N. */
  readonly tablePoints: readonly { readonly table: DesignLoadTable; readonly wind: number; readonly load: number }[];
}

/** @param winds mean winds at 10 m, m/s, each above zero */
export function windLoadCurve(
  boat: Boat,
  winds: readonly number[],
  conditions: Conditions = CALM_SURROUNDINGS,
  tables: readonly DesignLoadTable[] = [],
): WindLoadCurve {
  const { profile } = conditions.air;
  const calibrations = calibrate(boat, profile);
  return {
    rows: winds.map((wind) => ({
      wind,
      ...(boat.windage === undefined ? {} : { windage: steadyLoad(boat, { value: wind, u: 0 }, conditions) }),
      measured: calibrations.map(({ at, mean, peak }) => ({
        at,
        mean: predictLoad(mean, { value: wind, u: 0 }),
        ...(peak === undefined ? {} : { peak: predictLoad(peak, { value: wind, u: 0 }) }),
      })),
    })),
    points: boat.measured.map((point) => ({
      ...point,
      windAt10m: windAt10m(point, profile),
    })),
    tablePoints: designLoadsFor(boat, tables).flatMap(({ table, row }) =>
      row.loads.map(({ wind, load }) => ({ table, wind, load })),
    ),
  };
}
