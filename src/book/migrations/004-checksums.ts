import { crc32 } from "node:zlib";
import type { SqlDriver } from "../driver.ts";

// All this step needs stands here, as it was when version 4 came: what the program does today may change, this may not.

type Row = Record<string, string | number | null>;

const ACT = ["seq", "id", "stamp", "device", "who", "at", "manner", "label", "reverts"];
const CHANGE = ["stamp", "kind", "record", "field", "was", "value"];
const CHECKED = {
  meta: ["key", "value"],
  purged: ["record", "kind", "stamp", "device", "who", "at"],
  log_content: ["log", "rows", "position", "state", "finished"],
};

/**
 * Version 4: every act carries a checksum of itself and its changes, and so do the other rows that nothing else vouches
 * for, so that a flipped bit shows. What earlier versions wrote gets its checksum here, as it stands: the CRC-32 of its
 * columns as a JSON list; that of an act goes on over its changes in turn.
 */
export function checksums(driver: SqlDriver): void {
  const textOf = (row: Row, columns: readonly string[]): string => JSON.stringify(columns.map((c) => row[c]));
  driver.exec("ALTER TABLE act ADD COLUMN crc INTEGER NOT NULL DEFAULT 0");
  for (const act of driver.all<Row>(`SELECT ${ACT.join(", ")} FROM act`)) {
    const changes = driver.all<Row>(`SELECT ${CHANGE.join(", ")} FROM change WHERE act = ? ORDER BY record, field`, [
      act.id!,
    ]);
    const crc = changes.reduce((sum, change) => crc32(textOf(change, CHANGE), sum), crc32(textOf(act, ACT)));
    driver.run("UPDATE act SET crc = ? WHERE id = ?", [crc, act.id!]);
  }
  for (const [table, columns] of Object.entries(CHECKED)) {
    driver.exec(`ALTER TABLE ${table} ADD COLUMN crc INTEGER NOT NULL DEFAULT 0`);
    for (const row of driver.all<Row>(`SELECT ${columns.join(", ")} FROM ${table}`))
      driver.run(`UPDATE ${table} SET crc = ? WHERE ${columns[0]} = ?`, [
        crc32(textOf(row, columns)),
        row[columns[0]!]!,
      ]);
  }
}
