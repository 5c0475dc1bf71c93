import { existsSync, readFileSync, rmSync, statSync } from "node:fs";
import { openBetterSqlite } from "./better-sqlite-driver.ts";
import { asTrouble, BookTrouble } from "./trouble.ts";

/** A book's file held so that no other program can open it. */
export interface Alone {
  /**
   * Ends what lies beside the file: the journal goes into it, and none is left for what comes in its place. Copy both
   * before.
   */
  fold(): void;
  release(): void;
}

const inUse = (path: string): BookTrouble =>
  new BookTrouble("busy", path, "another program has it open", "close that program, then restore");

/**
 * Takes a book's file for this program alone, and changes nothing of it yet. SQLite's lock on the file itself says
 * whether anyone has it open, also one who only waits. A file too damaged for SQLite cannot be locked; it is taken as it
 * is when the system knows of no lock on it.
 * @throws BookTrouble when another program, or this one, has it open
 */
export function takeAlone(path: string): Alone {
  let driver: ReturnType<typeof openBetterSqlite> | undefined;
  try {
    driver = openBetterSqlite(path, { readOnly: false, patience_ms: 500 });
    // In this mode the first access takes the file's own lock whole, which any other connection's keeps it from.
    driver.exec("PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; COMMIT");
  } catch (error) {
    const trouble = asTrouble(error, path, driver?.codeOf(error));
    driver?.close();
    if (!(trouble instanceof BookTrouble)) throw trouble;
    if (trouble.kind === "busy" || isLocked(path)) throw inUse(path);
    if (trouble.kind !== "damaged") throw trouble;
    return { fold: () => removeJournals(path), release: () => undefined };
  }
  const held = driver;
  return {
    fold: () => {
      try {
        // With no journal of its own left, this connection removes none by its name when it is closed.
        held.exec("PRAGMA journal_mode = DELETE; PRAGMA journal_mode = MEMORY");
      } catch {
        // Too damaged to be folded; the copy has both.
        held.close();
      }
      removeJournals(path);
    },
    release: held.close,
  };
}

function removeJournals(path: string): void {
  for (const end of ["-wal", "-shm", "-journal"]) rmSync(path + end, { force: true });
}

/** Whether the system lists a lock on the file; false where it keeps no such list. */
function isLocked(path: string): boolean {
  let locks: string;
  try {
    locks = readFileSync("/proc/locks", "latin1");
  } catch {
    return false;
  }
  return [path, `${path}-shm`].some((file) => {
    if (!existsSync(file)) return false;
    const { dev, ino } = statSync(file);
    const hex = (n: number): string => n.toString(16).padStart(2, "0");
    // As the kernel splits a device's number (linux/kdev_t.h): 12 bits of major, 20 of minor.
    const major = (dev >>> 8) & 0xfff;
    const minor = (dev & 0xff) | ((dev >>> 12) & 0xfff00);
    return locks.includes(` ${hex(major)}:${hex(minor)}:${ino} `);
  });
}
