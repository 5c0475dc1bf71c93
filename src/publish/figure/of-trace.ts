/** The log of one pull: load over time, what it held, and its plateaus. */
import { type DrawnXy, drawXy, type Layer } from "../../figure/index.ts";
import type { TraceReduction } from "../../pull/index.ts";
import { formatQuantity, inUnit, plotForceUnit, type UnitSystem } from "../../quantity/index.ts";
import { type FigureMade, tableOfPlots } from "./made.ts";
import { peaksKept } from "./thinned.ts";

/** Load over time, its zero taken off. */
export function traceFigure(name: string, reduction: TraceReduction, units: UnitSystem): FigureMade {
  const unit = plotForceUnit(units);
  const to = (newtons: number): number => inUnit(newtons, unit, "force");
  const { series, held, plateaus, readAt } = reduction;
  const start = series.time[0] ?? 0;
  const thin = peaksKept(series.load);
  const layers: Layer[] = [
    {
      kind: "line",
      x: thin.map((i) => series.time[i]! - start),
      y: thin.map((i) => to(series.load[i]!)),
      role: "measured",
    },
    ...plateaus.map(
      ({ from, to: until, load }): Layer => ({
        kind: "line",
        x: [from - start, until - start],
        y: [to(load.value), to(load.value)],
        role: "computed",
      }),
    ),
    ...(held.kind === "notKnown"
      ? []
      : [
          {
            kind: "rule" as const,
            axis: "y" as const,
            at: to(held.newtons),
            role: "computed" as const,
            label: held.kind === "heldTo" ? "held to" : "gave way at",
          },
        ]),
  ];
  const title = `${name}: load over time`;
  const draw = (width: number, height: number): DrawnXy =>
    drawXy({
      title,
      description: `Load at the ${readAt} over ${Math.round((series.time.at(-1) ?? 0) - start)} s, with its plateaus and what it held.`,
      x: { label: "time from the first reading", unit: "s" },
      y: { label: `load at the ${readAt}`, unit },
      layers,
      width: Math.round(width),
      height: Math.round(height),
    });
  const noise = formatQuantity(reduction.log.noise, "force", { system: units, digits: 2 });
  const sure =
    held.kind === "notKnown"
      ? "No ±: what it held is not known."
      : `${held.kind === "heldTo" ? "Held to" : "Gave way at"} ${formatQuantity(held.newtons, "force", { system: units, ...(held.u > 0 ? { u: held.u } : { digits: 3 }) })}, ± one standard uncertainty.`;
  return {
    title,
    uncertain: `${sure} One reading scatters by ${noise} about its neighbours.`,
    draw,
    table: tableOfPlots(draw(680, 300)),
  };
}
