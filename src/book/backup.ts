import { closeSync, existsSync, fsyncSync, openSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { InputError } from "../quantity/index.ts";
import { isId } from "../record/index.ts";
import { checkWhole, countsOf } from "./check.ts";
import { type Context, contextOf } from "./context.ts";
import { makeFolders } from "./make-folders.ts";
import { VERSION, versionOf } from "./migrate.ts";
import { lookAtHeader, openFile } from "./open-file.ts";
import { asTrouble, BookTrouble, damaged } from "./trouble.ts";

/** Backups kept beside a book; the oldest beyond these are let go. */
const KEPT = 10;
/** A backup is due after so many transactions, or so many rows of logs, or so long with any change at all. */
const DUE = { transactions: 200, rows: 2_000_000, hours: 12 } as const;

/** A copy of a book beside it, made at one moment. */
export interface Backup {
  readonly name: string;
  readonly path: string;
  /** When it was made, by the clock of then. */
  readonly at: string;
  readonly transactions: number;
  readonly rows: number;
  readonly size: number;
}

export const backupFolder = (book: string): string => `${book}.backups`;

const NAME = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)\.(\d{3})Z-(\d+)-(\d+)(?:-\d+)?\.book$/;

/** The backups beside a book, newest first. */
export function listBackups(book: string): Backup[] {
  const folder = backupFolder(book);
  if (!existsSync(folder)) return [];
  const backups: Backup[] = [];
  for (const name of readdirSync(folder)) {
    const m = NAME.exec(name);
    if (!m) continue;
    const [, y, mo, d, h, mi, s, ms, transactions, rows] = m;
    const path = join(folder, name);
    backups.push({
      name,
      path,
      at: `${y}-${mo}-${d}T${h}:${mi}:${s}.${ms}Z`,
      transactions: Number(transactions),
      rows: Number(rows),
      size: statSync(path).size,
    });
  }
  // Of one millisecond, or of a clock set back, the one that holds more is the later.
  return backups.sort((a, b) =>
    a.at === b.at ? b.transactions - a.transactions || b.rows - a.rows : a.at < b.at ? 1 : -1,
  );
}

/**
 * Copies the book as it stands into its folder of backups (or to `target`), checks the copy whole, and only then gives
 * it its name. Another program may write meanwhile; the copy is of one moment.
 * @throws BookTrouble when the copy is not sound: nothing is kept of it, and no older backup is let go
 */
export function makeBackup(context: Context, target?: string): Backup {
  const folder = target === undefined ? backupFolder(context.path) : dirname(target);
  const counts = countsOf(context.driver);
  const at = new Date(context.ports.clock()).toISOString();
  let name = target === undefined ? nameOf(at, counts.transactions, counts.logRows) : basename(target);
  const part = join(folder, `${context.newId()}.part`);
  try {
    makeFolder(folder);
    if (target === undefined) clearParts(folder);
    context.driver.run("VACUUM INTO ?", [part]);
    checkCopy(context, part, counts);
    if (target === undefined)
      for (let i = 2; existsSync(join(folder, name)); i++) name = name.replace(/(?:-\d+)?\.book$/, `-${i}.book`);
    else if (existsSync(target))
      throw new BookTrouble("exists", target, "there is a file already", "a name not yet taken is expected");
    sync(part);
    renameSync(part, join(folder, name));
    sync(folder);
  } catch (error) {
    rmSync(part, { force: true });
    rmSync(`${part}-journal`, { force: true });
    throw asTrouble(error, context.path, context.driver.codeOf(error));
  }
  if (target === undefined) for (const old of listBackups(context.path).slice(KEPT)) rmSync(old.path);
  const path = join(folder, name);
  return { name, path, at, transactions: counts.transactions, rows: counts.logRows, size: statSync(path).size };
}

/** Makes a folder and those above it that are missing, and has the disk keep their names: a backup lasts no longer than they do. */
function makeFolder(folder: string): void {
  const first = makeFolders(folder);
  if (first === undefined) return;
  for (let made = folder; ; made = dirname(made)) {
    sync(dirname(made));
    if (made === first || made === dirname(made)) return;
  }
}

/** Makes a backup when enough has been written since the last one; the counts of the last stand in its name. */
function backupIfDue(context: Context): Backup | undefined {
  const last = listBackups(context.path)[0];
  const { transactions, logRows } = countsOf(context.driver);
  if (last === undefined) return transactions > 0 ? makeBackup(context) : undefined;
  if (last.transactions === transactions && last.rows === logRows) return undefined;
  const hours = Math.abs(context.ports.clock() - Date.parse(last.at)) / 3_600_000;
  const due =
    Math.abs(transactions - last.transactions) >= DUE.transactions ||
    Math.abs(logRows - last.rows) >= DUE.rows ||
    hours >= DUE.hours;
  return due ? makeBackup(context) : undefined;
}

/** Backs up when that is due; the trouble that kept it from being made, if any. */
export function tryBackup(context: Context): InputError | undefined {
  try {
    backupIfDue(context);
    return undefined;
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
}

/** The newest backup that checks whole. */
export function newestGoodBackup(book: string, context: Pick<Context, "ports">): Backup | undefined {
  return listBackups(book).find((backup) => isGood(backup.path, context.ports));
}

/** True when the file is a sound book of this version or one that migrates to it. Works on a copy in memory of none: opens it for reading. */
export function isGood(path: string, ports: Context["ports"]): boolean {
  try {
    lookAtHeader(path);
    const { driver } = openFile(path, { readOnly: true });
    try {
      // An older backup has fewer tables: its structure is checked now and the rest once it has been migrated.
      if (versionOf(driver) < VERSION)
        return driver.all<{ integrity_check: string }>("PRAGMA integrity_check(1)")[0]?.integrity_check === "ok";
      return checkWhole(contextOf({ path, driver, ports, device: "", who: "", readOnly: true })).kind === "sound";
    } finally {
      driver.close();
    }
  } catch {
    return false;
  }
}

function checkCopy(context: Context, part: string, before: ReturnType<typeof countsOf>): void {
  const { driver } = openFile(part, { readOnly: true });
  try {
    const copy = contextOf({ ...context, path: part, driver, readOnly: true });
    const soundness = checkWhole(copy);
    if (soundness.kind === "damaged") throw damaged(context.path, soundness.why);
    // With no one else writing, the copy holds exactly what the book does.
    const unchanged = JSON.stringify(countsOf(context.driver)) === JSON.stringify(before);
    if (unchanged && JSON.stringify(soundness.counts) !== JSON.stringify(before))
      throw damaged(context.path, "a copy of it holds other counts");
  } finally {
    driver.close();
  }
}

function nameOf(at: string, transactions: number, rows: number): string {
  return `${at.replace(/[-:]/g, "")}-${transactions}-${rows}.book`;
}

/** Copies that a kill left half made. One younger than an hour may be another program's, still being made. */
function clearParts(folder: string): void {
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    if (
      isId(name.replace(/\.part(-journal)?$/, "")) &&
      /\.part(-journal)?$/.test(name) &&
      statSync(path).mtimeMs < Date.now() - 3_600_000
    )
      rmSync(path, { force: true });
  }
}

/** Has the disk keep a file, or a folder's list of names. */
export function sync(path: string): void {
  const handle = openSync(path, "r");
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
