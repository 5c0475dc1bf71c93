/** Load of the wind on a boat: by its windage, by its own measured points, and what tables say. */
import { type DrawnXy, drawXy, type Layer } from "../../figure/index.ts";
import { inUnit, plotForceUnit, type UnitSystem } from "../../quantity/index.ts";
import type { Estimate, WindLoadCurve } from "../../sea/index.ts";
import { bandsUnnamed, type FigureMade, tableOfPlots } from "./made.ts";

/** Load over the mean wind at 10 m. */
export function weatherFigure(name: string, { rows, points }: WindLoadCurve, units: UnitSystem): FigureMade {
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const wind = (speed: number): number => inUnit(speed, "kn", "speed");
  const x = rows.map((row) => wind(row.wind));
  const road = (
    label: string,
    role: "computed" | "other",
    stroke: "solid" | "dashed",
    values: readonly Estimate[],
  ): Layer[] => [
    {
      kind: "band",
      x,
      low: values.map(({ low }) => to(low)),
      high: values.map(({ high }) => to(high)),
      role,
      label: `${label}, 95 %`,
    },
    { kind: "line", x, y: values.map(({ value }) => to(value)), role, stroke, label },
  ];
  const windage = rows.flatMap((row) => (row.windage === undefined ? [] : [row.windage]));
  const ends = rows[0]?.measured.map(({ at }) => at) ?? [];
  const layers: Layer[] = [
    ...(windage.length === rows.length ? road("steady, by windage", "computed", "solid", windage) : []),
    ...ends.flatMap((at, i) =>
      road(
        `as measured at the ${at}`,
        "other",
        i === 0 ? "solid" : "dashed",
        rows.map((row) => row.measured[i]!.mean),
      ),
    ),
    ...(points.length === 0
      ? []
      : [
          {
            kind: "points" as const,
            role: "measured" as const,
            label: "measured",
            points: points.map(({ windAt10m, load }) => ({ x: wind(windAt10m), y: to(load) })),
          },
        ]),
  ];
  const title = `${name}: load over the wind`;
  const draw = (width: number, height: number): DrawnXy =>
    drawXy({
      title,
      description: "Load over the mean wind at 10 m, each road with the band that holds 95 %.",
      x: { label: "mean wind at 10 m", unit: "kn", from: 0 },
      y: { label: "load", unit, from: 0 },
      layers: bandsUnnamed(layers),
      width: Math.round(width),
      height: Math.round(height),
    });
  return {
    title,
    uncertain:
      "Bands hold 95 %, by what the boat file states and by how her own points scatter; the wind is taken as exact.",
    draw,
    table: tableOfPlots({ ...draw(680, 300), layers }),
  };
}
