/** A table pasted from a spreadsheet or a notebook: which of its columns is what, and its rows in SI. */
import { type Dimension, fromUnit, InputError, parseQuantity, significant } from "../../quantity/index.ts";
import { cellsOfPasted, type DecimalSign, type PastedCells, withDecimalPoint } from "./pasted-cells.ts";

export interface Column {
  readonly name: string;
  readonly dimension: Dimension;
  /** The unit of bare numbers where the title names none. */
  readonly unit: string;
  /** What its title may be called in a table from elsewhere. */
  readonly titles: RegExp;
  /** What it may be, SI; `expected` words it. */
  readonly range?: {
    readonly above?: number;
    readonly least?: number;
    readonly most: number;
    readonly expected: string;
  };
}

/** What a pasted column is taken for: a column of the table by its index, words beside the row, or nothing. */
export type Use = number | "words" | "none";

/** How pasted cells are to be read. */
export interface Reading {
  /** For each pasted column. */
  readonly uses: readonly Use[];
  /** For each pasted column, the unit of its bare numbers. */
  readonly units: readonly string[];
  readonly decimal: DecimalSign;
}

export interface Pasted {
  readonly rows: readonly (readonly (number | null)[])[];
  /** For each row, whether its words say that the rode had come level. */
  readonly liftoff: readonly boolean[];
  /** One line for each row that could not be read. */
  readonly wrong: readonly string[];
  /** Words that say nothing a table keeps, each with its line. */
  readonly unusedWords: readonly string[];
}

const WORDS = /^\p{L}[\p{L} .-]*$/u;
const LIFT_OFF = /^(?!.*\b(?:not?|before|without)\b).*\blift/i;
const WORDS_TITLE = /seen|note|remark|lift/i;
const isBlank = (cell: string): boolean => cell === "" || /^[-–—]$/.test(cell);

/** The cells, a first guess how they are to be read, and what of it should be asked; nothing to ask: it is plain. */
export function guessReading(
  text: string,
  columns: readonly Column[],
  takesWords: boolean,
): { readonly cells: PastedCells; readonly reading: Reading; readonly open: readonly string[] } {
  const cells = cellsOfPasted(text);
  const open: string[] = [];
  const used = Array.from({ length: cells.width }, (_, i) => cells.rows.some((row) => !isBlank(row.cells[i] ?? "")));
  const numeric = used.map((_, i) => cells.rows.some((row) => /\d/.test(row.cells[i] ?? "")));
  const uses: Use[] = used.map(() => "none");
  const units = used.map((_, i) => unitInTitle(cells.titles?.[i] ?? "") ?? "");

  if (cells.titles === null) {
    used.forEach((_, i) => {
      if (i < columns.length) uses[i] = i;
      else if (takesWords && used[i] && !numeric[i]) uses[i] = "words";
    });
  } else {
    columns.forEach((column, n) => {
      const called = used.flatMap((_, i) => (numeric[i] && column.titles.test(cells.titles![i] ?? "") ? [i] : []));
      const measured = used.flatMap((_, i) =>
        numeric[i] && uses[i] === "none" && measures(units[i]!, column.dimension) ? [i] : [],
      );
      const found = called.length > 0 ? called : measured;
      if (found.length > 0) uses[found[0]!] = n;
      if (found.length > 1)
        open.push(`${found.length} titles may be the ${column.name}: ${found.map((i) => title(cells, i)).join(", ")}`);
    });
    for (const [n, column] of columns.entries()) {
      if (uses.includes(n)) continue;
      const left = used.findIndex((_, i) => numeric[i] && uses[i] === "none" && units[i] === "");
      if (left >= 0) uses[left] = n;
      open.push(
        left >= 0
          ? `no title says ${column.name}; ${title(cells, left)} is taken for it`
          : `no title says ${column.name}`,
      );
    }
    used.forEach((_, i) => {
      if (takesWords && uses[i] === "none" && used[i] && !numeric[i] && WORDS_TITLE.test(cells.titles![i] ?? ""))
        uses[i] = "words";
    });
  }
  const dropped = used.flatMap((is, i) => (is && uses[i] === "none" ? [title(cells, i)] : []));
  if (dropped.length > 0) open.push(`not used: ${dropped.join(", ")}`);
  if (cells.doubtfulNumber !== null)
    open.push(
      `${cells.doubtfulNumber} may be a decimal or thousands: it is read as ${asRead(cells.doubtfulNumber, cells.decimal)}`,
    );
  const byUse = units.map((unit, i) => (unit === "" && typeof uses[i] === "number" ? columns[uses[i]]!.unit : unit));
  return { cells, reading: { uses, units: byUse, decimal: cells.decimal }, open };
}

/** The rows of pasted cells in SI; null for a cell left empty or holding words. */
export function readPasted(cells: PastedCells, reading: Reading, columns: readonly Column[]): Pasted {
  const rows: (number | null)[][] = [];
  const liftoff: boolean[] = [];
  const wrong: string[] = [];
  const unusedWords: string[] = [];
  for (const { at, cells: row } of cells.rows) {
    try {
      rows.push(
        columns.map((column, n) => {
          const i = reading.uses.indexOf(n);
          return quantityOf(withDecimalPoint(row[i] ?? "", reading.decimal), reading.units[i] ?? "", column);
        }),
      );
      const words = row.filter((cell, i) => reading.uses[i] !== "none" && WORDS.test(cell));
      const lifted = words.some((cell) => LIFT_OFF.test(cell));
      liftoff.push(lifted);
      const takesLift = reading.uses.includes("words") || lifted;
      unusedWords.push(
        ...words.filter((cell) => !(takesLift && LIFT_OFF.test(cell))).map((cell) => `row ${at}: "${cell}"`),
      );
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      wrong.push(`row ${at}: ${error.message}`);
    }
  }
  if (cells.cutAt !== null)
    wrong.push(`row ${cells.cutAt} and after: at most ${cells.rows.length} rows are taken; a log belongs in the book`);
  return { rows, liftoff, wrong, unusedWords };
}

const title = (cells: PastedCells, i: number): string => {
  const named = cells.titles?.[i] ?? "";
  return named === "" ? `column ${i + 1}` : `"${named}"`;
};

function asRead(cell: string, decimal: DecimalSign): string {
  const digits = withDecimalPoint(cell, decimal)
    .replace(/[^\d.,-]/g, "")
    .replaceAll(",", "");
  return significant(Number(digits), 6);
}

function unitInTitle(text: string): string | undefined {
  return (/[([]\s*([^)\]]+?)\s*[)\]]/.exec(text) ?? /\s\/\s*(\S+)$/.exec(text))?.[1];
}

function measures(unit: string, dimension: Dimension): boolean {
  try {
    return unit !== "" && Number.isFinite(fromUnit(1, unit, dimension, "title"));
  } catch (error) {
    if (error instanceof InputError) return false;
    throw error;
  }
}

function quantityOf(cell: string, unit: string, column: Column): number | null {
  if (isBlank(cell) || WORDS.test(cell)) return null;
  // A fraction without a unit is of the column's unit too.
  const bare = /^[\s\d.,/+-]+$/.test(cell);
  const value = parseQuantity(bare ? `${cell} ${unit}` : cell, column.dimension, column.name);
  const { above = -Infinity, least = -Infinity, most, expected } = column.range ?? { most: Infinity, expected: "" };
  if (!(value > above && value >= least && value <= most)) throw new InputError(column.name, `"${cell}"`, expected);
  return value;
}
