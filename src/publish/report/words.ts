/** Values of a reduction as a reader wants them. */
import type { FittedValue } from "../../pull/index.ts";
import { type Dimension, formatQuantity, type UnitSystem } from "../../quantity/index.ts";

const LBF = 4.4482216152605;

export function shown(value: number, dimension: Dimension, units: UnitSystem, u?: number): string {
  return signed(formatQuantity(value, dimension, { system: units, ...(certain(u) ? { u: u! } : {}) }));
}

/** With a true minus sign, as type is set. */
const signed = (text: string) => text.replace(/^-/, "−");

const certain = (u: number | undefined) => u !== undefined && u > 0 && Number.isFinite(u);

/** Movements, small against lengths: mm or in. */
export function movementText(metres: number, units: UnitSystem): string {
  return signed(formatQuantity(metres, "length", { unit: units === "us" ? "in" : "mm", digits: 3 }));
}

/** Give per load in units people use: mm per kN, or inches per 100 lbf. */
export function giveText(give: FittedValue, units: UnitSystem): string {
  const per =
    units === "us" ? { load: 100 * LBF, unit: "in", says: "per 100 lbf" } : { load: 1000, unit: "mm", says: "per kN" };
  return `${formatQuantity(give.value * per.load, "length", { unit: per.unit, ...(certain(give.u) ? { u: give.u * per.load } : {}) })} ${per.says}`;
}

/** A true minus sign, one decimal. */
export function residualText(residual: number): string {
  const plain = Math.abs(residual).toFixed(1);
  return residual < 0 && plain !== "0.0" ? `−${plain}` : plain;
}
