import { InputError, quoted } from "../quantity/index.ts";
import type { Field, Kept } from "../record/index.ts";
import { fieldsOf, isKind, type Kind, latestValues } from "../record/index.ts";
import { asColumn } from "./column.ts";
import type { SqlDriver, SqlValue } from "./driver.ts";

/** The value each field has by the changes kept, `hidden` among them; empty when nothing is kept about the record. */
export function latestOf(driver: SqlDriver, record: string): Map<string, Kept> {
  return latestValues(
    driver.all<{ field: string; value: Kept; stamp: string; transaction: string }>(
      'SELECT field, value, stamp, act AS "transaction" FROM change WHERE record = ?',
      [record],
    ),
  );
}

/** Makes sure a record's row exists, so that others may point to it. */
export function ensureRow(driver: SqlDriver, kind: Kind, record: string): void {
  // It is read from history and names a table.
  if (!isKind(kind)) throw new InputError(`record ${record}`, `kind ${quoted(kind)}`, "a kind of record is expected");
  driver.run(`INSERT INTO "${kind}" (id) VALUES (?) ON CONFLICT DO NOTHING`, [record]);
}

/** The columns of a record by the changes kept; a pointer to a record purged since is null. */
export function columnsOf(driver: SqlDriver, kind: Kind, record: string): Map<string, SqlValue> {
  const won = latestOf(driver, record);
  const columns = new Map<string, SqlValue>([["hidden", won.get("hidden") === "true" ? 1 : 0]]);
  for (const [name, field] of fieldsOf(kind)) {
    const value = asColumn(field, won.get(name) ?? null);
    columns.set(name, dangles(driver, field, value) ? null : value);
  }
  return columns;
}

/** Brings a record's row up to the changes kept about it. */
export function projectRecord(driver: SqlDriver, kind: Kind, record: string): void {
  ensureRow(driver, kind, record);
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
