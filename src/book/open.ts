import { randomBytes } from "node:crypto";
import { accessSync, constants, existsSync, linkSync, renameSync, rmSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { ABOUT, idMaker, isId, millisecondsOf, type Ports } from "../record/index.ts";
import { listBackups, newestGoodBackup, sync, tryBackup } from "./backup.ts";
import { openBetterSqlite } from "./better-sqlite-driver.ts";
import { Book } from "./book.ts";
import { checkStructure, checkWhole } from "./check.ts";
import { type Context, contextOf, lastTimestamp } from "./context.ts";
import { migrate, VERSION, versionOf, writeMeta } from "./migrate.ts";
import { type FileOptions, lookAtHeader, openFile } from "./open-file.ts";
import { writeRecords } from "./records.ts";
import { asTrouble, BookTrouble, damaged } from "./trouble.ts";

/** Who opens a book, with which clock and chance, and whether it backs itself up. */
export interface OpenOptions extends FileOptions {
  /** Who writes; kept with every change. */
  readonly who?: string;
  /** The device that writes, when it is not this copy of the book: a phone, say. */
  readonly device?: string;
  readonly ports?: Ports;
  /** Whether to back up by itself when it is due. Default true. */
  readonly backups?: boolean;
}

/** Books up to this size are checked whole each time they are opened, bytes; larger ones by `book check` and before each backup. */
const CHECKED_WHOLE = 32 * 2 ** 20;
/** A clock behind the book's last change by more than this is remarked on, ms. */
const CLOCK_SLACK = 120_000;

/** The clock and chance of this computer. */
export const systemPorts: Ports = {
  clock: () => Date.now(),
  random: (count) => new Uint8Array(randomBytes(count)),
};

/**
 * Makes a new, empty book. The file gets its name only when it is whole.
 * @param about what the book is; null for one that will say so itself, once another book or an export is taken in
 * @throws BookTrouble when there is a file already: nothing is overwritten
 */
export function newBook(
  path: string,
  about: { title: string; description?: string; simulated?: boolean } | null,
  options: OpenOptions = {},
): Book {
  if (existsSync(path))
    throw new BookTrouble("exists", path, "there is a file already", "a name not yet taken is expected");
  try {
    accessSync(dirname(path), constants.W_OK);
  } catch (error) {
    throw asTrouble(error, path, undefined);
  }
  const ports = options.ports ?? systemPorts;
  const id = idMaker(ports);
  const part = join(dirname(path), `.${id()}.part`);
  try {
    const driver = (options.driver ?? openBetterSqlite)(part, { readOnly: false, patience_ms: 5000 });
    try {
      driver.exec("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
      migrate(driver);
      const device = options.device ?? id();
      writeMeta(driver, "device", device);
      const context = contextOf({ path, driver, ports, device, who: options.who ?? "", readOnly: false });
      if (about) writeRecords(context, [{ kind: "about", id: ABOUT, set: about }], "new book");
    } finally {
      driver.close();
    }
    sync(part);
    // A link, unlike a rename, never replaces a file that came there meanwhile.
    giveName(part, path);
    sync(dirname(path));
  } catch (error) {
    rmSync(part, { force: true });
    throw asTrouble(error, path, undefined);
  }
  return openBook(path, { ...options, backups: false });
}

function giveName(part: string, path: string): void {
  try {
    linkSync(part, path);
    rmSync(part);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST")
      throw new BookTrouble("exists", path, "there is a file already", "a name not yet taken is expected");
    renameSync(part, path);
  }
}

/**
 * Opens a book: looks at it before touching it, checks it, takes an older one forward (after a backup), and backs it up
 * when that is due. A file that can only be read is opened for reading.
 * @throws BookTrouble in one line, the newest good backup named when the book is damaged; nothing is overwritten
 */
export function openBook(path: string, options: OpenOptions = {}): Book {
  const ports = options.ports ?? systemPorts;
  try {
    return opened(path, options, ports);
  } catch (error) {
    const trouble = asTrouble(error, path, undefined);
    const mayBeBook =
      trouble instanceof BookTrouble &&
      (trouble.kind === "damaged" || (trouble.kind === "notABook" && listBackups(path).length > 0));
    if (!mayBeBook) throw trouble;
    throw damaged(path, /^damaged \((.*)\)$/.exec(trouble.given)?.[1] ?? "", newestGoodBackup(path, { ports }));
  }
}

function opened(path: string, options: OpenOptions, ports: Ports): Book {
  lookAtHeader(path);
  const notices: string[] = [];
  const { driver, readOnly, file } = openFile(path, options);
  try {
    const version = versionOf(driver);
    const found = checkStructure(driver);
    if (found !== undefined) throw damaged(path, found);
    if (version < VERSION && readOnly)
      throw new BookTrouble(
        "readOnly",
        path,
        `a book of version ${version} that cannot be written`,
        `a writable file, to take it forward to version ${VERSION}, is expected`,
      );
    if (version < VERSION) {
      copyBefore(path, driver, ports);
      migrate(driver);
      notices.push(
        `${path}: taken forward from version ${version} to ${VERSION}; a copy of it as it was lies beside it`,
      );
    }
    const own = driver.get<{ value: string }>("SELECT value FROM meta WHERE key = 'device'")?.value;
    // It becomes part of the names of files that are kept, and let go, for this book.
    if (!isId(own)) throw damaged(path, "its own id is none");
    const device = options.device ?? own;
    const backups = !readOnly && options.backups !== false;
    const context = contextOf({ path, driver, ports, device, who: options.who ?? "", readOnly, file, backups });
    if (statSync(path).size <= CHECKED_WHOLE) {
      const soundness = checkWhole(context);
      if (soundness.kind === "damaged") throw damaged(path, soundness.why);
    }
    remarkOnClock(context, notices);
    if (readOnly && options.readOnly !== true)
      notices.push(`${path}: it can be read but not written; nothing new is kept`);
    if (backups) backUp(context, notices);
    return new Book(context, notices);
  } catch (error) {
    const trouble = asTrouble(error, path, driver.codeOf(error));
    driver.close();
    throw trouble;
  }
}

/** The book as an earlier program left it, for that program to open. */
function copyBefore(path: string, driver: Context["driver"], ports: Ports): void {
  const time = new Date(ports.clock()).toISOString().replace(/[-:]/g, "");
  const copy = `${path}.before-${time}`;
  if (existsSync(copy)) return;
  driver.run("VACUUM INTO ?", [`${copy}.part`]);
  sync(`${copy}.part`);
  renameSync(`${copy}.part`, copy);
  // The book may only go forward once the disk keeps the copy's name.
  sync(dirname(copy));
}

function remarkOnClock(context: Context, notices: string[]): void {
  const last = lastTimestamp(context.driver);
  if (last === undefined) return;
  const behind = millisecondsOf(last) - context.ports.clock();
  if (behind > CLOCK_SLACK)
    notices.push(
      `${context.path}: this clock is behind the last change in the book, of ${new Date(millisecondsOf(last)).toISOString()}; set it right, the order of changes is kept meanwhile`,
    );
}

/** A backup that fails is told and keeps no one from the book, unless the book itself is the trouble. */
function backUp(context: Context, notices: string[]): void {
  const failure = tryBackup(context);
  if (failure instanceof BookTrouble && failure.kind === "damaged") throw failure;
  if (failure) notices.push(`no backup was made: ${failure.message}`);
}
