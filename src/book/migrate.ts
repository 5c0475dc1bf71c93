import { sealRow } from "./checksum.ts";
import type { SqlDriver } from "./driver.ts";
import { core } from "./migrations/001-core.ts";
import { pictures } from "./migrations/002-pictures.ts";
import { logs } from "./migrations/003-logs.ts";
import { checksums } from "./migrations/004-checksums.ts";
import { overview } from "./migrations/005-overview.ts";
import { paidOut } from "./migrations/006-paid-out.ts";
import { conclusions } from "./migrations/007-conclusions.ts";
import { howPulled } from "./migrations/008-how-pulled.ts";

/** Steps from one version of the tables to the next, in order; a step that has shipped is never edited again. */
export const migrations: readonly ((driver: SqlDriver) => void)[] = [
  core,
  pictures,
  logs,
  checksums,
  overview,
  paidOut,
  conclusions,
  howPulled,
];

/** The version this program writes. */
export const VERSION = migrations.length;

/** Rows carry checksums from this version on. */
const CHECKSUMS = 4;

/** "Rode" in ASCII: marks the file as a book, in SQLite's `application_id`. */
export const APPLICATION_ID = 0x526f6465;

export function versionOf(driver: SqlDriver): number {
  return driver.get<{ user_version: number }>("PRAGMA user_version")!.user_version;
}

/**
 * Takes a book's tables forward to `target`, each step whole or not at all; returns the version it found.
 * A step is taken under the write lock, so of two programs that open an old book one migrates and the other waits.
 */
export function migrate(driver: SqlDriver, target = VERSION): number {
  const found = versionOf(driver);
  while (versionOf(driver) < target) {
    driver.transaction(() => {
      const version = versionOf(driver);
      if (version >= target) return;
      if (version === 0) driver.exec(`PRAGMA application_id = ${APPLICATION_ID}`);
      migrations[version]!(driver);
      writeMeta(driver, "version", String(version + 1), version + 1);
      driver.exec(`PRAGMA user_version = ${version + 1}`);
    });
  }
  return found;
}

/** Keeps a fact about this file itself: not part of what books exchange. */
export function writeMeta(driver: SqlDriver, key: string, value: string, version = VERSION): void {
  driver.run("INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value", [
    key,
    value,
  ]);
  if (version >= CHECKSUMS) sealRow(driver, "meta", key);
}
