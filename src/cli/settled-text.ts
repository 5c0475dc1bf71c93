/** An equilibrium in words and columns, no sharper than its uncertainty. */
import { type Dimension, formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { Certainty, Rig, Settled, SettledUncertainty } from "../rode/index.ts";
import { groundWord } from "../words/index.ts";
import { labelled } from "./text-table.ts";
import { shownUncertainty, spreadText, valueText } from "./uncertain-text.ts";

export function settledText(
  settled: Settled,
  uncertainty: SettledUncertainty | null,
  units: UnitSystem,
  medium: Rig["setting"]["medium"],
): string {
  const { u, bounds } = shownUncertainty(uncertainty);
  const show = (value: number, dimension: Dimension, name?: keyof Certainty) =>
    valueText(value, dimension, units, name && u?.[name], name && bounds?.[name]);
  // What has no ± of its own is no sharper than what it follows from.
  const rough = (value: number, dimension: Dimension) => formatQuantity(value, dimension, { system: units, digits: 3 });
  const ground = groundWord(medium);
  const rows: [string, string][] = [
    [
      "at the anchor",
      `${show(settled.anchor.tension, "force", "anchorTension")} at ${show(settled.anchor.angle, "angle", "anchorAngle")}${toBottom(settled, units, ground)}`,
    ],
    [
      "at the bow",
      `${show(settled.bow.tension, "force", "bowTension")} at ${show(settled.bow.angle, "angle", "bowAngle")}`,
    ],
    ["horizontal force", show(settled.horizontal, "force", "horizontal")],
    ["span", show(settled.span, "length", "span")],
    [`on the ${ground}`, `${show(grounded(settled), "length", "grounded")}, lifted ${show(settled.lifted, "length")}`],
    ["stretch", rough(settled.stretch, "length")],
    ["sag", show(settled.sag, "length", "sag")],
    [
      "scope",
      Number.isFinite(settled.scope)
        ? `${formatQuantity(settled.scope, "ratio", { unit: "", digits: 3 })} : 1`
        : "none: the ends are level",
    ],
    [
      "energy",
      `${rough(settled.energy.lift, "energy")} against weight, ${rough(settled.energy.stretch, "energy")} in stretch`,
    ],
  ];
  const text = rows.map(([name, value]) => `${labelled(name, value)}\n`).join("");
  return text + spreadText(uncertainty, text);
}

/** A length that is nothing but rounding is shown as none. */
function grounded({ grounded, lifted }: Settled): number {
  return grounded < 1e-12 * lifted ? 0 : grounded;
}

function toBottom(settled: Settled, units: UnitSystem, ground: string): string {
  const slope = settled.anchor.angle - settled.anchor.angleToBottom;
  if (Math.abs(slope) < 1e-12) return "";
  return ` (${formatQuantity(settled.anchor.angleToBottom, "angle", { system: units })} to the ${ground})`;
}
