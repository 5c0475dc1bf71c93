/** A boat riding in gusts and waves: loads and angle over the time ridden. */
import { drawRideOverTime } from "../../figure/index.ts";
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
}

/** Load at bow and anchor, and the angle at the anchor, over time; long rides by the peaks of each piece of time. */
export function rideFigure(
  { rig, boat, series, answer, windageU, seed, measuredWind, wind }: RideDrawn,
  units: UnitSystem,
): FigureMade {
  const unit = plotForceUnit(units);
  const line = (values: Float64Array, shown: (value: number) => number) => {
    const kept = peaksKept(values);
    return { x: kept.map((i) => series.time[i]!), y: kept.map((i) => shown(values[i]!)) };
  };
  const force = (newtons: number): number => inUnit(newtons, unit, "force");
  const blowing = formatQuantity(wind, "speed", { unit: "kn", digits: 3 });
  const title = `${boat} riding to ${rig} in ${blowing}`;
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
  const mean = formatQuantity(answer.bow.mean, "force", {
    system: units,
    ...(answer.bow.u > 0 ? { u: answer.bow.u } : { digits: 3 }),
  });
  const share = formatQuantity(windageU, "ratio", { unit: "%", digits: 2 });
  return {
    title,
    uncertain: `Mean load at the bow ${mean}, ± one standard uncertainty by the length of the ride alone; the boat's windage is known to ${share}, and every load with it. One drawing of ${measuredWind ? "waves in a wind that was measured" : "gusts and waves"}, seed ${seed}: another has other peaks.`,
    draw,
    table: tableOfPlots(draw(680, 400)),
  };
}
