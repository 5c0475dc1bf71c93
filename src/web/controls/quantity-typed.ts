import { type Dimension, InputError, parseQuantity } from "../../quantity/index.ts";

/** Bounds of a field in SI; `expected` words them: "a length above zero is expected". */
export interface Range {
  readonly least?: number;
  readonly above?: number;
  readonly most?: number;
  readonly expected: string;
}

/** What was typed as SI, or the one line that says what is wrong with it. */
export function quantityTyped(
  text: string,
  unit: string,
  dimension: Dimension,
  place: string,
  range: Range | undefined,
): number | string {
  try {
    const bare = /^[\s\d.,/+-]+$/.test(text) && /\d/.test(text);
    const value = parseQuantity(bare && unit !== "" ? `${text.trim()} ${unit}` : text, dimension, place);
    const { least, above, most, expected = "" } = range ?? {};
    const within =
      (least === undefined || value >= least) &&
      (above === undefined || value > above) &&
      (most === undefined || value <= most);
    return within ? value : `${place}: ${expected}`;
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}
