import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Book, newBook, openBook } from "../../src/book/index.ts";
import { writeMeta } from "../../src/book/migrate.ts";
import { SentFiles } from "../../src/server/sent-files.ts";
import { rigText } from "../support/rig-text.ts";
import { folder, steadyPorts } from "./folder.ts";

const fresh = (at: string, name = "a.book"): Book =>
  newBook(join(at, name), { title: "Quay" }, { ports: steadyPorts(), who: "Ada", backups: false });

describe("a book made to do harm", () => {
  it.each(["x/../../../victim", "../victim", "", "01970001"])(
    "that calls its device %j is refused as damaged: the id is part of paths",
    (device) => {
      const book = fresh(folder());
      writeMeta(book.context.driver, "device", device);
      book.close();
      expect(() => openBook(book.path, { backups: false })).toThrow(/damaged \(its own id is none\)/);
    },
  );

  it("writes no file outside the folder it is exported into, whatever its logs and copied files are called", async () => {
    const at = folder();
    const book = fresh(join(at));
    const { driver } = book.context;
    driver.exec("PRAGMA foreign_keys = OFF");
    driver.run("INSERT INTO log (id, name, channels) VALUES ('../../../escaped', 'x', '[]')");
    driver.run(
      "INSERT INTO log_content (log, rows, position, state, finished, crc) VALUES ('../../../escaped', 0, 0, NULL, 1, 0)",
    );
    mkdirSync(join(at, "a/b/c"), { recursive: true });
    await expect(book.export(join(at, "a/b/c/open"))).rejects.toThrow("a UUID of version 7 is expected");
    driver.run("DELETE FROM log_content");
    driver.run("INSERT INTO file (sha256, size, bytes) VALUES ('../../../escaped', 1, x'00')");
    await expect(book.export(join(at, "a/b/c/open"))).rejects.toThrow("a SHA-256 is expected");
    expect(readdirSync(at).sort()).toEqual(["a", "a.book", "a.book-shm", "a.book-wal"]);
    expect(readdirSync(join(at, "a/b/c"))).toEqual([]);
    book.close();
  });

  it("names no table of its own choosing: a kind that is none is told as damage", () => {
    const at = folder();
    const book = fresh(at);
    const other = fresh(at, "b.book");
    const site = other.add("site", { name: "x" });
    other.context.driver.run("UPDATE change SET kind = 'meta' WHERE record = ?", [site]);
    const before = book.digest();
    expect(() => book.merge(other)).toThrow('kind "meta"');
    expect(() => other.undo()).toThrow(/meta/);
    expect(book.digest()).toBe(before);
    book.close();
    other.close();
  });
});

describe("the folder of files sent to the bench", () => {
  it("is cleared of what the bench itself put there, and of nothing else", () => {
    const at = join(folder(), "sent");
    const old = "01970001-0000-7000-8000-000000000000";
    for (const made of [old, `${old}.part`, "mine", ".hidden"]) {
      mkdirSync(join(at, made), { recursive: true });
      writeFileSync(join(at, made, "file"), "x");
    }
    writeFileSync(join(at, "notes.txt"), "mine");
    mkdirSync(join(at, "..", "elsewhere"));
    symlinkSync(join(at, "..", "elsewhere"), join(at, "01970002-0000-7000-8000-000000000000"));
    writeFileSync(join(at, "..", "elsewhere", "kept"), "mine");
    const sent = new SentFiles(at, () => Date.now() + 30 * 24 * 3_600_000);
    expect(readdirSync(at).sort()).toEqual([".hidden", "01970002-0000-7000-8000-000000000000", "mine", "notes.txt"]);
    expect(readFileSync(join(at, "..", "elsewhere", "kept"), "utf8")).toBe("mine");
    sent.remove("../elsewhere");
    expect(existsSync(join(at, "..", "elsewhere", "kept"))).toBe(true);
  });
});

describe("history from elsewhere", () => {
  const CHANNEL = { quantity: "force", unit: "N", precision: "double" as const };
  const setUp = async (at: string) => {
    const book = fresh(at);
    const rig = book.add("rig", { name: "Quay rig" });
    const version = book.add("rigVersion", { rig, file: rigText("as deployed") });
    const { log } = book.logs.open({ name: "cell", channels: [{ name: "load", ...CHANNEL }] });
    const times = Float64Array.from({ length: 50 }, (_, i) => 1.9e9 + i);
    book.logs.append(log, { times, columns: { load: times.map((_, i) => 100 + i) } }, { from: 0, to: 1 });
    await book.export(join(at, "open"));
    rmSync(join(at, "open/book.json"));
    const history = join(at, "open/history.jsonl");
    /** One more transaction in the folder, by another hand. */
    const forge = (changes: readonly object[], more: object = {}): void => {
      const id = (n: number): string => `0197000${n}-0000-7000-8000-000000000000`;
      const transaction = {
        id: id(1),
        stamp: "001999999999999.00000",
        device: id(2),
        who: "x",
        at: "2033-05-18T03:33:19.999Z",
        manner: "edit",
        label: "x",
        reverts: null,
        changes,
        ...more,
      };
      appendFileSync(history, `${JSON.stringify(transaction)}\n`);
    };
    return { book, version, log, forge, open: join(at, "open") };
  };
  const change = (kind: string, record: string, field: string, value: unknown, was: unknown = null) => ({
    kind,
    record,
    field,
    was,
    value,
  });

  it.each([
    [
      "rewrites a file that was kept whole",
      (v: string) => [change("rigVersion", v, "file", "another")],
      {},
      "kept whole",
    ],
    [
      "renames a log's channels",
      (_: string, l: string) => [change("log", l, "channels", [{ name: "weight", ...CHANNEL }])],
      {},
      'without "load"',
    ],
    ["gives a field what it cannot hold", (v: string) => [change("rigVersion", v, "reason", 7)], {}, "rigVersion."],
    [
      "remembers what a field cannot have held",
      (v: string) => [change("rigVersion", v, "reason", "x", 7)],
      {},
      "rigVersion.",
    ],
    ["names a field there is none of", (v: string) => [change("rigVersion", v, "colour", "x")], {}, "no such field"],
    ["hides by halves", (v: string) => [change("rigVersion", v, "hidden", null)], {}, "true or false"],
    ["names a record by no id", () => [change("site", "../x", "name", "x")], {}, "a UUID of version 7"],
    [
      "is of a time no later change could follow",
      () => [],
      { stamp: "999999999999999.99999" },
      "before the year 10000",
    ],
    ["has a stamp of sixteen digits", () => [], { stamp: "8640000000000000.00000" }, "before the year 10000"],
    ["has no time", () => [], { at: "noon" }, "a time from 1970"],
    ["came about in no known manner", () => [], { manner: "magic" }, "manner"],
    ["was written by no device", () => [], { device: "x" }, "device"],
    ["takes back nothing there can be", () => [], { reverts: "x" }, "reverts"],
    ["has no id", () => [], { id: "x" }, "id of a transaction"],
  ] as const)("that %s is refused, with its line; the book stays as it is", async (_what, changes, more, line) => {
    const { book, version, log, forge, open } = await setUp(folder());
    forge(changes(version, log), more);
    const before = book.digest();
    await expect(book.import(open)).rejects.toThrow(line);
    expect(book.digest()).toBe(before);
    expect(book.logs.content(log).rows).toBe(50);
    expect(book.get("rigVersion", version)?.file).toBe(rigText("as deployed"));
    book.close();
  });

  it("that is as it should be is taken in", async () => {
    const { book, version, forge, open } = await setUp(folder());
    forge([
      change("rigVersion", version, "reason", "bent shank"),
      change("rigVersion", version, "file", rigText("as deployed")),
    ]);
    // Else the records as they stood before would say that somebody took it back by hand.
    for (const gone of ["records/rigVersion.jsonl", "tables/rigVersion.csv"]) rmSync(join(open, gone));
    expect(await book.import(open)).toMatchObject({ transactions: 1, records: 1, edited: 0 });
    expect(book.get("rigVersion", version)?.reason).toBe("bent shank");
    book.close();
  });

  it.each([
    ["a book's own account", { record: "00000000-0000-7000-8000-000000000000", kind: "about" }, "what the book is"],
    ["a record of no kind", { kind: "meta" }, 'kind "meta"'],
    ["no record", { record: "x" }, "no id of a record"],
    ["at no time", { at: "noon" }, "a time from 1970"],
  ])("that says %s was deleted for good is refused by a merge", (_what, wrong, line) => {
    const at = folder();
    const book = fresh(at);
    const other = newBook(join(at, "b.book"), { title: "B" }, { ports: steadyPorts(2), backups: false });
    const mark = {
      record: "01970001-0000-7000-8000-000000000000",
      kind: "site",
      stamp: "001999999999999.00000",
      device: other.context.device,
      who: "",
      at: "2033-05-18T03:33:19Z",
      ...wrong,
    };
    other.context.driver.run(
      "INSERT INTO purged (record, kind, stamp, device, who, at) VALUES (?, ?, ?, ?, ?, ?)",
      Object.values(mark),
    );
    expect(() => book.merge(other)).toThrow(line);
    expect(book.about().title).toBe("Quay");
    book.close();
    other.close();
  });

  it("that tells of one transaction otherwise than this book does is refused", () => {
    const at = folder();
    const book = fresh(at);
    // The same chance and clock make the same ids: only the writer's name differs.
    const other = newBook(join(at, "b.book"), { title: "Quay" }, { ports: steadyPorts(), who: "Bo", backups: false });
    const before = book.digest();
    expect(() => book.merge(other)).toThrow("differs between the two books");
    expect(book.digest()).toBe(before);
    book.close();
    other.close();
  });

  it("that says a record of another kind was deleted for good leaves a book that opens", () => {
    const at = folder();
    const book = fresh(at);
    const site = book.add("site", { name: "x" });
    const other = newBook(join(at, "b.book"), { title: "B" }, { ports: steadyPorts(2), backups: false });
    other.context.driver.run(
      "INSERT INTO purged (record, kind, stamp, device, who, at) VALUES (?, 'pull', '001999999999999.00000', ?, '', '2033-05-18T03:33:19Z')",
      [site, other.context.device],
    );
    book.merge(other);
    expect(book.check()).toMatchObject({ kind: "sound" });
    book.close();
    other.close();
  });
});
