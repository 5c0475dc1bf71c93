import { crc32 } from "node:zlib";
import type { SqlDriver } from "./driver.ts";
import type { Tables } from "./tables.ts";

/**
 * CRC-32 of a transaction and all its changes as they stand in the file, independent of the order they lie in.
 * @source ISO 3309 CRC-32, as zlib computes it
 */
export function transactionChecksum(driver: SqlDriver, transaction: string): number {
  const row = driver.get<Omit<Tables["act"], "crc">>(
    "SELECT seq, id, stamp, device, who, at, manner, label, reverts FROM act WHERE id = ?",
    [transaction],
  );
  if (!row) return 0;
  let crc = crc32(
    JSON.stringify([row.seq, row.id, row.stamp, row.device, row.who, row.at, row.manner, row.label, row.reverts]),
  );
  const changes = driver.all<Omit<Tables["change"], "act">>(
    "SELECT stamp, kind, record, field, was, value FROM change WHERE act = ? ORDER BY record, field",
    [transaction],
  );
  for (const c of changes) crc = crc32(JSON.stringify([c.stamp, c.kind, c.record, c.field, c.was, c.value]), crc);
  return crc;
}

/** CRC-32 of plain values in turn. */
export function crcOfValues(...values: readonly (string | number | null)[]): number {
  return crc32(JSON.stringify(values));
}

/** Tables whose rows carry a checksum of their other columns, and those columns. */
export const checkedTables = {
  meta: ["key", "value"],
  purged: ["record", "kind", "stamp", "device", "who", "at"],
  log_content: ["log", "rows", "position", "state", "finished"],
} as const;

/** Brings the checksum of one row up to its columns; the row is found by its first column. */
export function sealRow(driver: SqlDriver, table: keyof typeof checkedTables, key: string): void {
  const columns = checkedTables[table];
  const row = driver.get<Record<string, string | number | null>>(
    `SELECT ${columns.join(", ")} FROM ${table} WHERE ${columns[0]} = ?`,
    [key],
  );
  if (row)
    driver.run(`UPDATE ${table} SET crc = ? WHERE ${columns[0]} = ?`, [
      crcOfValues(...columns.map((c) => row[c] ?? null)),
      key,
    ]);
}

/** The first row that does not match its checksum, in words. */
export function faultOfRows(driver: SqlDriver): string | undefined {
  for (const [table, columns] of Object.entries(checkedTables))
    for (const row of driver.all<Record<string, string | number | null>>(`SELECT * FROM ${table}`))
      if (crcOfValues(...columns.map((c) => row[c] ?? null)) !== row.crc)
        return `${table} ${row[columns[0]!]} does not match its checksum`;
  return undefined;
}
