/** The fields of a viewer's page: text as it was typed, and the numbers it means. */
import { type PageContent, usualNumbers, type ViewerNumbers } from "../../publish/index.ts";
import { type Dimension, formatQuantity, KNOT, type UnitSystem, unitFor } from "../../quantity/index.ts";
import { quantityTyped, type Range } from "../controls/quantity-typed.ts";

export type QuantityName =
  | "depth"
  | "roller"
  | "chainLength"
  | "ropeLength"
  | "length"
  | "beam"
  | "freeboard"
  | "mast"
  | "wind"
  | "mass";
export type ChoiceName = "chain" | "rope" | "boat" | "anchor" | "seabed" | "setup";
/** What was typed or picked; what was not has no text and is the page's own. */
export type Typed = Readonly<Partial<Record<QuantityName | ChoiceName | "units", string>>>;

interface QuantityAsked {
  readonly label: string;
  readonly dimension: Dimension;
  readonly range: Range;
}

const length = (label: string, least: number, most: number, words: string): QuantityAsked => ({
  label,
  dimension: "length",
  range: { least, most, expected: `${words} is expected` },
});

export const QUANTITIES: Readonly<Record<QuantityName, QuantityAsked>> = {
  depth: length("depth of water", 0.5, 200, "a depth from 0.5 m to 200 m"),
  roller: length("bow roller above the water", 0, 10, "a height from 0 m to 10 m"),
  chainLength: length("length of chain let out", 0, 1000, "a length from 0 m to 1000 m"),
  ropeLength: length("length of rope let out", 0, 1000, "a length from 0 m to 1000 m"),
  length: length("length of the boat", 3, 60, "a length from 3 m to 60 m"),
  beam: length("beam", 1, 20, "a beam from 1 m to 20 m"),
  freeboard: length("freeboard at the bow", 0.1, 10, "a freeboard from 0.1 m to 10 m"),
  mast: length("top of the mast above the water (0: no mast)", 0, 80, "a height from 0 m to 80 m"),
  wind: {
    label: "mean wind at 10 m height",
    dimension: "speed",
    range: { least: 1 * KNOT, most: 100 * KNOT, expected: "a wind from 1 kn to 100 kn is expected" },
  },
  mass: {
    label: "mass of your anchor",
    dimension: "mass",
    range: { least: 1, most: 500, expected: "a mass from 1 kg to 500 kg is expected" },
  },
};
const NAMES = Object.keys(QUANTITIES) as QuantityName[];
export const OWN_BOAT = "your own";
export const NO_LINE = "none";

/** The unit a bare number is in: winds are told in knots everywhere. */
export const unitOf = (dimension: Dimension, system: UnitSystem): string =>
  dimension === "speed" ? "kn" : unitFor(dimension, system);

export const systemOf = (content: PageContent, typed: Typed): UnitSystem =>
  typed.units === "us" || typed.units === "metric" ? typed.units : content.units;

/** What a field shows: what was typed, or the page's own value in the units chosen. */
export function shownText(content: PageContent, typed: Typed, name: QuantityName): string {
  const { dimension } = QUANTITIES[name];
  const system = systemOf(content, typed);
  const usual = usualNumbers(content)[name];
  return typed[name] ?? formatQuantity(usual, dimension, { unit: unitOf(dimension, system), digits: 3 });
}

/** What may be picked, by name. */
export function choicesOf(content: PageContent, name: ChoiceName): readonly string[] {
  const { holding } = content;
  switch (name) {
    case "chain":
      return [...content.chains.map((line) => line.name), NO_LINE];
    case "rope":
      return [...content.ropes.map((line) => line.name), NO_LINE];
    case "boat":
      return [...content.boats.map((boat) => boat.name), OWN_BOAT];
    case "anchor":
      return holding?.anchors.map(({ anchor }) => anchor) ?? [];
    case "seabed":
      return holding?.draws.seabeds ?? [];
    case "setup":
      return content.setups.map((setup) => setup.name);
  }
}

/** What is picked: the viewer's choice where the page has it, else the page's own. */
export function picked(content: PageContent, typed: Typed, name: ChoiceName): string {
  const choices = choicesOf(content, name);
  const given = typed[name];
  if (given !== undefined && choices.includes(given)) return given;
  if (name === "rope") return NO_LINE;
  const place = usualNumbers(content)[name];
  return choices[place] ?? (name === "boat" ? OWN_BOAT : (choices[0] ?? ""));
}

export interface Read {
  /** Null while a field says nothing that is understood. */
  readonly numbers: ViewerNumbers | null;
  /** What is wrong with each field, in one line. */
  readonly wrong: Readonly<Partial<Record<QuantityName, string>>>;
}

/** The numbers a page is asked with. */
export function readTyped(content: PageContent, typed: Typed): Read {
  const system = systemOf(content, typed);
  const wrong: Partial<Record<QuantityName, string>> = {};
  const values: Partial<Record<QuantityName, number>> = {};
  for (const name of NAMES) {
    const { label, dimension, range } = QUANTITIES[name];
    const text = shownText(content, typed, name);
    const value = quantityTyped(text, unitOf(dimension, system), dimension, label, range);
    if (typeof value === "string") wrong[name] = value;
    else values[name] = value;
  }
  if (Object.keys(wrong).length > 0) return { numbers: null, wrong };
  const place = (name: ChoiceName): number => choicesOf(content, name).indexOf(picked(content, typed, name));
  const boat = place("boat");
  const numbers: ViewerNumbers = {
    ...(values as Record<QuantityName, number>),
    chain: place("chain"),
    rope: place("rope"),
    boat: boat < content.boats.length ? boat : -1,
    anchor: place("anchor"),
    seabed: place("seabed"),
    setup: place("setup"),
  };
  if (numbers.boat < 0 && numbers.beam > numbers.length)
    return { numbers: null, wrong: { beam: "beam: larger than the length; a beam within the length is expected" } };
  return { numbers, wrong };
}
