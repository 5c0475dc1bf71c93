/** An equilibrium in words and columns, no sharper than its uncertainty. */
import { type Dimension, formatQuantity, type UnitSystem } from "../quantity/index.ts";
import { type Certainty, partLoads, type Rig, type Settled, type SettledTrace } from "../rode/index.ts";

/** Said once wherever a load is planned. */
export const CAUTION =
  "Loaded gear hurts people: stay clear of a rode under load, keep below the working load limits, and put makers' limits, local rules and licensed practice first. An estimate, not a promise that anything holds.";

export function settledText(settled: Settled, certainty: Certainty | null, units: UnitSystem): string {
  const show = (value: number, dimension: Dimension, u?: number) =>
    formatQuantity(value, dimension, { system: units, ...(u === undefined || !(u > 0) ? {} : { u }) });
  const rows: [string, string][] = [
    [
      "at the anchor",
      `${show(settled.anchor.tension, "force", certainty?.anchorTension)} at ${show(settled.anchor.angle, "angle", certainty?.anchorAngle)}${toBottom(settled, units)}`,
    ],
    [
      "at the bow",
      `${show(settled.bow.tension, "force", certainty?.bowTension)} at ${show(settled.bow.angle, "angle", certainty?.bowAngle)}`,
    ],
    ["horizontal force", show(settled.horizontal, "force", certainty?.horizontal)],
    ["span", show(settled.span, "length", certainty?.span)],
    [
      "on the bottom",
      `${show(grounded(settled), "length", certainty?.grounded)}, lifted ${show(settled.lifted, "length")}`,
    ],
    ["stretch", show(settled.stretch, "length")],
    ["sag", show(settled.sag, "length", certainty?.sag)],
    ["scope", `${formatQuantity(settled.scope, "ratio", { unit: "" })} : 1`],
    [
      "energy",
      `${show(settled.energy.lift, "energy")} against weight, ${show(settled.energy.stretch, "energy")} in stretch`,
    ],
  ];
  return rows.map(([name, value]) => `${name.padEnd(18)}${value}\n`).join("");
}

/** A length that is nothing but rounding is shown as none. */
function grounded({ grounded, lifted }: Settled): number {
  return grounded < 1e-12 * lifted ? 0 : grounded;
}

function toBottom(settled: Settled, units: UnitSystem): string {
  const slope = settled.anchor.angle - settled.anchor.angleToBottom;
  if (Math.abs(slope) < 1e-12) return "";
  return ` (${formatQuantity(settled.anchor.angleToBottom, "angle", { system: units })} to the bottom)`;
}

/** A line for each part loaded past its working load limit; empty when none is. */
export function overloaded(rig: Rig, traced: SettledTrace, units: UnitSystem): string {
  const loads = partLoads(traced);
  return rig.rode
    .map((part, i) => {
      if (part.workingLoad === undefined || loads[i]! <= part.workingLoad) return "";
      const breaks = part.breakingLoad !== undefined && loads[i]! > part.breakingLoad;
      const limit = breaks ? part.breakingLoad! : part.workingLoad;
      return `${(breaks ? "breaks" : "overloaded").padEnd(18)}part ${i + 1}, ${part.name}: ${formatQuantity(loads[i]!, "force", { system: units })} is past its ${breaks ? "minimum breaking load" : "working load limit"} of ${formatQuantity(limit, "force", { system: units })}\n`;
    })
    .join("");
}
