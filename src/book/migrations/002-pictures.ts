import type { SqlDriver } from "../driver.ts";

/** Version 2: pictures and clips, by reference or copied in. A copied file is kept once, under the hash of its bytes. */
export function pictures(driver: SqlDriver): void {
  driver.exec(`
CREATE TABLE picture (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  about TEXT, type TEXT, reference TEXT, copy TEXT, caption TEXT, takenAt TEXT
) STRICT;
CREATE INDEX picture_by_about ON picture (about);
CREATE TABLE file (
  sha256 TEXT PRIMARY KEY,
  size INTEGER NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
`);
}
