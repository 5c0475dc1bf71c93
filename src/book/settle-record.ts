import type { SqlDriver, SqlValue } from "./driver.ts";
import type { Field } from "./field.ts";
import { asColumn, type Kept } from "./field-check.ts";
import { fieldsOf, type Kind } from "./kinds.ts";

// The state of a record is a pure function of the changes kept about it, in whatever order they came: of each field the
// value with the largest (stamp, act). Books that hold the same changes therefore hold the same records.

/** The value each field has by the changes kept, `hidden` among them; empty when nothing is kept about the record. */
export function winners(driver: SqlDriver, record: string): Map<string, Kept> {
  const won = new Map<string, Kept>();
  const rows = driver.all<{ field: string; value: Kept }>(
    "SELECT field, value FROM change WHERE record = ? ORDER BY stamp, act",
    [record],
  );
  for (const { field, value } of rows) won.set(field, value);
  return won;
}

/** Makes sure a record's row exists, so that others may point to it. */
export function place(driver: SqlDriver, kind: Kind, record: string): void {
  driver.run(`INSERT INTO "${kind}" (id) VALUES (?) ON CONFLICT DO NOTHING`, [record]);
}

/** The columns of a record by the changes kept; a pointer to a record purged since is null. */
export function columnsOf(driver: SqlDriver, kind: Kind, record: string): Map<string, SqlValue> {
  const won = winners(driver, record);
  const columns = new Map<string, SqlValue>([["hidden", won.get("hidden") === "true" ? 1 : 0]]);
  for (const [name, field] of fieldsOf(kind)) {
    const value = asColumn(field, won.get(name) ?? null);
    columns.set(name, dangles(driver, field, value) ? null : value);
  }
  return columns;
}

/** Brings a record's row up to the changes kept about it. */
export function settleRecord(driver: SqlDriver, kind: Kind, record: string): void {
  place(driver, kind, record);
  const columns = columnsOf(driver, kind, record);
  const names = [...columns.keys()];
  driver.run(`UPDATE "${kind}" SET ${names.map((n) => `"${n}" = ?`).join(", ")} WHERE id = ?`, [
    ...columns.values(),
    record,
  ]);
}

function dangles(driver: SqlDriver, field: Field, value: SqlValue): boolean {
  return field.refers !== undefined && value !== null && !exists(driver, field.refers, value as string);
}

/** True when the book holds that record of that kind, hidden or not. */
export function exists(driver: SqlDriver, kind: string, record: string): boolean {
  return driver.get(`SELECT 1 AS found FROM "${kind}" WHERE id = ?`, [record]) !== undefined;
}
