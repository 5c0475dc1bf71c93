/** What a figure shows as a table of comma-separated values (RFC 4180). */
import { cellText, plainText } from "../quantity/index.ts";

/** What a figure shows as rows, for the file beside it. */
export interface FigureTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** Numbers to nine digits: more than any figure shows, and few enough to read. */
const DIGITS = 9;

/** A value that is not a number is an empty cell: nothing stands there in the figure either. */
export function figureCsv({ columns, rows }: FigureTable): string {
  return [columns, ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

function cell(value: string | number): string {
  if (typeof value === "number") return Number.isFinite(value) ? String(Number(value.toPrecision(DIGITS))) : "";
  const text = cellText(plainText(value));
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
