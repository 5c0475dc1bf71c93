import { describe, expect, it } from "vitest";
import { BookTrouble } from "../../src/book/index.ts";
import { asTrouble, damaged } from "../../src/book/trouble.ts";
import { InputError } from "../../src/quantity/index.ts";

const told = (code: string | undefined, error: unknown = Object.assign(new Error("raw"), {})): BookTrouble =>
  asTrouble(error, "a.book", code) as BookTrouble;

describe("what a library or the system raises, as trouble with the book", () => {
  it.each([
    ["SQLITE_BUSY", "busy", "another program is writing to it"],
    ["SQLITE_BUSY_SNAPSHOT", "busy", "another program is writing to it"],
    ["SQLITE_LOCKED", "busy", "another program is writing to it"],
    ["SQLITE_CORRUPT", "damaged", "damaged (raw)"],
    ["SQLITE_CORRUPT_INDEX", "damaged", "damaged (raw)"],
    ["SQLITE_NOTADB", "damaged", "damaged (raw)"],
    ["SQLITE_FULL", "full", "the disk is full"],
    ["ENOSPC", "full", "the disk is full"],
    ["EDQUOT", "full", "the disk is full"],
    ["SQLITE_READONLY", "readOnly", "it can be read but not written"],
    ["SQLITE_READONLY_DIRECTORY", "readOnly", "it can be read but not written"],
    ["EROFS", "readOnly", "it can be read but not written"],
    ["EACCES", "readOnly", "it can be read but not written"],
    ["EPERM", "readOnly", "it can be read but not written"],
    ["SQLITE_IOERR_FSYNC", "unreadable", "the disk gave an error (SQLITE_IOERR_FSYNC)"],
    ["EIO", "unreadable", "the disk gave an error (EIO)"],
    ["ENAMETOOLONG", "unreadable", "its name is too long for the disk"],
    ["SQLITE_CANTOPEN", "unreadable", "cannot be opened"],
    ["ENOENT", "unreadable", "cannot be opened"],
    ["EISDIR", "unreadable", "cannot be opened"],
    ["ENOTDIR", "unreadable", "cannot be opened"],
  ])("%s is told as %s", (code, kind, given) => {
    const trouble = told(code);
    expect(trouble).toBeInstanceOf(BookTrouble);
    expect(trouble).toMatchObject({ kind, given, place: "a.book" });
    expect(trouble.message).toMatch(/^a\.book: [^\n]+; [^\n]+$/);
    // The same when the error itself bears the code.
    expect(asTrouble(Object.assign(new Error("raw"), { code }), "a.book", undefined)).toMatchObject({ kind, given });
  });

  it("leaves wrong input and faults of the program what they are", () => {
    const wrong = new InputError("x", "y", "z");
    expect(asTrouble(wrong, "a.book", "SQLITE_BUSY")).toBe(wrong);
    const fault = new TypeError("fault");
    expect(asTrouble(fault, "a.book", undefined)).toBe(fault);
    const other = Object.assign(new Error("x"), { code: "SQLITE_CONSTRAINT" });
    expect(asTrouble(other, "a.book", undefined)).toBe(other);
    expect(asTrouble(undefined, "a.book", undefined)).toBeUndefined();
  });

  it("of damage names the newest good backup and the command, or that there is none", () => {
    expect(damaged("a.book", "why", { name: "B" }).message).toBe(
      "a.book: damaged (why); nothing was overwritten; its newest good backup is B: rodebench book restore a.book",
    );
    expect(damaged("a.book", "").message).toBe(
      "a.book: damaged; nothing was overwritten; it has no good backup beside it",
    );
  });
});
