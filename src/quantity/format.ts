import type { Dimension } from "./dimension.ts";
import { roundToUncertainty, significant } from "./rounding.ts";
import { inUnit, type UnitSystem, unitFor } from "./units.ts";

/** No angle of a rode is known or felt to less than a hundredth of a degree: power of ten. */
const FINEST_DEGREE = -2;

/** How a value is shown: system or unit, and how sharp. */
export interface Format {
  /** Default metric. */
  readonly system?: UnitSystem;
  /** The unit chosen for this field, in place of the system's own. */
  readonly unit?: string;
  /** Standard uncertainty, SI: the value is then rounded to it. */
  readonly u?: number;
  /** Significant digits when there is no uncertainty; default 4. */
  readonly digits?: number;
}

/**
 * A value of SI as text with its unit: `12.34 ± 0.40 m`, `1025 kg/m³`, `4.2°`.
 * With `u`, two digits of the uncertainty and the value to the same place; without, `digits` significant digits.
 */
export function formatQuantity(valueSI: number, dimension: Dimension, format: Format = {}): string {
  const unit = unitFor(dimension, format.system ?? "metric", format.unit);
  const value = inUnit(valueSI, unit, dimension);
  const after = unit === "" || unit === "°" || unit === "'" || unit === '"' ? unit : ` ${unit}`;
  if (format.u === undefined) {
    const { digits = 4 } = format;
    return `${significant(value, digits, unit === "°" && digits <= 4 ? FINEST_DEGREE : undefined)}${after}`;
  }
  const rounded = roundToUncertainty(value, inUnit(format.u, unit, dimension));
  return unit === "°" ? `${rounded.value}° ± ${rounded.u}°` : `${rounded.value} ± ${rounded.u}${after}`;
}
