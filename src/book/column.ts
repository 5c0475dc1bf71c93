// Between a value as history keeps it and a column of the table.
import type { Field, Kept } from "../record/index.ts";
import type { SqlValue } from "./driver.ts";

/** A kept value as the record's table holds it. */
export function asColumn(field: Field, kept: Kept): SqlValue {
  if (kept === null) return null;
  if (field.column === "JSON") return kept;
  const value: unknown = JSON.parse(kept);
  return typeof value === "boolean" ? Number(value) : (value as string | number);
}

/** What a table holds as the record's plain value. */
export function fromColumn(field: Field, value: SqlValue): unknown {
  if (value === null) return null;
  if (field.column === "JSON") return JSON.parse(value as string);
  return field.column === "FLAG" ? value === 1 : value;
}
