/** A table pasted from a spreadsheet or a notebook: rows of quantities, with or without a head. */
import { type Dimension, InputError, parseQuantity } from "../../quantity/index.ts";

export interface Column {
  readonly name: string;
  readonly dimension: Dimension;
  /** The unit of bare numbers where the head names none. */
  readonly unit: string;
  /** What it may be, SI; `expected` words it. */
  readonly range?: {
    readonly above?: number;
    readonly least?: number;
    readonly most: number;
    readonly expected: string;
  };
}

export interface Pasted {
  readonly rows: readonly (readonly (number | null)[])[];
  /** Words standing beside a row, such as "liftoff". */
  readonly words: readonly string[];
  /** One line for each row that could not be read. */
  readonly wrong: readonly string[];
}

const MOST_ROWS = 2000;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)$/;
const WORDS = /^[a-z][a-z -]*$/i;

/**
 * Reads pasted text, tab- or semicolon- or comma-separated, or by spaces. A first row without a quantity is a head; a unit
 * in it ("Load (lbf)", "Load [lbf]", "Load / lbf") goes for its column.
 * @returns rows in SI, null for a cell left empty; rows are told by their line in what was pasted, counted from 1
 */
export function readPasted(text: string, columns: readonly Column[]): Pasted {
  const lines = text
    .replace(/\r\n?/g, "\n")
    .split("\n")
    .map((line, i) => ({ line, at: i + 1 }))
    .filter(({ line }) => line.trim() !== "");
  const rows: (number | null)[][] = [];
  const words: string[] = [];
  const wrong: string[] = [];
  const units = columns.map((column) => column.unit);
  lines.slice(0, MOST_ROWS).forEach(({ line, at }, n) => {
    const { cells, commas } = cellsOf(line);
    if (n === 0 && cells.every((cell) => !/^[+-]?\.?\d/.test(cell))) {
      cells.forEach((cell, i) => {
        const unit = unitInHead(cell);
        if (unit !== undefined && i < units.length) units[i] = unit;
      });
      return;
    }
    try {
      if (commas && cells.filter((cell) => NUMBER.test(cell)).length > columns.length)
        throw new InputError(columns.map(({ name }) => name).join(", "), `"${line.trim()}"`, TOO_MANY);
      rows.push(columns.map((column, i) => quantityOf(cells[i] ?? "", units[i]!, column)));
      words.push(cells.filter((cell) => WORDS.test(cell)).join(" "));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      wrong.push(`row ${at}: ${error.message}`);
    }
  });
  if (lines.length > MOST_ROWS)
    wrong.push(
      `row ${lines[MOST_ROWS]!.at} and after: left out; at most ${MOST_ROWS} rows are taken, a log belongs in the book`,
    );
  return { rows, words, wrong };
}

const TOO_MANY =
  "more numbers than columns; a comma parts cells here: write decimals with a point, or part the cells by tabs or semicolons";

function unitInHead(cell: string): string | undefined {
  return (/[([]\s*([^)\]]+?)\s*[)\]]/.exec(cell) ?? /\s\/\s*(\S+)$/.exec(cell))?.[1];
}

function cellsOf(line: string): { readonly cells: readonly string[]; readonly commas: boolean } {
  const parted = (by: string | RegExp) =>
    line
      .trim()
      .split(by)
      .map((cell) => cell.trim());
  // Tabs and semicolons may stand before an empty first cell.
  for (const by of ["\t", ";"])
    if (line.includes(by)) return { cells: line.split(by).map((cell) => cell.trim()), commas: false };
  if (line.includes(",")) return { cells: parted(","), commas: true };
  const single = parted(/\s+/);
  // "9 1/2 in" is one quantity, "400 7.5" are two.
  if (single.every((cell) => NUMBER.test(cell))) return { cells: single, commas: false };
  return { cells: parted(/\s{2,}/), commas: false };
}

function quantityOf(cell: string, unit: string, column: Column): number | null {
  if (cell === "" || /^[-–—]$/.test(cell) || WORDS.test(cell)) return null;
  // A fraction without a unit is of the column's unit too.
  const bare = /^[\s\d.,/+-]+$/.test(cell);
  const value = parseQuantity(bare ? `${cell} ${unit}` : cell, column.dimension, column.name);
  const { above = -Infinity, least = -Infinity, most, expected } = column.range ?? { most: Infinity, expected: "" };
  if (!(value > above && value >= least && value <= most)) throw new InputError(column.name, `"${cell}"`, expected);
  return value;
}
