/** How much a rode gives for a little more load, over the wind on a boat: by weight raised and by stretch. */
import { type DrawnXy, drawXy, type Layer } from "../../figure/index.ts";
import { formatQuantity, inUnit, type UnitSystem } from "../../quantity/index.ts";
import type { GiveOverLoads } from "../../sizing/index.ts";
import { complianceShown, complianceText, complianceUnit } from "../../words/index.ts";
import { bandsUnnamed, type FigureMade, tableOfPlots } from "./made.ts";

/** A rode's give over the wind on a boat. */
export interface GiveDrawn extends GiveOverLoads {
  readonly rig: string;
  readonly boat: string;
  /** Mean winds at 10 m, m/s, one for each give. */
  readonly winds: readonly number[];
  /** Give asked of raised weight, m/N. */
  readonly asked: number;
  /** Wind past which raising gives less, m/s, with its standard uncertainty; null where there is none. */
  readonly ends: { readonly wind: number; readonly u: number } | null;
}

/** Give per load grows without end towards calm: the axis shows what is asked, and so many times that. */
const OVER_ASKED = 4;

/** Give per load over the mean wind at 10 m. */
export function giveFigure(
  { rig, boat, winds, weight, stretch, asked, ends }: GiveDrawn,
  units: UnitSystem,
): FigureMade {
  const unit = complianceUnit[units];
  const give = (compliance: number): number => complianceShown(compliance, units);
  const known = winds.flatMap((wind, i) => (Number.isFinite(weight[i]! + stretch[i]!) ? [{ wind, i }] : []));
  const knots = (wind: number): number => inUnit(wind, "kn", "speed");
  const x = known.map(({ wind }) => knots(wind));
  const raised = known.map(({ i }) => give(weight[i]!));
  const whole = known.map(({ i }) => give(weight[i]! + stretch[i]!));
  const top = OVER_ASKED * give(asked);
  const layers: Layer[] = [
    { kind: "band", x, low: x.map(() => 0), high: raised, role: "computed", label: "weight raised" },
    { kind: "line", x, y: raised, role: "computed", label: "weight raised" },
    { kind: "band", x, low: raised, high: whole, role: "other", label: "and stretch" },
    { kind: "line", x, y: whole, role: "other", stroke: "dashed", label: "and stretch" },
    { kind: "rule", axis: "y", at: give(asked), role: "faint", label: `asked: ${complianceText(asked, units)}` },
    ...(ends === null || knots(ends.wind) > (x.at(-1) ?? 0)
      ? []
      : [
          {
            kind: "rule" as const,
            axis: "x" as const,
            at: knots(ends.wind),
            role: "measured" as const,
            label: "catenary ends",
          },
        ]),
  ];
  const title = `${boat} on ${rig}: give of the rode over the wind`;
  const draw = (width: number, height: number): DrawnXy =>
    drawXy({
      title,
      description:
        "How much farther the boat lies for each step of load, by weight raised and by stretch, over the wind.",
      x: { label: "mean wind at 10 m", unit: "kn", from: 0, to: Math.max(1, x.at(-1) ?? 1) },
      y: { label: "give", unit, from: 0, to: top },
      layers: bandsUnnamed(layers),
      width: Math.round(width),
      height: Math.round(height),
    });
  const past =
    ends === null
      ? "In no wind looked at does raising begin to give less than asked."
      : `Past ${formatQuantity(ends.wind, "speed", { unit: "kn", ...(ends.u > 0 ? { u: ends.u } : { digits: 2 }) })} raising gives less than asked${ends.u > 0 ? ", ± one standard uncertainty" : ""}.`;
  return {
    title,
    uncertain: `${past} The curves have no ±: they are of the mean load of each wind by windage, of the rig as its file states it.`,
    draw,
    table: tableOfPlots({ ...draw(680, 300), layers }),
  };
}
