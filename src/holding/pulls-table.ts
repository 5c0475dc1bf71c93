/**
 * The pulls table: rows of cells under a header, to pulls. A header that cannot be read is refused; a row that cannot is
 * left out with its reason, so that no pull disappears and none stops the others.
 */
import { InputError, nearestName, quoted } from "../quantity/index.ts";
import { type Hold, loadError, type Pull } from "./pull.ts";

/** A pull that takes no part, and why. */
export interface LeftOut {
  /** Line of the table (the header is 1), or place in the list handed in. */
  readonly row: number;
  readonly why: string;
}

/** A table of pulls read, and the rows left out with the reason. */
export interface PullsTable {
  readonly pulls: readonly Pull[];
  /** Row of each pull, the header being row 1. */
  readonly rows: readonly number[];
  readonly leftOut: readonly LeftOut[];
}

/** More pulls than any series has: a table beyond is another kind of file. */
export const MOST_PULLS = 200_000;

const COLUMNS = [
  "anchor",
  "heldTo_N",
  "gaveWayBy_N",
  "mass_kg",
  "anchorAngle_deg",
  "anchorAngleHeld_deg",
  "anchorAngleRise_deg",
  "uncertainty_N",
  "seabed",
  "site",
  "day",
  "ending",
  "tester",
  "heldFor_s",
  "heldWithin_m",
] as const;
type Column = (typeof COLUMNS)[number];

/** @throws InputError in one line when the header is none, or more rows come than any series has. */
export function readPullsTable(rows: Iterable<readonly string[]>, place: string): PullsTable {
  let columns: Map<Column, number> | undefined;
  let width = 0;
  const pulls: Pull[] = [];
  const at: number[] = [];
  const leftOut: LeftOut[] = [];
  let row = 0;
  for (const cells of rows) {
    row++;
    if (columns === undefined) {
      columns = readHeader(cells, place);
      width = cells.length;
      continue;
    }
    if (cells.length === 1 && cells[0]!.trim() === "") continue;
    if (row > MOST_PULLS + 1) {
      throw new InputError(place, `more than ${MOST_PULLS} rows`, `at most ${MOST_PULLS} pulls are expected`);
    }
    try {
      if (cells.length !== width) wrong("", `${cells.length} cells`, `${width}, as many as column names, are expected`);
      pulls.push(readRow(cells, columns));
      at.push(row);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      leftOut.push({ row, why: error.message });
    }
  }
  if (columns === undefined) throw new InputError(place, "an empty file", "a row of column names is expected");
  if (pulls.length === 0) {
    const first = leftOut[0];
    throw first === undefined
      ? new InputError(place, "a header alone", "a row a pull is expected below it")
      : new InputError(`${place}: row ${first.row}`, "no row could be read", `the first says: ${first.why}`);
  }
  return { pulls, rows: at, leftOut };
}

function readHeader(cells: readonly string[], place: string): Map<Column, number> {
  const columns = new Map<Column, number>();
  const names = cells.map((cell) => cell.replace(/^\uFEFF/, "").trim());
  for (const [c, name] of names.entries()) {
    const known = COLUMNS.find((column) => column === name);
    if (known === undefined) continue;
    if (columns.has(known)) throw new InputError(`${place}: header`, `${known} twice`, "each column once is expected");
    columns.set(known, c);
  }
  // A column that is a known one but for its spelling or unit would be passed over unseen.
  for (const name of names) {
    if (COLUMNS.some((column) => column === name)) continue;
    const near = nearestName(name, COLUMNS);
    const meant = COLUMNS.find((column) => bare(column) === bare(name)) ?? COLUMNS.find((column) => column === near);
    if (meant !== undefined && !columns.has(meant)) {
      throw new InputError(`${place}: header`, quoted(name), `${meant} is expected, in the unit its name says`);
    }
  }
  if (!columns.has("anchor") || !(columns.has("heldTo_N") || columns.has("gaveWayBy_N"))) {
    throw new InputError(
      `${place}: header`,
      quoted(names.join(",")),
      "the columns anchor and heldTo_N or gaveWayBy_N are expected",
    );
  }
  return columns;
}

const bare = (name: string): string => name.toLowerCase().replace(/[_ ]?(k?n|lbf?|kgf?|deg|rad|m)$/, "");

function readRow(cells: readonly string[], columns: ReadonlyMap<Column, number>): Pull {
  const cell = (column: Column): string => {
    const c = columns.get(column);
    return c === undefined ? "" : cells[c]!.trim();
  };
  const number = (column: Column, low: number, high: number, expected: string): number | undefined => {
    const text = cell(column);
    if (text === "") return undefined;
    const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
    if (!(value >= low && value <= high)) wrong(column, quoted(text), expected);
    return value;
  };
  const load = (column: Column) => number(column, 0, 1e9, "a load from 0 to 1e9 newtons is expected");
  const anchor = name(cell("anchor"), "anchor");
  if (anchor === undefined) wrong("anchor", "", "the anchor's name is expected");
  const hold = holdOf(load("heldTo_N"), load("gaveWayBy_N"));
  const mass = number("mass_kg", 1e-3, 1e6, "a mass from 1e-3 to 1e6 kg is expected");
  const angle = number("anchorAngle_deg", -90, 90, "an angle from -90 to 90 degrees is expected");
  const held = number("anchorAngleHeld_deg", -90, 90, "an angle from -90 to 90 degrees is expected");
  const rise = number("anchorAngleRise_deg", 0, 1000, "a rise from 0 to 1000 degrees is expected");
  const u = number("uncertainty_N", 0, 1e9, "an uncertainty from 0 to 1e9 newtons is expected");
  const heldFor = number("heldFor_s", 0.1, 86_400, "a time from 0.1 s to a day is expected");
  const heldWithin = number("heldWithin_m", 1e-3, 1000, "a length from 0.001 to 1000 m is expected");
  if (angle === undefined && (held ?? rise) !== undefined) {
    wrong(
      held === undefined ? "anchorAngleRise_deg" : "anchorAngleHeld_deg",
      "",
      "anchorAngle_deg beside it is expected",
    );
  }
  const texts = (["seabed", "site", "day", "ending", "tester"] as const).flatMap((column) => {
    const text = name(cell(column), column);
    return text === undefined ? [] : [[column, text] as const];
  });
  return {
    anchor: anchor!,
    hold,
    ...(mass === undefined ? {} : { mass }),
    ...(angle === undefined ? {} : { anchorAngle: (angle * Math.PI) / 180 }),
    ...(held === undefined || hold.kind !== "between" ? {} : { angleHeld: (held * Math.PI) / 180 }),
    ...(rise === undefined ? {} : { angleRise: (rise * Math.PI) / 180 }),
    ...(u === undefined ? {} : { loadError: loadError(u, hold) }),
    ...Object.fromEntries(texts),
    ...(heldFor === undefined || heldWithin === undefined ? {} : { holdRule: { heldFor, heldWithin } }),
  };
}

/** What two columns say together. @throws InputError */
function holdOf(heldTo: number | undefined, gaveWayBy: number | undefined): Hold {
  if (gaveWayBy === undefined) {
    if (heldTo === undefined) wrong("heldTo_N", "", "a load in heldTo_N or gaveWayBy_N is expected");
    if (heldTo === 0) wrong("heldTo_N", "0 alone", "a load above zero, or one by which it gave way, is expected");
    return { kind: "heldTo", newtons: heldTo! };
  }
  if (gaveWayBy === 0) {
    wrong("gaveWayBy_N", "0", "a load above zero is expected: the one at which it was dragged along");
  }
  if (heldTo === undefined || heldTo === 0) return { kind: "neverHeld", newtons: gaveWayBy };
  if (heldTo > gaveWayBy) {
    wrong("heldTo_N", quoted(String(heldTo)), `at most gaveWayBy_N, ${gaveWayBy}, is expected`);
  }
  return heldTo === gaveWayBy ? { kind: "gaveWay", newtons: heldTo } : { kind: "between", heldTo, gaveWayBy };
}

/** A name as people write them: signs that move a terminal's cursor or turn its text about are no name. */
function name(text: string, column: Column): string | undefined {
  if (text === "") return undefined;
  if (text.length > 80) wrong(column, quoted(text), "at most 80 signs are expected");
  if (/[\p{Cc}\p{Cf}\u2028\u2029]/u.test(text)) {
    wrong(column, "a sign that cannot be seen", "a name of signs one can see is expected");
  }
  return text;
}

function wrong(place: string, given: string, expected: string): never {
  throw new InputError(place === "" ? "row" : place, given, expected);
}
