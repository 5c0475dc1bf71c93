import { builtIn } from "./catalogue.gen.ts";
import { readGear } from "./read-catalogue.ts";
import type { Catalogue } from "./row.ts";

export { type Basis, type Figure, relativeUncertainty, type Source, spreadOf } from "./figure.ts";
export { findChain, findPoint, findRope, findWire, rowsOfSize, type Size } from "./find.ts";
export {
  BEDDED_IN,
  CHAIN_STRETCH_U,
  chainMassPerLength,
  chainStiffness,
  type LinkShape,
  usualShortLink,
} from "./link.ts";
export { type LineLoop, type LoopText, loopText, readLoop, writtenLoop } from "./loop.ts";
export { type Merged, merge } from "./merge.ts";
export type { Catalogue, ChainRow, Curve, LineRow, PointRow, Property, RopeRow, Row, WireRow } from "./row.ts";
export { gearFileSchema } from "./schema.ts";
export { type StretchLaw, strainUnder } from "./stretch.ts";

/** The rows that come with the program: data/gear/*.yaml, each with its sources. */
export const catalogue: Catalogue = builtIn;

/**
 * Reads a user's own rows (`rodebench/gear@1`, YAML or JSON); they may name the stretch curves that come with the program.
 * @param place the file's name, for errors.
 * @throws InputError naming the row, the field, what stands there and what was expected.
 */
export function readCatalogue(text: string, place: string): Catalogue {
  return readGear(text, place, place, builtIn.curves);
}
