import { DIMENSIONS, type Dimension } from "./dimension.ts";
import { InputError, quoted } from "./errors.ts";
import { plainSigns } from "./number-text.ts";
import { fromSI, toSI } from "./parse.ts";
import type { Reading } from "./unit-table.ts";
import { readUnit } from "./unit-text.ts";

/** The two systems in which answers are shown. Speeds of wind and water stay in knots in the second, as at sea. */
export type UnitSystem = "metric" | "us";

/**
 * The unit in which a value is shown: the one chosen for its field, or the system's own.
 * @throws InputError when the chosen unit measures something else.
 */
export function unitFor(dimension: Dimension, system: UnitSystem, choice?: string): string {
  if (choice === undefined) return DIMENSIONS[dimension][system];
  readingFor(choice, dimension, "units");
  return shownAs(choice);
}

/** The unit of force of a plot's axis: newtons of pulls would be long numbers along it. */
export const plotForceUnit = (system: UnitSystem): "lbf" | "kN" => (system === "us" ? "lbf" : "kN");

/** Units worth offering for a dimension, the SI unit first; "" is a bare ratio. */
export function unitChoices(dimension: Dimension): readonly string[] {
  return DIMENSIONS[dimension].choices;
}

/**
 * A value of SI in another unit.
 * @throws InputError when the unit measures something else.
 */
export function inUnit(valueSI: number, unit: string, dimension: Dimension): number {
  return fromSI(valueSI, readingFor(unit, dimension, "units"));
}

/**
 * A value in some unit, in SI; the unit is given apart from the value, as at the head of a column.
 * @throws InputError when the unit measures something else.
 */
export function fromUnit(value: number, unit: string, dimension: Dimension, place: string): number {
  const valueSI = toSI(value, readingFor(unit, dimension, place));
  if (!Number.isFinite(valueSI)) throw new InputError(place, String(value), `a finite value is expected`);
  return valueSI;
}

const known = new Map<string, Reading>();

function readingFor(unit: string, dimension: Dimension, place: string): Reading {
  const key = `${dimension} ${unit}`;
  const before = known.get(key);
  if (before) return before;
  const read = readUnit(plainSigns(unit), dimension);
  if (read.kind === "refused") {
    const expected = `a unit of ${DIMENSIONS[dimension].name.replace(/^an? /, "")} is expected, such as "${DIMENSIONS[dimension].metric || "%"}"`;
    throw new InputError(
      place,
      `${quoted(unit)} ${read.given}`,
      read.hint === "" ? expected : `${read.hint}; ${expected}`,
    );
  }
  if (known.size < 500) known.set(key, read.reading);
  return read.reading;
}

/** How a unit is printed: raised digits and the sign of a degree. */
function shownAs(unit: string): string {
  return unit
    .trim()
    .replace(/^(deg|degrees?)$/, "°")
    .replace(/\^?2\b/g, "²")
    .replace(/\^?3\b/g, "³")
    .replace(/\*/g, "·");
}
