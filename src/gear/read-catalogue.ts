import { checkShape, InputError, nth, quoted, readDocument } from "../quantity/index.ts";
import type { Source } from "./figure.ts";
import type { Provenance } from "./read-figure.ts";
import { BY_LINK_SHAPE, readRow } from "./read-row.ts";
import { readCurves } from "./read-stretch.ts";
import { type Catalogue, type Curve, keyOf, type Row } from "./row.ts";
import { type GearFile, gearFile } from "./schema.ts";

const LINK_SHAPE: Source = { cite: "Computed from the shape of the link by elasticity (docs/gear.md)" };

/**
 * Reads a gear file (`rodebench/gear@1`, YAML or JSON).
 * @param place the file's name, for errors.
 * @param origin what the rows are said to come from; default the file's name.
 * @param curves curves its rows may name besides its own.
 * @throws InputError naming the row, the field, what stands there and what was expected.
 */
export function readGear(
  text: string,
  place: string,
  origin = place,
  curves: Readonly<Record<string, Curve>> = {},
): Catalogue {
  const file = checkShape(readDocument(text, place), gearFile, place);
  const { keys, sources } = readSources(file, origin);
  sources[BY_LINK_SHAPE] = LINK_SHAPE;
  sources[origin] = { cite: `Stated in ${place}` };
  const provenance: Provenance = {
    source: file.defaults?.source,
    basis: file.defaults?.basis,
    sources: keys,
    unsourced: origin,
  };
  const own = readCurves(file, place, provenance);
  const setting = { place, origin, defaults: file.defaults ?? {}, provenance, curves: { ...curves, ...own } };
  const rows = file.rows.map((row, i) => readRow(row, `${place}: rows${nth(i)}`, setting));
  refuseTwins(rows, place);
  return { sources: onlyUsed(sources, rows, own), curves: own, rows };
}

/** Keys of a user's file carry its name, so that two files may both call a source "mine". */
function readSources(file: GearFile, origin: string): { keys: Map<string, string>; sources: Record<string, Source> } {
  const keys = new Map<string, string>();
  const sources: Record<string, Source> = {};
  for (const [name, { cite, address, note }] of Object.entries(file.sources ?? {})) {
    const key = origin === "built in" ? name : `${origin}: ${name}`;
    keys.set(name, key);
    sources[key] = { cite, ...(address === undefined ? {} : { address }), ...(note === undefined ? {} : { note }) };
  }
  return { keys, sources };
}

function refuseTwins(rows: readonly Row[], place: string): void {
  const first = new Map<string, number>();
  for (const [i, row] of rows.entries()) {
    const twin = first.get(keyOf(row));
    if (twin !== undefined) {
      const expected = `one row for each article is expected: rows${nth(twin)} is the same`;
      throw new InputError(`${place}: rows${nth(i)}`, quoted(row.name), expected);
    }
    first.set(keyOf(row), i);
  }
}

function onlyUsed(
  sources: Record<string, Source>,
  rows: readonly Row[],
  curves: Record<string, Curve>,
): Record<string, Source> {
  const figures = [
    ...rows.flatMap((row) => Object.values(row.figures).flat()),
    ...Object.values(curves).flatMap((c) => c.figures),
  ];
  const used = new Set(figures.map((figure) => figure.source));
  return Object.fromEntries(Object.entries(sources).filter(([key]) => used.has(key)));
}
