import type { SqlDriver } from "../driver.ts";

/** Version 7: what was concluded from comparing anchors, with the seed, the program and the versions of the pulls it rests on. */
export function conclusions(driver: SqlDriver): void {
  driver.exec(`
CREATE TABLE conclusion (
  id TEXT PRIMARY KEY, hidden INTEGER NOT NULL DEFAULT 0,
  at TEXT, program TEXT, seed INTEGER, pulls TEXT, question TEXT, answer TEXT, remarks TEXT
) STRICT;
`);
}
