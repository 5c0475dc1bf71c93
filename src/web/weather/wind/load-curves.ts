/** The curves of load over wind: all of the chart that stands still while the pointer moves. */
import { useMemo } from "react";
import { roundAbove } from "../../../numeric/index.ts";
import {
  type Boat,
  type Conditions,
  type DesignLoadTable,
  designLoadTables,
  type Estimate,
  gustOf,
  steadyLoad,
  type WindLoadCurve,
  windLoadCurve,
} from "../../../sea/index.ts";

const STEPS = 56;

/** Winds a curve is drawn at, m/s, closer together where the wind is light. */
export const windsTo = (most: number): readonly number[] =>
  Array.from({ length: STEPS }, (_, i) => most * (0.01 + (0.99 * i) / (STEPS - 1)));

/** All that stands still while the pointer moves. */
export interface LoadCurves {
  readonly winds: readonly number[];
  readonly curve: WindLoadCurve;
  readonly gust: readonly Estimate[] | null;
  readonly highest: number;
}

export function useLoadCurves(boat: Boat, conditions: Conditions, most: number): LoadCurves {
  return useMemo(() => {
    const winds = windsTo(most);
    const curve = windLoadCurve(boat, winds, conditions, designLoadTables);
    const asked = conditions.gust;
    const gust =
      boat.windage === undefined || asked === undefined
        ? null
        : winds.map((wind) => steadyLoad(boat, { value: wind * gustOf(asked, wind).factor, u: 0 }, conditions));
    const last = curve.rows.at(-1)!;
    const tops = [
      last.windage?.high ?? 0,
      gust?.at(-1)?.value ?? 0,
      ...last.measured.map(({ mean, peak }) => Math.max(mean.high, peak?.value ?? 0)),
      ...curve.points.map(({ load, peak }) => 1.1 * (peak ?? load)),
    ];
    const own = Math.max(...tops);
    // The tables lie above; they may stretch the axis, but not press the boat's own curves flat.
    const tables = curve.tablePoints.filter(({ wind }) => wind <= most).map(({ load }) => 1.05 * load);
    const highest = own > 0 ? Math.max(own, ...tables.filter((load) => load <= 1.8 * own)) : Math.max(1, ...tables);
    return { winds, curve, gust, highest: roundAbove(highest) };
  }, [boat, conditions, most]);
}

export const tablesOf = ({ curve }: LoadCurves): readonly DesignLoadTable[] => [
  ...new Set(curve.tablePoints.map(({ table }) => table)),
];
