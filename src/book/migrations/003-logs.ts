import type { SqlDriver } from "../driver.ts";

/**
 * Version 3: logs and the marks on them. The readings of a log lie in compressed chunks of one time column and one
 * column a channel; beside each column the smallest and largest of every 64 readings and of the whole chunk, so that a
 * picture of any stretch reads little. Live readings wait in `log_live`, one row each, until they fill a chunk.
 */
export function logs(driver: SqlDriver): void {
  driver.exec(`
CREATE TABLE log (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  pull TEXT REFERENCES pull (id) ON DELETE SET NULL,
  day TEXT REFERENCES day (id) ON DELETE SET NULL,
  name TEXT, source TEXT, fingerprint TEXT, channels TEXT, mapping TEXT, clockOffset_s REAL, remarks TEXT
) STRICT;
CREATE INDEX log_by_pull ON log (pull);
CREATE INDEX log_by_fingerprint ON log (fingerprint);
CREATE TABLE mark (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  log TEXT REFERENCES log (id) ON DELETE SET NULL,
  kind TEXT, from_s REAL, to_s REAL, origin TEXT,
  corrects TEXT REFERENCES mark (id) ON DELETE SET NULL,
  detail TEXT, remarks TEXT
) STRICT;
CREATE INDEX mark_by_log ON mark (log, from_s);

CREATE TABLE log_content (
  log TEXT PRIMARY KEY,
  rows INTEGER NOT NULL,
  position INTEGER NOT NULL,
  state TEXT,
  finished INTEGER NOT NULL
) STRICT;
CREATE TABLE log_chunk (
  log TEXT NOT NULL, n INTEGER NOT NULL,
  rows INTEGER NOT NULL, tMin REAL NOT NULL, tMax REAL NOT NULL,
  crc INTEGER NOT NULL,
  bins BLOB NOT NULL,
  times BLOB NOT NULL,
  PRIMARY KEY (log, n)
) STRICT;
CREATE TABLE log_column (
  log TEXT NOT NULL, n INTEGER NOT NULL, channel TEXT NOT NULL,
  vMin REAL, vMax REAL,
  crc INTEGER NOT NULL,
  bins BLOB NOT NULL,
  readings BLOB NOT NULL,
  PRIMARY KEY (log, n, channel)
) STRICT;
CREATE TABLE log_live (
  log TEXT NOT NULL, n INTEGER NOT NULL,
  t REAL NOT NULL, crc INTEGER NOT NULL, readings BLOB NOT NULL,
  PRIMARY KEY (log, n)
) STRICT, WITHOUT ROWID;
`);
}
