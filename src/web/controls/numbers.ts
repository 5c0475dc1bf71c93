/**
 * Numbers as every screen shows them: those of the room quantity, with a true minus sign (U+2212). What stands in a field
 * that is typed into, in an address or in a file has the hyphen of keyboards instead.
 */
import {
  type Dimension,
  type Format,
  formatQuantity as plainQuantity,
  roundToUncertainty as plainRounded,
  significant as plainSignificant,
  type Rounded,
} from "../../quantity/index.ts";

/** A text with the minus sign of each of its numbers; hyphens between words, and in dates and codes, stay. */
export const withMinus = (text: string): string => text.replace(/(?<![\p{L}\p{N}_)\]-])-(?=[\d.∞])/gu, "−");

/** `formatQuantity` of the room quantity. */
export const formatQuantity = (valueSI: number, dimension: Dimension, format?: Format): string =>
  withMinus(plainQuantity(valueSI, dimension, format));

/** `significant` of the room quantity. */
export const significant = (value: number, digits?: number): string => withMinus(plainSignificant(value, digits));

/** `roundToUncertainty` of the room quantity. */
export function roundToUncertainty(value: number, u: number): Rounded {
  const plain = plainRounded(value, u);
  return { ...plain, value: withMinus(plain.value) };
}

/** A length too small for its unit in the next smaller one: nobody reads 0.002417 m. */
export function readableUnit(unit: string, value: number | null): string {
  const size = Math.abs(value ?? 0);
  if (size === 0) return unit;
  if (unit === "m" && size < 0.01) return "mm";
  return unit === "ft" && size < 0.015 ? "in" : unit;
}
