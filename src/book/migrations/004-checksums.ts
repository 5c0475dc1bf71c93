import { actChecksum, checkedTables, sealRow } from "../checksum.ts";
import type { SqlDriver } from "../driver.ts";

/**
 * Version 4: every act carries a checksum of itself and its changes, and so do the other rows that nothing else vouches
 * for, so that a flipped bit shows. What earlier versions wrote gets its checksum here, as it stands.
 */
export function checksums(driver: SqlDriver): void {
  driver.exec("ALTER TABLE act ADD COLUMN crc INTEGER NOT NULL DEFAULT 0");
  for (const { id } of driver.all<{ id: string }>("SELECT id FROM act"))
    driver.run("UPDATE act SET crc = ? WHERE id = ?", [actChecksum(driver, id), id]);
  for (const table of ["meta", "purged", "log_content"] as const) {
    const key = checkedTables[table][0];
    driver.exec(`ALTER TABLE ${table} ADD COLUMN crc INTEGER NOT NULL DEFAULT 0`);
    for (const row of driver.all<Record<string, string>>(`SELECT ${key} FROM ${table}`))
      sealRow(driver, table, row[key]!);
  }
}
