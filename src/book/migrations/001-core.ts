import type { SqlDriver } from "../driver.ts";

/**
 * Version 1: the records of a book and the history they follow from.
 * Every record's row is what the changes kept in `change` add up to; `act` groups the changes made in one go.
 */
export function core(driver: SqlDriver): void {
  driver.exec(`
CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;

CREATE TABLE act (
  seq INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  stamp TEXT NOT NULL,
  device TEXT NOT NULL,
  who TEXT NOT NULL,
  at TEXT NOT NULL,
  manner TEXT NOT NULL,
  label TEXT NOT NULL,
  reverts TEXT
) STRICT;
CREATE INDEX act_by_stamp ON act (stamp, id);
CREATE INDEX act_by_device ON act (device, seq);
CREATE INDEX act_by_reverts ON act (reverts);

CREATE TABLE change (
  act TEXT NOT NULL REFERENCES act (id),
  stamp TEXT NOT NULL,
  kind TEXT NOT NULL,
  record TEXT NOT NULL,
  field TEXT NOT NULL,
  was TEXT,
  value TEXT,
  PRIMARY KEY (act, record, field)
) STRICT;
CREATE INDEX change_by_record ON change (record, field, stamp, act);
CREATE INDEX change_by_kind ON change (kind, record, field, stamp, act);

CREATE TABLE purged (
  record TEXT PRIMARY KEY,
  kind TEXT NOT NULL,
  stamp TEXT NOT NULL,
  device TEXT NOT NULL,
  who TEXT NOT NULL,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE about (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  title TEXT, description TEXT, simulated INTEGER
) STRICT;
CREATE TABLE site (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  name TEXT, latitude_deg REAL, longitude_deg REAL, description TEXT
) STRICT;
CREATE TABLE seabed (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  site TEXT REFERENCES site (id) ON DELETE SET NULL,
  name TEXT, grain TEXT, description TEXT, sampleNotes TEXT
) STRICT;
CREATE TABLE anchor (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  name TEXT, shape TEXT, mass_kg REAL, flukeArea_m2 REAL, make TEXT, description TEXT
) STRICT;
CREATE TABLE boat (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  name TEXT, file TEXT, description TEXT
) STRICT;
CREATE TABLE rig (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  name TEXT, description TEXT
) STRICT;
CREATE TABLE rigVersion (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  rig TEXT REFERENCES rig (id) ON DELETE SET NULL,
  file TEXT, reason TEXT
) STRICT;
CREATE TABLE series (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  name TEXT, question TEXT, protocol TEXT
) STRICT;
CREATE TABLE day (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  date TEXT, site TEXT REFERENCES site (id) ON DELETE SET NULL,
  boat TEXT REFERENCES boat (id) ON DELETE SET NULL,
  testers TEXT, weather TEXT, wind_m_per_s REAL, gust_m_per_s REAL, windFrom_deg REAL, tide TEXT, waterLevel_m REAL
) STRICT;
CREATE TABLE pull (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  day TEXT REFERENCES day (id) ON DELETE SET NULL,
  series TEXT REFERENCES series (id) ON DELETE SET NULL,
  anchor TEXT REFERENCES anchor (id) ON DELETE SET NULL,
  seabed TEXT REFERENCES seabed (id) ON DELETE SET NULL,
  rigVersion TEXT REFERENCES rigVersion (id) ON DELETE SET NULL,
  number INTEGER, startedAt TEXT, depth_m REAL, scope REAL, heading_deg REAL, loadAt TEXT,
  steps TEXT, result TEXT, setDistance_m REAL, endedBy TEXT, remarks TEXT
) STRICT;
CREATE INDEX pull_by_day ON pull (day);
CREATE INDEX pull_by_series ON pull (series);
CREATE INDEX pull_by_anchor ON pull (anchor);
CREATE TABLE note (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  about TEXT, text TEXT, at TEXT
) STRICT;
CREATE INDEX note_by_about ON note (about);
`);
}
