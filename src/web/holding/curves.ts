/** Curves of what was concluded: holding over the angle, and the chance to hold over the wind. Drawn in the worker. */
import { angleLines, chanceLines, drawXy, lineStyle } from "../../figure/index.ts";
import type { AnchorInWind, AngleCurve } from "../../holding/index.ts";
import { DEGREES, inUnit, plotForceUnit, type UnitSystem } from "../../quantity/index.ts";
import { type ShownFigure, shownFigure } from "../figure/shown-figure.ts";

export interface CurvesAsked {
  readonly angleCurves: readonly AngleCurve[];
  readonly angles: readonly [number, number] | null;
  readonly inWind: readonly AnchorInWind[];
  /** Whose band is drawn. */
  readonly anchor: string;
  readonly units: UnitSystem;
  readonly width: number;
}

export interface Curves {
  readonly angle: ShownFigure | null;
  readonly wind: ShownFigure | null;
}

export function holdingCurves(asked: CurvesAsked): Curves {
  return { angle: overAngle(asked), wind: overWind(asked) };
}

function overAngle({ angleCurves, angles, anchor, units, width }: CurvesAsked): ShownFigure | null {
  if (angleCurves.length === 0) return null;
  const unit = plotForceUnit(units);
  const layers = angleLines(angleCurves, anchor, (newtons) => inUnit(newtons, unit, "force"), lineStyle);
  if (angles !== null && angles[0] * DEGREES > 0.5) {
    layers.push({ kind: "rule", axis: "x", at: angles[0] * DEGREES, role: "faint", label: "flattest pull" });
  }
  const title = "Holding over the angle at the anchor";
  const drawn = drawXy({
    title,
    description: `Load half the pulls hold at a new site and day, a line an anchor, with the 95 % band of ${anchor}`,
    x: { label: "angle at the anchor", unit: "°", from: 0 },
    y: { label: "load half hold", unit, from: 0 },
    layers,
    width,
    height: 320,
  });
  return shownFigure(title, drawn);
}

function overWind({ inWind, anchor, width }: CurvesAsked): ShownFigure | null {
  const layers = chanceLines(inWind, anchor, lineStyle);
  if (!layers.some((layer) => layer.kind === "line" && layer.x.length > 1)) return null;
  const title = "Chance that the largest load of a wind stays below what is held";
  const drawn = drawXy({
    title,
    description: `Over the mean wind, a line an anchor, with the 95 % band of ${anchor}`,
    x: { label: "mean wind at 10 m", unit: "kn" },
    y: { label: "chance it stays below", unit: "", from: 0, to: 1 },
    layers,
    width,
    height: 320,
  });
  return shownFigure(title, drawn);
}
