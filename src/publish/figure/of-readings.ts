/** Readings of a run against theory. */
import { angleOverLoad, curveLoads, movementOverLoad } from "../../figure/index.ts";
import { type Reduction, type Run, theoryCurve } from "../../pull/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import { type FigureMade, tableOfPlots } from "./made.ts";

/** A run and its reduction. */
export interface RunReduced {
  readonly run: Run;
  readonly reduced: Reduction;
  readonly medium: "air" | "water";
}

/** Angle or movement over load; null where the run holds none of it. */
export function readingsFigure(
  what: "angle" | "movement",
  { run, reduced, medium }: RunReduced,
  units: UnitSystem,
): FigureMade | null {
  if (what === "angle" ? run.readings.length === 0 : run.release.length < 2) return null;
  const curve = theoryCurve(run, reduced, curveLoads(run, reduced));
  const draw = (width: number) =>
    (what === "angle" ? angleOverLoad : movementOverLoad)({
      ...{ run, reduced, curve, medium, units },
      width: Math.round(width),
    });
  return {
    title: `${run.name}: ${what === "angle" ? "angle" : "movement"} over load, read and by theory`,
    uncertain:
      "Bars and band: one standard uncertainty to either side, of one reading and of theory with the fitted unknowns; below, how far each reading lies from theory, in standard uncertainties.",
    draw,
    table: tableOfPlots(draw(680)),
  };
}
