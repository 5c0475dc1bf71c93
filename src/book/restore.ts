import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { InputError } from "../quantity/index.ts";
import { idMaker, type Ports } from "../record/index.ts";
import { type Alone, takeAlone } from "./alone.ts";
import { type Backup, isGood, listBackups, newestGoodBackup, sync } from "./backup.ts";
import { systemPorts } from "./open.ts";
import { asTrouble, BookTrouble } from "./trouble.ts";

/** Which backup was put in a book's place, and where that book lies now. */
export interface Restored {
  readonly path: string;
  readonly from: Backup;
  /** Where the book that was there lies now; null when there was none. */
  readonly aside: string | null;
}

/**
 * Puts a backup in a book's place: the newest that checks whole, or the one named. The book that was there is kept
 * beside it, whatever its state. After a kill at any moment the book's name stands for the one or the other, whole.
 * @throws BookTrouble when there is no good backup, or any program has the book open
 */
export function restoreBook(
  path: string,
  options: { readonly backup?: string; readonly ports?: Ports } = {},
): Restored {
  const ports = options.ports ?? systemPorts;
  const from =
    options.backup === undefined ? newestGoodBackup(path, { ports }) : namedBackup(path, options.backup, ports);
  if (!from)
    throw new BookTrouble(
      "missing",
      path,
      "no good backup beside it",
      "a backup that rodebench book backup made is expected",
    );
  const time = new Date(ports.clock()).toISOString().replace(/[-:]/g, "");
  const newId = idMaker(ports);
  // Half made, a file has a name that is as short as can be, and nobody's.
  const part = join(dirname(path), `.${newId()}.part`);
  let alone: Alone | undefined;
  let kept: ReturnType<typeof keepAside> | undefined;
  try {
    if (existsSync(path)) alone = takeAlone(path);
    copyFileSync(from.path, part);
    sync(part);
    if (alone) {
      kept = keepAside(path, time, newId);
      alone.fold();
      // A disk may keep the next name and forget that the journals went: they would be taken for the backup's own.
      sync(dirname(path));
    }
    renameSync(part, path);
    sync(dirname(path));
    return { path, from, aside: kept?.aside ?? null };
  } catch (error) {
    rmSync(part, { force: true });
    throw asTrouble(error, path, undefined);
  } finally {
    alone?.release();
    kept?.done();
  }
}

function namedBackup(book: string, name: string, ports: Ports): Backup {
  const backup = listBackups(book).find((b) => b.name === name || b.path === name);
  if (!backup)
    throw new InputError(
      "--backup",
      name,
      `one of the backups of ${book} is expected; rodebench book check lists them`,
    );
  if (!isGood(backup.path, ports))
    throw new BookTrouble("damaged", backup.path, "damaged", "another backup is expected");
  return backup;
}

/**
 * Keeps a copy of the book that was there under another name, whole on disk before it gets it. A copy, so that at no
 * moment two names stand for one file, and the book's own name never for nothing. The copy's file stays open until the
 * book has been replaced: to close it would let go of the lock that this program holds on it (sqlite.org/howtocorrupt,
 * 2.2).
 */
function keepAside(path: string, time: string, newId: () => string): { aside: string; done(): void } {
  let aside = `${path}.aside-${time}`;
  for (let i = 2; existsSync(aside); i++) aside = `${path}.aside-${time}-${i}`;
  const holdsSome = (end: string): boolean => existsSync(path + end) && statSync(path + end).size > 0;
  // Journals first: the aside without them would be less than the book.
  const ends = [...["-wal", "-journal"].filter(holdsSome), ""];
  const part = join(dirname(path), `.${newId()}`);
  const opened: number[] = [];
  const done = (): void => opened.forEach(closeSync);
  try {
    for (const end of ends) opened.push(copyTo(path + end, `${part}${end}.part`));
    for (const end of ends) renameSync(`${part}${end}.part`, aside + end);
    sync(dirname(path));
    return { aside, done };
  } catch (error) {
    for (const end of ends) rmSync(`${part}${end}.part`, { force: true });
    done();
    throw error;
  }
}

/** Copies a file, on disk when this returns; the handle it was read by is still open. */
function copyTo(from: string, to: string): number {
  const source = openSync(from, "r");
  const target = openSync(to, "w");
  try {
    const piece = new Uint8Array(1 << 20);
    for (let count = readSync(source, piece); count > 0; count = readSync(source, piece))
      for (let at = 0; at < count; ) at += writeSync(target, piece, at, count - at);
    fsyncSync(target);
    return source;
  } catch (error) {
    rmSync(to, { force: true });
    throw error;
  } finally {
    closeSync(target);
  }
}
