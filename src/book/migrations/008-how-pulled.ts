import type { SqlDriver } from "../driver.ts";

/** Version 8: a pull knows its hold rule, its cell, which way the boat pulled and where the anchor lay; a series its hold rule. */
export function howPulled(driver: SqlDriver): void {
  driver.exec(`
ALTER TABLE pull ADD COLUMN heldFor_s REAL;
ALTER TABLE pull ADD COLUMN heldWithin_m REAL;
ALTER TABLE pull ADD COLUMN calibration REAL;
ALTER TABLE pull ADD COLUMN tare_N REAL;
ALTER TABLE pull ADD COLUMN slackLoad_N REAL;
ALTER TABLE pull ADD COLUMN pulls TEXT;
ALTER TABLE pull ADD COLUMN bearing_deg REAL;
ALTER TABLE pull ADD COLUMN anchorLatitude_deg REAL;
ALTER TABLE pull ADD COLUMN anchorLongitude_deg REAL;
ALTER TABLE pull ADD COLUMN trackClock_s REAL;
ALTER TABLE series ADD COLUMN heldFor_s REAL;
ALTER TABLE series ADD COLUMN heldWithin_m REAL;
`);
}
