/** A table of a package as CSV (RFC 4180) and as Parquet, and read back. */
import Papa from "papaparse";
import { cellText, InputError, plainText, quoted, textOfCell } from "../../quantity/index.ts";
import type { Column } from "./columns.ts";

/** Values by the names of columns; null where nothing is known. */
export type TableRow = Readonly<Record<string, string | number | boolean | null>>;

/** One row a line, an empty cell where nothing is known. A text a spreadsheet would reckon stands behind the mark of text. */
export function tableCsv(columns: readonly Column[], rows: readonly TableRow[]): string {
  const cells = rows.map((row) => columns.map(({ name }) => cell(row[name] ?? null)));
  return `${Papa.unparse([columns.map(({ name }) => name), ...cells], { newline: "\r\n" })}\r\n`;
}

function cell(value: string | number | boolean | null): string {
  if (value === null) return "";
  if (typeof value !== "string") return String(value);
  return cellText(plainText(value));
}

const PARQUET = { string: "STRING", number: "DOUBLE", integer: "INT32", boolean: "BOOLEAN" } as const;

/** The same as Parquet, each column of its type. What writes and reads it comes when it is asked for. */
export async function tableParquet(columns: readonly Column[], rows: readonly TableRow[]): Promise<Uint8Array> {
  const { parquetWriteBuffer } = await import("hyparquet-writer");
  const columnData = columns.map(({ name, type }) => ({
    name,
    type: PARQUET[type],
    nullable: true,
    data: rows.map((row) => {
      const value = row[name] ?? null;
      return typeof value === "string" ? plainText(value) : value;
    }),
  }));
  return new Uint8Array(parquetWriteBuffer({ columnData }));
}

/** @throws InputError naming the row and the column of what its type cannot be */
export function readTableCsv(columns: readonly Column[], csv: string, place: string): TableRow[] {
  const parsed = Papa.parse<string[]>(csv, { delimiter: ",", skipEmptyLines: true });
  const [header = [], ...rows] = parsed.data;
  const names = columns.map(({ name }) => name);
  if (header.join(",") !== names.join(","))
    throw new InputError(`${place}: header`, quoted(header.join(",")), `the columns ${names.join(",")} are expected`);
  return rows.map((cells, i) => {
    const where = `${place}: row ${i + 2}`;
    if (cells.length !== columns.length)
      throw new InputError(where, `${cells.length} cells`, `${columns.length}, as many as column names, are expected`);
    return Object.fromEntries(columns.map((column, c) => [column.name, valueFrom(column, cells[c]!, where)]));
  });
}

function valueFrom({ name, type, required, oneOf, within }: Column, given: string, where: string): TableRow[string] {
  const wrong = (expected: string): never => {
    throw new InputError(`${where}, column ${name}`, quoted(given), expected);
  };
  if (given === "") return required ? wrong("a value is expected") : null;
  if (type === "string") {
    if (oneOf !== undefined && !oneOf.includes(given)) wrong(`one of ${oneOf.join(", ")} is expected`);
    return textOfCell(given);
  }
  if (type === "boolean")
    return given === "true" || given === "false" ? given === "true" : wrong("true or false is expected");
  const value = Number(given);
  if (given.trim() === "" || !Number.isFinite(value)) wrong("a number is expected");
  if (within !== undefined && !(value >= within.least && value <= within.most))
    wrong(`a number from ${within.least} to ${within.most} is expected`);
  return type === "integer" && !Number.isInteger(value) ? wrong("a whole number is expected") : value;
}

/** Rows of a Parquet file, by name. @throws whatever the reader throws of bytes that are none */
export async function readTableParquet(bytes: Uint8Array): Promise<TableRow[]> {
  const { parquetReadObjects } = await import("hyparquet");
  const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
  return (await parquetReadObjects({ file })) as TableRow[];
}
