/** The chart of loads over wind as what stands in its table. */
import { inUnit } from "../../../quantity/index.ts";
import type { Series, Shown } from "../../figure/shown-figure.ts";
import { MARGIN, type Plot } from "./axis.ts";
import type { LoadCurves } from "./load-curves.ts";

export function shownLoads({ winds, curve, gust }: LoadCurves, plot: Plot, windUnit: string, loadUnit: string): Shown {
  const wind = (value: number): number => inUnit(value, windUnit, "speed");
  const load = (value: number): number => inUnit(value, loadUnit, "force");
  const x = winds.map(wind);
  const line = (name: string, y: readonly number[], u?: readonly number[]): Series => ({
    kind: "line",
    name,
    x,
    y: y.map(load),
    ...(u === undefined ? {} : { u: u.map(load) }),
  });
  const { rows } = curve;
  const series: Series[] = rows[0]!.measured.flatMap(({ at, peak }, i) => {
    const of = (row: (typeof rows)[number]) => row.measured[i]!;
    return [
      line(
        `by own points (${at})`,
        rows.map((row) => of(row).mean.value),
        rows.map((row) => of(row).mean.u),
      ),
      ...(peak === undefined
        ? []
        : [
            line(
              `brief peaks (${at})`,
              rows.map((row) => of(row).peak!.value),
              rows.map((row) => of(row).peak!.u),
            ),
          ]),
    ];
  });
  if (rows[0]!.windage !== undefined)
    series.push(
      line(
        "by windage",
        rows.map((row) => row.windage!.value),
        rows.map((row) => row.windage!.u),
      ),
    );
  if (gust !== null)
    series.push(
      line(
        "in the gust",
        gust.map(({ value }) => value),
        gust.map(({ u }) => u),
      ),
    );
  if (curve.points.length > 0)
    series.push({
      kind: "points",
      name: "own points",
      x: curve.points.map((point) => wind(point.wind)),
      y: curve.points.map((point) => load(point.load)),
      notes: curve.points.map(() => ""),
    });
  const box = { left: plot.left, top: plot.top, right: plot.left + plot.width, bottom: plot.top + plot.height };
  return {
    width: box.right + MARGIN.right,
    height: box.bottom + MARGIN.bottom,
    plots: [
      {
        box,
        x: { label: "mean wind at 10 m", unit: windUnit, from: 0, to: wind(plot.most) },
        y: { label: "load", unit: loadUnit, from: 0, to: load(plot.highest) },
        series,
      },
    ],
  };
}
