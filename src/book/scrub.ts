import type { Context } from "./context.ts";

/**
 * Writes the file anew from what it still holds, and empties the journal: pages that were let go keep what they held
 * until then. What the disk itself keeps of the bytes that were there is out of a program's hands.
 * @returns false when bytes may be left for now: another program is reading, or there is no room for the copy
 */
export function scrub({ driver }: Context): boolean {
  try {
    driver.exec("VACUUM");
    return driver.get<{ busy: number }>("PRAGMA wal_checkpoint(TRUNCATE)")?.busy === 0;
  } catch (error) {
    if (driver.codeOf(error) === undefined) throw error;
    return false;
  }
}
