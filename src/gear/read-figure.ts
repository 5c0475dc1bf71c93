import { type Dimension, InputError, nth, parseQuantity, quoted } from "../quantity/index.ts";
import type { Basis, Figure } from "./figure.ts";
import type { Property } from "./row.ts";
import type { FigureText, OriginText } from "./schema.ts";

/** Where figures without their own source and basis come from: the row's, else the file's. */
export interface Provenance {
  readonly source: string | undefined;
  readonly basis: Basis | undefined;
  /** Known source keys → keys in the catalogue. */
  readonly sources: ReadonlyMap<string, string>;
  /** The key of a figure that names no source: the file itself. */
  readonly unsourced: string;
}

const DIMENSION: Readonly<Record<Exclude<Property, "stretch">, Dimension>> = {
  massPerLength: "massPerLength",
  mass: "mass",
  density: "density",
  workingLoad: "force",
  breakingLoad: "force",
  wetStrength: "ratio",
};

/**
 * Reads the figures of one property, the one used first.
 * @param loads figures of the row's other load, for `{ share, of }`.
 */
export function readFigures(
  text: FigureText,
  property: Exclude<Property, "stretch">,
  place: string,
  from: Provenance,
  loads: Partial<Record<Property, readonly Figure[]>>,
): readonly Figure[] {
  const list = Array.isArray(text) ? text : [text];
  return list.map((one, i) => {
    const at = Array.isArray(text) ? `${place}${nth(i)}` : place;
    if (typeof one === "string" || typeof one === "number") {
      return { value: positive(one, DIMENSION[property], at), ...provenance({}, at, from) };
    }
    if ("value" in one) {
      return { value: positive(one.value, DIMENSION[property], `${at}.value`), ...provenance(one, at, from) };
    }
    const base = loads[one.of]?.[0];
    if (!base || one.of === property || DIMENSION[property] !== "force") {
      throw new InputError(`${at}.of`, quoted(one.of), "another load of this row, given as a quantity, is expected");
    }
    return { value: positive(one.share, "ratio", `${at}.share`) * base.value, ...provenance(one, at, from) };
  });
}

export function provenance(own: OriginText, place: string, from: Provenance): Omit<Figure, "value"> {
  const named = own.source ?? from.source;
  const source = named === undefined ? from.unsourced : from.sources.get(named);
  if (source === undefined) {
    throw new InputError(`${place}.source`, quoted(named), "the name of one of the file's sources is expected");
  }
  const basis = own.basis ?? from.basis ?? "stated";
  return {
    basis,
    source,
    ...(own.spread === undefined ? {} : { spread: positive(own.spread, "ratio", `${place}.spread`) }),
    ...(own.note === undefined ? {} : { note: own.note }),
  };
}

export function positive(text: string | number, dimension: Dimension, place: string): number {
  const value = parseQuantity(text, dimension, place);
  if (!(value > 0)) throw new InputError(place, quoted(text), "more than nothing is expected");
  return value;
}
