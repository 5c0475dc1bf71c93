import { statSync } from "node:fs";
import { type HybridTimestamp, idMaker, nextTimestamp, type Ports } from "../record/index.ts";
import type { SqlDriver } from "./driver.ts";
import { asTrouble, BookTrouble } from "./trouble.ts";

/** An open book as the verbs of this room see it. */
export interface Context {
  readonly path: string;
  readonly driver: SqlDriver;
  readonly ports: Ports;
  /** This copy of the book: whose clock and hand a change came from. */
  readonly device: string;
  /** Who is writing. */
  readonly who: string;
  readonly readOnly: boolean;
  /** The file that was opened; absent for one that has no name yet. */
  readonly file?: FileIdentity | undefined;
  /** Whether the book backs itself up when that is due. */
  readonly backups?: boolean;
  newId(): string;
}

export function contextOf(parts: Omit<Context, "newId">): Context {
  return { ...parts, newId: idMaker(parts.ports) };
}

/** Which file a name stands for. */
export interface FileIdentity {
  readonly device: bigint;
  readonly inode: bigint;
}

export function fileIdentity(path: string): FileIdentity | undefined {
  const stat = statSync(path, { bigint: true, throwIfNoEntry: false });
  return stat && { device: stat.dev, inode: stat.ino };
}

export const isSameFile = (a: FileIdentity | undefined, b: FileIdentity | undefined): boolean =>
  a?.device === b?.device && a?.inode === b?.inode;

/** All of the work or none of it, every failure of the file told as trouble. */
export function writing<T>(context: Context, work: () => T): T {
  if (context.readOnly)
    throw new BookTrouble(
      "readOnly",
      context.path,
      "it can be read but not written",
      "a writable file in a writable folder is expected",
    );
  return plainly(context, () =>
    context.driver.transaction(() => {
      // Under the lock: what is written into a file that was set aside or taken away is lost to everybody else.
      if (context.file && !isSameFile(context.file, fileIdentity(context.path)))
        throw new BookTrouble(
          "missing",
          context.path,
          "another file stands in its place since it was opened, or none",
          "open it again; nothing of this step was kept",
        );
      return work();
    }),
  );
}

/** Reads at one moment, every failure of the file told as trouble. */
export function asked<T>(context: Context, work: () => T): T {
  return plainly(context, () => context.driver.reading(work));
}

/** Does the work, every failure of the file told as trouble. */
export function plainly<T>(context: Context, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw asTrouble(error, context.path, context.driver.codeOf(error));
  }
}

/** The last stamp in the book. */
export function lastTimestamp(driver: SqlDriver): HybridTimestamp | undefined {
  return (
    driver.get<{ stamp: HybridTimestamp | null }>(
      "SELECT max(stamp) AS stamp FROM (SELECT max(stamp) AS stamp FROM act UNION ALL SELECT max(stamp) FROM purged)",
    )?.stamp ?? undefined
  );
}

/** The stamp for something written now; ask within the transaction that writes it. */
export function timestampNow(context: Context): HybridTimestamp {
  return nextTimestamp(lastTimestamp(context.driver), context.ports.clock());
}
