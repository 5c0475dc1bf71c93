/** Curves of what was concluded: holding over the angle, and the chance to hold over the wind. Drawn in the worker. */
import { drawXy, type Layer } from "../../figure/index.ts";
import type { AnchorInWind, AngleCurve } from "../../holding/index.ts";
import { DEGREES, inUnit, type UnitSystem } from "../../quantity/index.ts";
import { type ShownFigure, shownFigure } from "../figure/shown-figure.ts";

export const unitOf = (units: UnitSystem): string => (units === "us" ? "lbf" : "kN");

const STROKES = ["solid", "dashed", "dotted"] as const;
const ROLES = ["computed", "other", "measured"] as const;

/** Nine lines that can be told apart without colour. */
export const lineOf = (k: number) => ({ role: ROLES[Math.floor(k / 3) % 3]!, stroke: STROKES[k % 3]! });
const MOST_LINES = 9;

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

/** The anchor asked about first among so many lines, so that it is never the one left out. */
function firstAmong<T extends { readonly anchor: string }>(all: readonly T[], anchor: string): T[] {
  const mine = all.filter((one) => one.anchor === anchor);
  return [...mine, ...all.filter((one) => one.anchor !== anchor)].slice(0, MOST_LINES);
}

function overAngle({ angleCurves, angles, anchor, units, width }: CurvesAsked): ShownFigure | null {
  const lines = firstAmong(angleCurves, anchor);
  if (lines.length === 0) return null;
  const unit = unitOf(units);
  const x = lines[0]!.points.map(({ angle }) => angle * DEGREES);
  const y = (value: number): number => inUnit(value, unit, "force");
  const layers = lines.flatMap(({ anchor: name, points }, k): Layer[] => [
    ...(name === anchor
      ? [
          {
            kind: "band" as const,
            x,
            low: points.map(({ low }) => y(low)),
            high: points.map(({ high }) => y(high)),
            role: lineOf(k).role,
          },
        ]
      : []),
    { kind: "line", x, y: points.map(({ middle }) => y(middle)), ...lineOf(k), label: name },
  ]);
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
  const lines = firstAmong(inWind, anchor).map(({ anchor: name, points }) => ({
    name,
    points: points.flatMap((point) => (point.kind === "chance" ? [point] : [])),
  }));
  if (!lines.some(({ points }) => points.length > 1)) return null;
  const layers = lines.flatMap(({ name, points }, k): Layer[] => {
    const x = points.map(({ wind }) => inUnit(wind, "kn", "speed"));
    return [
      ...(name === anchor
        ? [
            {
              kind: "band" as const,
              x,
              low: points.map(({ low }) => low),
              high: points.map(({ high }) => high),
              role: lineOf(k).role,
            },
          ]
        : []),
      { kind: "line", x, y: points.map(({ chance }) => chance), ...lineOf(k), label: name },
    ];
  });
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
