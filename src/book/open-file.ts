import { accessSync, closeSync, constants, existsSync, openSync, readFileSync, readSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { openBetterSqlite } from "./better-sqlite-driver.ts";
import { type FileIdentity, fileIdentity, isSameFile } from "./context.ts";
import type { OpenDriver, SqlDriver } from "./driver.ts";
import { APPLICATION_ID, VERSION, versionOf } from "./migrate.ts";
import { asTrouble, BookTrouble, damaged } from "./trouble.ts";

export interface FileOptions {
  readonly readOnly?: boolean;
  /** How long to wait for another program on the same book, ms. Default 5000. */
  readonly patience_ms?: number;
  readonly driver?: OpenDriver;
}

/** A connection to a book's file, and whether it can be written. */
export interface OpenFile {
  readonly driver: SqlDriver;
  readonly readOnly: boolean;
  readonly file: FileIdentity | undefined;
}

/** Files this process has open as books, and how often. */
const openHere = new Map<string, number>();
const keyOf = ({ device, inode }: FileIdentity): string => `${device} ${inode}`;

const MAGIC = "SQLite format 3\0";

/**
 * Looks at a file's first bytes before anything is done to it.
 * @throws BookTrouble when it is missing, no book, from a newer program, or too damaged to tell
 */
export function lookAtHeader(path: string): void {
  const known = fileIdentity(path);
  // To close a file lets go of every lock this process has on it, also those of a connection that has it open
  // (sqlite.org/howtocorrupt, 2.2). It was looked at when it was opened.
  if (known && openHere.has(keyOf(known))) return;
  let bytes: Buffer;
  try {
    if (statSync(path).isDirectory()) throw new BookTrouble("notABook", path, "a folder", "a book is expected");
    const file = openSync(path, "r");
    try {
      bytes = Buffer.alloc(100);
      bytes = bytes.subarray(0, readSync(file, bytes, 0, 100, 0));
    } finally {
      closeSync(file);
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT")
      throw new BookTrouble("missing", path, "no such file", "a book is expected; make one with rodebench book new");
    throw asTrouble(error, path, undefined);
  }
  if (bytes.length < 100 || bytes.toString("latin1", 0, 16) !== MAGIC) throw notABook(path);
  if (bytes.readUInt32BE(68) !== APPLICATION_ID) throw notABook(path);
  refuseNewer(path, bytes.readInt32BE(60));
}

function refuseNewer(path: string, version: number): void {
  if (version > VERSION)
    throw new BookTrouble(
      "newer",
      path,
      `a book of version ${version}`,
      `version ${VERSION} or earlier is expected; this program is older than the book`,
    );
}

function notABook(path: string): BookTrouble {
  return new BookTrouble("notABook", path, "not a book", "a file that rodebench book new made is expected");
}

/** Opens the file, read-only where it can only be read. */
export function openFile(path: string, options: FileOptions = {}): OpenFile {
  for (let attempts = 0; ; attempts++) {
    const file = fileIdentity(path);
    const { driver, readOnly } = connect(path, options);
    // Another book may have come in its place between the two: this connection is to the one set aside.
    if (file && attempts < 3 && !isSameFile(file, fileIdentity(path))) {
      driver.close();
      continue;
    }
    // The journal beside it may know more than the header did.
    try {
      refuseNewer(path, versionOf(driver));
    } catch (error) {
      driver.close();
      throw error;
    }
    return { driver: file ? counted(driver, keyOf(file)) : driver, readOnly, file };
  }
}

/** A connection that is listed among those open here until it is closed. */
function counted(driver: SqlDriver, key: string): SqlDriver {
  openHere.set(key, (openHere.get(key) ?? 0) + 1);
  let open = true;
  return {
    ...driver,
    close: () => {
      driver.close();
      if (!open) return;
      open = false;
      const left = openHere.get(key)! - 1;
      if (left > 0) openHere.set(key, left);
      else openHere.delete(key);
    },
  };
}

function connect(path: string, options: FileOptions): Omit<OpenFile, "file"> {
  const open = options.driver ?? openBetterSqlite;
  const patience_ms = options.patience_ms ?? 5000;
  const reading = (): Omit<OpenFile, "file"> => ({ driver: openReadOnly(open, path, patience_ms), readOnly: true });
  if (options.readOnly) return reading();
  if (!canWrite(path)) return reading();
  let driver: SqlDriver | undefined;
  try {
    driver = open(path, { readOnly: false, patience_ms });
    driver.exec("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
    driver.get("SELECT count(*) AS n FROM meta");
    return { driver, readOnly: false };
  } catch (error) {
    const trouble = asTrouble(error, path, codeOf(driver, error));
    driver?.close();
    throw trouble;
  }
}

/** The book and the journal beside it: both the file and its folder must take writes. */
function canWrite(path: string): boolean {
  try {
    accessSync(path, constants.W_OK);
    accessSync(dirname(path), constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

function openReadOnly(open: OpenDriver, path: string, patience_ms: number): SqlDriver {
  let driver: SqlDriver | undefined;
  try {
    driver = open(path, { readOnly: true, patience_ms });
    driver.get("SELECT count(*) AS n FROM meta");
    return driver;
  } catch (error) {
    const trouble = asTrouble(error, path, codeOf(driver, error));
    driver?.close();
    if (!(trouble instanceof BookTrouble) || (trouble.kind !== "unreadable" && trouble.kind !== "readOnly"))
      throw trouble;
    return openCopyInMemory(open, path, patience_ms, trouble);
  }
}

/**
 * A book on a disk that cannot be written at all: SQLite's write-ahead journal needs a file beside the book even to
 * read. With no journal left over the file is whole, and a copy of it in memory, told to keep no such journal, is read.
 */
function openCopyInMemory(open: OpenDriver, path: string, patience_ms: number, trouble: BookTrouble): SqlDriver {
  if (existsSync(`${path}-wal`) && statSync(`${path}-wal`).size > 0) throw trouble;
  const bytes = new Uint8Array(readFileSync(path));
  // Bytes 18 and 19 of the header, the journal's kind: 2 is write-ahead, 1 is not (sqlite.org/fileformat2.html, 1.3.3).
  bytes[18] = 1;
  bytes[19] = 1;
  try {
    const driver = open(bytes, { readOnly: true, patience_ms });
    driver.get("SELECT count(*) AS n FROM meta");
    return driver;
  } catch (error) {
    throw error instanceof BookTrouble ? error : damaged(path, error instanceof Error ? error.message : "");
  }
}

/** The code of an error, also when the driver could not even be made. */
function codeOf(driver: SqlDriver | undefined, error: unknown): string | undefined {
  const own = driver?.codeOf(error);
  const code = own ?? (error as { code?: unknown }).code;
  return typeof code === "string" ? code : undefined;
}
