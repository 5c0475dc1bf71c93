import { InputError } from "../quantity/index.ts";

/** What can be wrong with the file of a book, rather than with what is written into it. */
export type TroubleKind =
  | "missing"
  | "exists"
  | "notABook"
  | "newer"
  | "damaged"
  | "busy"
  | "readOnly"
  | "full"
  | "unreadable"
  | "noLibrary";

/** Trouble with a book's file, told in one line: the file, what is wrong, what to do. */
export class BookTrouble extends InputError {
  readonly kind: TroubleKind;
  constructor(kind: TroubleKind, path: string, wrong: string, remedy: string) {
    super(path, wrong, remedy);
    this.name = "BookTrouble";
    this.kind = kind;
  }
}

const FULL = "nothing of the last step was kept, all before it was; free some space and repeat the step";

/** A library's or the system's error as trouble with the book at `path`; any other error is returned as it is. */
export function asTrouble(error: unknown, path: string, code: string | undefined): unknown {
  if (error instanceof InputError) return error;
  const why = code ?? (error as NodeJS.ErrnoException | undefined)?.code;
  const detail = error instanceof Error ? error.message : "";
  if (why === undefined) return error;
  if (why.startsWith("SQLITE_BUSY") || why.startsWith("SQLITE_LOCKED"))
    return new BookTrouble("busy", path, "another program is writing to it", "close that program or try again");
  if (why.startsWith("SQLITE_CORRUPT") || why === "SQLITE_NOTADB") return damaged(path, detail);
  if (why.startsWith("SQLITE_FULL") || why === "ENOSPC" || why === "EDQUOT")
    return new BookTrouble("full", path, "the disk is full", FULL);
  if (why.startsWith("SQLITE_READONLY") || why === "EROFS" || why === "EACCES" || why === "EPERM")
    return new BookTrouble(
      "readOnly",
      path,
      "it can be read but not written",
      "a writable file in a writable folder is expected",
    );
  if (why.startsWith("SQLITE_IOERR") || why === "EIO")
    return new BookTrouble(
      "unreadable",
      path,
      `the disk gave an error (${why})`,
      "check the disk, then the book: rodebench book check",
    );
  if (why === "ENAMETOOLONG")
    return new BookTrouble("unreadable", path, "its name is too long for the disk", "a shorter name is expected");
  if (why.startsWith("SQLITE_CANTOPEN") || why === "ENOENT" || why === "EISDIR" || why === "ENOTDIR")
    return new BookTrouble("unreadable", path, "cannot be opened", "a book in a folder that exists is expected");
  return error;
}

/** A damaged book. The remedy is completed by whoever knows its backups. */
export function damaged(path: string, why: string, backup?: { name: string }): BookTrouble {
  return new BookTrouble(
    "damaged",
    path,
    `damaged${why === "" ? "" : ` (${why})`}`,
    backup
      ? `nothing was overwritten; its newest good backup is ${backup.name}: rodebench book restore ${path}`
      : "nothing was overwritten; it has no good backup beside it",
  );
}

/** SQLite's built library missing or made for another Node.js, as trouble; undefined for any other error. */
export function libraryTrouble(error: unknown): BookTrouble | undefined {
  const { code, message = "" } = (error ?? {}) as { code?: unknown; message?: string };
  const missing = code === "MODULE_NOT_FOUND" || message.startsWith("Could not locate the bindings file");
  if (!missing && code !== "ERR_DLOPEN_FAILED") return undefined;
  return new BookTrouble(
    "noLibrary",
    "SQLite's built library",
    `${missing ? "missing" : "not loadable"} for Node.js ${process.version} on ${process.platform} ${process.arch}`,
    "run `npm rebuild better-sqlite3` where rodebench is installed; it fetches the library, or compiles it where a C++ compiler and Python are",
  );
}
