/** A table pasted from a spreadsheet or a notebook: rows of quantities, with or without a head. */
import { type Dimension, InputError, parseQuantity } from "../../quantity/index.ts";

export interface Column {
  readonly name: string;
  readonly dimension: Dimension;
  /** The unit of bare numbers where the head names none. */
  readonly unit: string;
}

export interface Pasted {
  readonly rows: readonly (readonly (number | null)[])[];
  /** Words standing beside a row, such as "liftoff". */
  readonly words: readonly string[];
  /** One line for each row that could not be read. */
  readonly wrong: readonly string[];
}

const MOST_ROWS = 2000;

/**
 * Reads pasted text, tab- or semicolon- or comma-separated. A first row without numbers is a head; a unit in brackets
 * there ("Load (lbf)") goes for its column.
 */
export function readPasted(text: string, columns: readonly Column[]): Pasted {
  const lines = text
    .replace(/\r\n?/g, "\n")
    .split("\n")
    .filter((line) => line.trim() !== "");
  const rows: (number | null)[][] = [];
  const words: string[] = [];
  const wrong: string[] = [];
  const units = columns.map((column) => column.unit);
  lines.slice(0, MOST_ROWS).forEach((line, n) => {
    const cells = cellsOf(line);
    if (n === 0 && cells.every((cell) => !/\d/.test(cell))) {
      cells.forEach((cell, i) => {
        const unit = /[([]\s*([^)\]]+?)\s*[)\]]/.exec(cell)?.[1];
        if (unit !== undefined && i < units.length) units[i] = unit;
      });
      return;
    }
    try {
      rows.push(columns.map((column, i) => quantityOf(cells[i] ?? "", units[i]!, column)));
      words.push(
        cells
          .slice(columns.length)
          .concat(cells.filter((cell, i) => i < columns.length && /^[a-z -]+$/i.test(cell)))
          .join(" "),
      );
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      wrong.push(`row ${n + 1}: ${error.message}`);
    }
  });
  if (lines.length > MOST_ROWS)
    wrong.push(`row ${MOST_ROWS + 1}: at most ${MOST_ROWS} rows are taken; a log belongs in the book`);
  return { rows, words, wrong };
}

function cellsOf(line: string): string[] {
  const separator = line.includes("\t")
    ? "\t"
    : line.includes(";")
      ? ";"
      : /,\s|,\D|\d,\d+[.\s,]/.test(line) || /^[^,]*,[^,]*$/.test(line)
        ? ","
        : /\s{2,}/;
  return line.split(separator).map((cell) => cell.trim());
}

function quantityOf(cell: string, unit: string, column: Column): number | null {
  if (cell === "" || /^[-–—]$/.test(cell) || /^[a-z -]+$/i.test(cell)) return null;
  const bare = /^[+-]?[\d.,]+$/.test(cell);
  return parseQuantity(bare ? `${cell} ${unit}` : cell, column.dimension, column.name);
}
