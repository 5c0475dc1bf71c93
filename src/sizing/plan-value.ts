/** Quantities of a plan with their bounds. */
import { type Dimension, InputError, parseQuantity, quoted } from "../quantity/index.ts";

type Text = string | number;

/** A value above zero. @throws InputError naming the field */
export function above(
  given: Text,
  dimension: Dimension,
  place: string,
  most = Number.POSITIVE_INFINITY,
  mostText = "",
): number {
  const value = parseQuantity(given, dimension, place);
  if (!(value > 0)) throw new InputError(place, quoted(given), "a value above zero is expected");
  if (value > most) throw new InputError(place, quoted(given), `at most ${mostText} is expected`);
  return value;
}

/** Zero or more. @throws InputError naming the field */
export function notBelow(given: Text, dimension: Dimension, place: string): number {
  const value = parseQuantity(given, dimension, place);
  if (!(value >= 0)) throw new InputError(place, quoted(given), "zero or more is expected");
  return value;
}
