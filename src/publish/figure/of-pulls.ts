/** Pulls by anchor, what they say by themselves, and what is concluded from them. */
import {
  angleLines,
  chanceLines,
  type DrawnXy,
  drawPulls,
  drawXy,
  heldSteps,
  type Layer,
  lineStyle,
  MOST_LINES,
  pullRows,
} from "../../figure/index.ts";
import type { AnchorInWind, AnchorPulls, AngleCurve, Pull } from "../../holding/index.ts";
import { boundsOf } from "../../holding/index.ts";
import { inUnit, plotForceUnit, type UnitSystem } from "../../quantity/index.ts";
import { bandsUnnamed, type FigureMade, tableOfPlots } from "./made.ts";

/** Every pull as a mark over the load at the anchor, a row an anchor. */
export function pullsFigure(pulls: readonly Pull[], anchors: readonly string[], units: UnitSystem): FigureMade {
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const title = anchors.length === 1 ? `Every pull of ${anchors[0]}` : "Every pull, by anchor";
  const stated = pulls.filter(({ loadError }) => loadError !== undefined && loadError > 0).length;
  const rows = pullRows(pulls, anchors, to);
  return {
    title,
    uncertain: `Filled: gave way at that load. Arrow on: held so much, nothing known beyond. Bar: between the two. Arrow back: never held. ± ${stated === 0 ? "of the loads: none stated" : `one standard uncertainty of each load is in the data, stated for ${stated} of ${pulls.length}`}.`,
    draw: (width) =>
      drawPulls({
        title,
        description: `${pulls.length} pulls of ${anchors.length} anchors over the load at the anchor.`,
        axis: `load at the anchor, ${unit}`,
        rows,
        width: Math.round(width),
      }),
    table: {
      columns: ["anchor", "what it says", "held to, N", "gave way by, N", "standard uncertainty, N"],
      rows: pulls.map(({ anchor, hold, loadError }) => {
        const { low, high } = boundsOf(hold);
        const known = Number.isFinite(high) ? high : low;
        return [
          ...[anchor, hold.kind, low > 0 ? low : "", Number.isFinite(high) ? high : ""],
          loadError === undefined ? "" : loadError * known,
        ];
      }),
    },
  };
}

/** More bands than these cover each other. */
const MOST_BANDS = 3;

/** The chance to hold more than a load, by the pulls alone. */
export function heldFigure(anchors: readonly AnchorPulls[], units: UnitSystem): FigureMade {
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const shown = anchors.slice(0, MOST_LINES);
  const banded = shown.length <= MOST_BANDS;
  const layers = shown.flatMap((about, k): Layer[] => {
    const { anchor } = about;
    const { x, y, low, high } = heldSteps(about, to);
    const { role, stroke } = lineStyle(k);
    return [
      ...(banded ? [{ kind: "band" as const, x, low, high, role, label: `${anchor}, 95 %` }] : []),
      { kind: "line", x, y, role, stroke, label: anchor },
    ];
  });
  const title = "Chance to hold more than a load, by the pulls alone";
  const draw = (width: number, height: number): DrawnXy =>
    drawXy({
      title,
      description: "A step line for each anchor, falling where one of its pulls gave way.",
      x: { label: "load at the anchor", unit, from: 0 },
      y: { label: "chance to hold more", unit: "", from: 0, to: 1 },
      layers: bandsUnnamed(layers),
      width: Math.round(width),
      height: Math.round(height),
    });
  return {
    title,
    uncertain: `Kaplan–Meier, or Turnbull where loads lie between two; ± ${banded ? "as bands of 95 % (log-log)" : `not drawn for ${shown.length} anchors: bands of 95 % would cover each other`}.${anchors.length > shown.length ? ` Of ${anchors.length} anchors the first ${shown.length}.` : ""}`,
    draw,
    table: tableOfPlots({ ...draw(680, 300), layers }),
  };
}

/** Load half the pulls hold, over the angle at the anchor. */
export function holdingFigure(curves: readonly AngleCurve[], anchor: string, units: UnitSystem): FigureMade {
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const layers = angleLines(curves, anchor, to, lineStyle);
  return concluded("Holding over the angle at the anchor", anchor, layers, {
    x: { label: "angle at the anchor", unit: "°", from: 0 },
    y: { label: "load half hold", unit, from: 0 },
  });
}

/** Chance that the largest load of a wind stays below what is held. */
export function chanceFigure(inWind: readonly AnchorInWind[], anchor: string): FigureMade {
  const layers = chanceLines(inWind, anchor, lineStyle);
  return concluded("Chance that the largest load of a wind stays below what is held", anchor, layers, {
    x: { label: "mean wind at 10 m", unit: "kn" },
    y: { label: "chance it stays below", unit: "", from: 0, to: 1 },
  });
}

function concluded(
  title: string,
  anchor: string,
  layers: readonly Layer[],
  axes: Pick<Parameters<typeof drawXy>[0], "x" | "y">,
): FigureMade {
  const draw = (width: number, height: number): DrawnXy =>
    drawXy({
      title,
      description: `A line an anchor, with the 95 % band of ${anchor}.`,
      ...axes,
      layers,
      width: Math.round(width),
      height: Math.round(height),
    });
  return {
    title,
    uncertain: `The band holds 95 % for ${anchor}, at a site and on a day not pulled at yet; drawn from the model that compare uses.`,
    draw,
    table: tableOfPlots(draw(680, 300)),
  };
}
