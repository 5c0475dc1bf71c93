import { copyFileSync, existsSync, linkSync, renameSync, rmSync } from "node:fs";
import { dirname } from "node:path";
import { InputError } from "../quantity/index.ts";
import { type Backup, isGood, listBackups, newestGoodBackup, sync } from "./backup.ts";
import type { Ports } from "./ids.ts";
import { systemPorts } from "./open.ts";
import { asTrouble, BookTrouble } from "./trouble.ts";

export interface Restored {
  readonly path: string;
  readonly from: Backup;
  /** Where the book that was there lies now; null when there was none. */
  readonly aside: string | null;
}

/**
 * Puts a backup in a book's place: the newest that checks whole, or the one named. The book that was there is kept
 * beside it, whatever its state. Close other programs on the book first.
 * @throws BookTrouble when there is no good backup
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
  const part = `${path}.restoring-${time}.part`;
  try {
    copyFileSync(from.path, part);
    sync(part);
    const aside = setAside(path, time);
    renameSync(part, path);
    sync(dirname(path));
    return { path, from, aside };
  } catch (error) {
    rmSync(part, { force: true });
    throw asTrouble(error, path, undefined);
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
 * Keeps the book that was there under another name. Its journals go first with it: left behind, they would be taken for
 * those of the book that comes in its place. The book's own name never stands for nothing where the disk knows links.
 */
function setAside(path: string, time: string): string | null {
  if (!existsSync(path)) return null;
  let aside = `${path}.aside-${time}`;
  for (let i = 2; existsSync(aside); i++) aside = `${path}.aside-${time}-${i}`;
  let linked = true;
  try {
    linkSync(path, aside);
  } catch {
    linked = false;
  }
  for (const journal of ["-wal", "-shm", "-journal"])
    if (existsSync(path + journal)) renameSync(path + journal, aside + journal);
  if (!linked) renameSync(path, aside);
  return aside;
}
