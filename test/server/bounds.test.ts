/** Bounds of what the doors take, each written here as the docs state it: the last that passes and the first that does not. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { bookFileName, bookFiles } from "../../src/server/book-files.ts";
import { readBuiltApp } from "../../src/server/built-app.ts";
import { fingerprintOf } from "../../src/server/following.ts";
import { batch } from "../../src/server/sent-transaction.ts";
import { benchInProcess } from "./in-process.ts";

const folder = mkdtempSync(join(tmpdir(), "bounds-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("a batch written offline", () => {
  const record = { kind: "pull", id: "a", makes: true, set: {} };
  const one = { id: "t", device: "d", at: "2031-05-17", label: "add", records: [record] };
  const takes = (transactions: unknown): boolean => batch.safeParse({ transactions }).success;
  const long = (letters: number): string => "x".repeat(letters);

  it("has from one to a thousand transactions, of as many records", () => {
    expect(takes([one])).toBe(true);
    expect(takes([])).toBe(false);
    expect(takes(new Array(1000).fill(one))).toBe(true);
    expect(takes(new Array(1001).fill(one))).toBe(false);
    expect(takes([{ ...one, records: [] }])).toBe(false);
    expect(takes([{ ...one, records: new Array(1000).fill(record) }])).toBe(true);
    expect(takes([{ ...one, records: new Array(1001).fill(record) }])).toBe(false);
  });

  it.each(["id", "device", "at", "book"])("has a %s of at most 64 letters", (name) => {
    expect(takes([{ ...one, [name]: long(64) }])).toBe(true);
    expect(takes([{ ...one, [name]: long(65) }])).toBe(false);
  });

  it.each(["kind", "id"])("has records whose %s is of at most 64 letters", (name) => {
    expect(takes([{ ...one, records: [{ ...record, [name]: long(64) }] }])).toBe(true);
    expect(takes([{ ...one, records: [{ ...record, [name]: long(65) }] }])).toBe(false);
  });

  it("has a label of 1 to 200 letters, and nothing nobody knows", () => {
    expect(takes([{ ...one, label: "" }])).toBe(false);
    expect(takes([{ ...one, label: long(200) }])).toBe(true);
    expect(takes([{ ...one, label: long(201) }])).toBe(false);
    expect(takes([{ ...one, more: 1 }])).toBe(false);
    expect(takes([{ ...one, records: [{ ...record, more: 1 }] }])).toBe(false);
  });
});

describe("names", () => {
  it("of the log of a pull and an instrument are of at most 200 letters", () => {
    expect(fingerprintOf("p", "cell")).toBe("live:p:cell");
    expect(fingerprintOf("p", "c".repeat(300))).toBe(`live:p:${"c".repeat(193)}`);
  });

  it("of books in a folder come in order, two hundred at most; what is hidden, a folder or another file is none", () => {
    const books = join(folder, "books");
    expect(bookFiles(books)).toEqual([]);
    mkdirSync(join(books, "folder.book"), { recursive: true });
    for (const name of ["b.book", "a.book", ".c.book", "d.txt"]) writeFileSync(join(books, name), "");
    expect(bookFiles(books)).toEqual(["a.book", "b.book"]);
    for (let k = 0; k < 250; k++) writeFileSync(join(books, `n${1000 + ((k * 7) % 250)}.book`), "");
    const all = bookFiles(books);
    expect(all).toHaveLength(200);
    expect(all).toEqual([...all].sort());
  });

  it("of a book's file are of at most 60 letters of its title, none that a system keeps, and none that is taken", () => {
    expect(bookFileName("Öre Sound, 2031!", () => false)).toBe("ore-sound-2031.book");
    expect(bookFileName("y".repeat(80), () => false)).toBe(`${"y".repeat(60)}.book`);
    expect(bookFileName("COM1", () => false)).toBe("book-com1.book");
    expect(bookFileName("…", () => false)).toBe("book.book");
    const there = new Set(["a.book", "a-2.book"]);
    expect(bookFileName("a", (name) => there.has(name))).toBe("a-3.book");
  });
});

describe("a file of the built app", () => {
  it("is packed when it is text of more than a kibibyte; a picture or a short one never", async () => {
    const app = join(folder, "app");
    mkdirSync(app);
    writeFileSync(join(app, "index.html"), `<!doctype html>${"x".repeat(1024 - 15)}`);
    writeFileSync(join(app, "long.css"), "a".repeat(1025));
    writeFileSync(join(app, "big.png"), "p".repeat(5000));
    const { ask } = benchInProcess([], { builtApp: readBuiltApp(app)! });
    for (const [path, packed] of [
      ["/index.html", null],
      ["/long.css", true],
      ["/big.png", null],
    ] as const)
      for (const encoding of ["gzip", "br"]) {
        const answer = await ask(path, { headers: { "accept-encoding": encoding } });
        expect(answer.headers.get("content-encoding"), `${path}, ${encoding}`).toBe(packed && encoding);
      }
  });
});
