/** A full disk is nobody's wrong input: what was to be written may be right, and the same command may do later. */
import type { BookTrouble } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";

const FULL = new Set(["ENOSPC", "EDQUOT", "SQLITE_FULL"]);

/** The line that tells of a full disk; undefined for every other error. */
export function diskFull(error: unknown): string | undefined {
  // Known by its name: the class would bring the whole store into commands that open no book.
  if (error instanceof InputError)
    return error.name === "BookTrouble" && (error as BookTrouble).kind === "full" ? error.message : undefined;
  const { code, path } = error as NodeJS.ErrnoException;
  if (code === undefined || !FULL.has(code)) return undefined;
  return `${path ?? "disk"}: the disk is full; free some space and repeat the command`;
}
