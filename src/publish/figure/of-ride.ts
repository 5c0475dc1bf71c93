/** A boat riding in gusts and waves: loads and angle over the time ridden. */
import { drawRideOverTime, drawShares, SHARE_CLASSES, sharesOf } from "../../figure/index.ts";
import type { RideAnswer, RideSeries } from "../../motion/index.ts";
import { DEGREES, formatQuantity, inUnit, plotForceUnit, type UnitSystem } from "../../quantity/index.ts";
import { type FigureMade, tableOfPlots } from "./made.ts";
import { peaksKept } from "./thinned.ts";

/** A ride, with what is told of it. */
export interface RideDrawn {
  readonly rig: string;
  readonly boat: string;
  readonly series: Pick<RideSeries, "time" | "bowLoad" | "anchorLoad" | "anchorAngle">;
  readonly answer: Pick<RideAnswer, "bow" | "atRest">;
  /** Relative standard uncertainty of the boat's windage, which all loads share. */
  readonly windageU: number;
  readonly seed: number;
  /** Whether the wind was measured: then there are no gusts drawn. */
  readonly measuredWind: boolean;
  /** Mean at 10 m it begins with, m/s. */
  readonly wind: number;
  /** Lowest working load limit of the rode's parts, N; null: none is known. */
  readonly limit: number | null;
}

/** Load at bow and anchor, and the angle at the anchor, over time; long rides by the peaks of each piece of time. */
export function rideFigure(drawn: RideDrawn, units: UnitSystem): FigureMade {
  const { rig, boat, series, answer, wind } = drawn;
  const unit = plotForceUnit(units);
  const line = (values: Float64Array, shown: (value: number) => number) => {
    const kept = peaksKept(values);
    return { x: kept.map((i) => series.time[i]!), y: kept.map((i) => shown(values[i]!)) };
  };
  const force = (newtons: number): number => inUnit(newtons, unit, "force");
  const title = `${boat} riding to ${rig} in ${blowing(wind)}`;
  const drawing = {
    title,
    bow: line(series.bowLoad, force),
    anchor: line(series.anchorLoad, force),
    angle: line(series.anchorAngle, (radians) => radians * DEGREES),
    still: answer.atRest === null ? null : force(answer.atRest.bow.tension),
    unit,
  };
  const draw = (width: number, height: number) =>
    drawRideOverTime({ ...drawing, width: Math.round(width), height: Math.max(320, Math.round(height)) });
  return { title, uncertain: rideUncertain(drawn, units), draw, table: tableOfPlots(draw(680, 400)) };
}

/** How long the load at the bow was how high. */
export function rideSharesFigure(drawn: RideDrawn, units: UnitSystem): FigureMade {
  const { rig, boat, series, answer, wind, limit } = drawn;
  const unit = plotForceUnit(units);
  const force = (newtons: number): number => inUnit(newtons, unit, "force");
  const still = answer.atRest?.bow.tension ?? 0;
  const top = series.bowLoad.reduce((most, load) => Math.max(most, load), still);
  const shares = sharesOf(series.bowLoad, top);
  const title = `${boat} riding to ${rig} in ${blowing(wind)}: time at each load`;
  return {
    title,
    uncertain: rideUncertain(drawn, units),
    draw: (width, height) =>
      drawShares({
        title,
        description: `Share of the time at each load at the bow, to ${formatQuantity(top, "force", { system: units, digits: 2 })}.`,
        shares,
        top: force(top),
        axis: { label: "load at the bow", unit },
        marks: sharesMarks(still, limit, force),
        width: Math.round(width),
        height: Math.max(220, Math.round(height)),
      }),
    table: {
      columns: [`load at the bow from, ${unit}`, `to, ${unit}`, "share of the time"],
      rows: shares.map((share, i) => [(force(top) * i) / SHARE_CLASSES, (force(top) * (i + 1)) / SHARE_CLASSES, share]),
    },
  };
}

/** What is marked across the shares: the load at rest, and the lowest working load limit. @param to N in the unit drawn */
export const sharesMarks = (
  still: number,
  limit: number | null,
  to: (newtons: number) => number,
): { readonly at: number; readonly label: string; readonly warn: boolean }[] => [
  ...(still > 0 ? [{ at: to(still), label: "at rest", warn: false }] : []),
  ...(limit === null ? [] : [{ at: to(limit), label: "working load limit", warn: true }]),
];

const blowing = (wind: number): string => formatQuantity(wind, "speed", { unit: "kn", digits: 3 });

function rideUncertain({ answer, windageU, seed, measuredWind }: RideDrawn, units: UnitSystem): string {
  const mean = formatQuantity(answer.bow.mean, "force", {
    system: units,
    ...(answer.bow.u > 0 ? { u: answer.bow.u } : { digits: 3 }),
  });
  const share = formatQuantity(windageU, "ratio", { unit: "%", digits: 2 });
  return `Mean load at the bow ${mean}, ± one standard uncertainty by the length of the ride alone; the boat's windage is known to ${share}, and every load with it. One drawing of ${measuredWind ? "waves in a wind that was measured" : "gusts and waves"}, seed ${seed}: another has other peaks.`;
}
