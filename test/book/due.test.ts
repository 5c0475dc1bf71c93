import { existsSync, readdirSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Book, newBook, openBook } from "../../src/book/index.ts";
import { folder, steadyPorts } from "./folder.ts";

const MORNING = Date.parse("2031-05-17T08:00:00Z");
const HOUR = 3_600_000;
const CHANNELS = [{ name: "load", quantity: "force", unit: "N", precision: "single" as const }];
const made = (at: string): Book => newBook(join(at, "a.book"), { title: "T" }, { ports: steadyPorts(1, MORNING) });
const opened = (path: string, ms: number, seed = 2): Book => openBook(path, { ports: steadyPorts(seed, ms, 0) });

/** How many backups a book has after it was opened so long after the first, with so much written meanwhile. */
function backupsAfter(hours: number, write: (book: Book) => void): number {
  const at = folder();
  made(at).close();
  const path = join(at, "a.book");
  opened(path, MORNING).close();
  const writing = openBook(path, { ports: steadyPorts(3, MORNING), backups: false });
  write(writing);
  writing.close();
  const book = opened(path, MORNING + hours * HOUR, 4);
  const count = book.backups().length;
  book.close();
  return count;
}

const notes = (count: number) => (book: Book) => {
  for (let i = 0; i < count; i++) book.add("note", { text: `${i}` });
};

describe("a backup is due when a book is opened", () => {
  it("after 200 changes more, not after 199", () => {
    expect(backupsAfter(1, notes(199))).toBe(1);
    expect(backupsAfter(1, notes(200))).toBe(2);
  });
  it("after twelve hours with anything new, not before, and not with nothing new", () => {
    expect(backupsAfter(11.9, notes(1))).toBe(1);
    expect(backupsAfter(12.1, notes(1))).toBe(2);
    expect(backupsAfter(500, () => undefined)).toBe(1);
  });
  it("after twelve hours that the clock was set back, too", () => {
    expect(backupsAfter(-12.1, notes(1))).toBe(2);
    expect(backupsAfter(-11.9, notes(1))).toBe(1);
  });
  it("after two million rows of logs, which are changes as well", () => {
    const rows = (book: Book): void => {
      const { log } = book.logs.open({ name: "cell", channels: CHANNELS });
      for (let i = 0; i < 4; i++) {
        const times = Float64Array.from({ length: 500_000 }, (_, k) => 1.9e9 + (i * 500_000 + k) / 100);
        book.logs.append(log, { times, columns: { load: new Float64Array(500_000) } }, { from: i, to: i + 1 });
      }
    };
    expect(backupsAfter(1, rows)).toBe(2);
  });

  it("never of a book with nothing in it, and never when it is not wanted", () => {
    const at = folder();
    newBook(join(at, "b.book"), null).close();
    expect(openBook(join(at, "b.book")).backups()).toEqual([]);
    made(at).close();
    openBook(join(at, "a.book"), { backups: false }).close();
    expect(existsSync(join(at, "a.book.backups"))).toBe(false);
  });
});

describe("a backup", () => {
  it("tells what it holds, and is listed newest first", () => {
    const at = folder();
    const book = made(at);
    const first = book.backup();
    notes(3)(book);
    const second = book.backup();
    expect(first).toMatchObject({ transactions: 1, rows: 0 });
    expect(second).toMatchObject({ transactions: 4, rows: 0 });
    expect(second.name).toMatch(/^20310517T08\d{4}\.\d{3}Z-4-0\.book$/);
    expect(book.backups().map(({ name }) => name)).toEqual([second.name, first.name]);
    expect(Date.parse(second.at)).toBeGreaterThan(Date.parse(first.at));
    expect(book.backups()[0]).toEqual(second);
    const copy = openBook(second.path, { readOnly: true });
    expect(copy.digest()).toBe(book.digest());
    copy.close();
    book.close();
  });
  it("made twice in a moment gets a name of its own, the fuller one first", () => {
    const at = folder();
    made(at).close();
    const book = opened(join(at, "a.book"), MORNING + HOUR);
    const before = book.backups().length;
    const names = [book.backup().name, book.backup().name, book.backup().name];
    expect(new Set(names).size).toBe(3);
    expect(book.backups()).toHaveLength(before + 3);
    book.close();
  });
  it("is made over no other file, and leaves none half made", () => {
    const at = folder();
    const book = made(at);
    const target = join(at, "copy.book");
    writeFileSync(target, "mine");
    expect(() => book.backup(target)).toThrow("there is a file already");
    expect(readdirSync(at).filter((name) => name.endsWith(".part"))).toEqual([]);
    book.close();
  });
  it("clears away what a kill left of another an hour ago, and nothing that is not its own", () => {
    const at = folder();
    const book = made(at);
    book.backup();
    const folderOf = `${book.path}.backups`;
    const id = (n: number) => `0197000${n}-0000-7000-8000-000000000000`;
    const files = [`${id(1)}.part`, `${id(2)}.part-journal`, `${id(3)}.part`, "mine.part", "notes.txt"];
    for (const name of files) writeFileSync(join(folderOf, name), "x");
    const old = Date.now() / 1000 - 3700;
    for (const name of files.filter((f) => f !== files[2])) utimesSync(join(folderOf, name), old, old);
    book.backup();
    expect(
      readdirSync(folderOf)
        .filter((name) => !name.endsWith(".book"))
        .sort(),
    ).toEqual([files[2]!, "mine.part", "notes.txt"].sort());
    book.close();
  });
});

describe("a clock behind the last change in a book", () => {
  it("is remarked on beyond two minutes, not within", () => {
    const at = folder();
    made(at).close();
    const path = join(at, "a.book");
    const noticesAt = (ms: number): readonly string[] => {
      const book = openBook(path, { ports: steadyPorts(5, ms, 0), backups: false });
      const { notices } = book;
      book.close();
      return notices;
    };
    const written = openBook(path, { backups: false, ports: steadyPorts(6, MORNING + HOUR, 0) });
    written.add("note", { text: "x" });
    written.close();
    expect(noticesAt(MORNING + HOUR - 119_000)).toEqual([]);
    expect(noticesAt(MORNING + HOUR + 999_000)).toEqual([]);
    expect(noticesAt(MORNING + HOUR - 121_000)).toEqual([expect.stringContaining("of 2031-05-17T09:00:00.000Z")]);
  });
});
