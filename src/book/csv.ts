import Papa from "papaparse";
import { cellText, InputError, quoted, readJson, textOfCell } from "../quantity/index.ts";
import type { Field } from "../record/index.ts";
import { fieldsOf, type Kind } from "../record/index.ts";

/** A table of records as RFC 4180 text. An empty cell is "nothing known": no field holds empty text. */
export function writeCsv(kind: Kind, records: readonly object[]): string {
  const fields = fieldsOf(kind);
  const header = ["id", "hidden", ...fields.map(([name]) => name)];
  const rows = records.map((record) => header.map((name) => cell((record as Record<string, unknown>)[name])));
  return `${Papa.unparse([header, ...rows], { newline: "\r\n", quotes: false })}\r\n`;
}

function cell(value: unknown): string {
  if (value === null || value === undefined) return "";
  if (typeof value === "string") return cellText(value);
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}

/**
 * Reads such a table back.
 * @throws InputError naming the row and the column
 */
export function readCsv(kind: Kind, text: string, place: string): Record<string, unknown>[] {
  const parsed = Papa.parse<string[]>(text, { delimiter: ",", skipEmptyLines: true });
  const [header, ...rows] = parsed.data;
  const broken = parsed.errors[0];
  if (broken) throw new InputError(place, broken.message, "rows of quoted or plain cells are expected");
  if (!header) throw new InputError(place, "an empty file", "a row of column names is expected");
  const fields = new Map(fieldsOf(kind));
  for (const name of header)
    if (name !== "id" && name !== "hidden" && !fields.has(name))
      throw new InputError(
        `${place}: column ${quoted(name)}`,
        "no such field",
        `one of ${[...fields.keys()].join(", ")} is expected`,
      );
  return rows.map((row, i) => {
    const where = `${place}: row ${i + 2}`;
    if (row.length !== header.length)
      throw new InputError(where, `${row.length} cells`, `${header.length}, as many as column names, are expected`);
    const record: Record<string, unknown> = {};
    header.forEach((name, c) => {
      const given = row[c]!;
      if (name === "id") record.id = given;
      else if (name === "hidden") record.hidden = given === "true";
      else record[name] = valueFrom(fields.get(name)!, given, `${where}, column ${name}`);
    });
    return record;
  });
}

function valueFrom(field: Field, text: string, place: string): unknown {
  if (text === "") return null;
  if (field.column === "TEXT") return textOfCell(text);
  if (field.column === "FLAG" && (text === "true" || text === "false")) return text === "true";
  if (field.column === "REAL" || field.column === "INTEGER") {
    const number = Number(text);
    if (text.trim() !== "" && Number.isFinite(number)) return number;
  }
  if (field.column === "JSON") return readJson(text, place, field.expects);
  throw new InputError(place, quoted(text), field.expects);
}
