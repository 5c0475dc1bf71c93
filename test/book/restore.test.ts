import { execFileSync } from "node:child_process";
import * as fs from "node:fs";
import { basename, dirname, join } from "node:path";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { takeAlone } from "../../src/book/alone.ts";
import { type Book, BookTrouble, newBook, openBook, restoreBook } from "../../src/book/index.ts";
import { folder, steadyPorts } from "./folder.ts";

/** What the next calls that change the disk do: the n-th fails, and after a kill all that come after it, too. */
const disk = vi.hoisted(() => ({ left: Number.POSITIVE_INFINITY, killed: false, calls: 0 }));

vi.mock("node:fs", async (original) => {
  const real = await original<typeof import("node:fs")>();
  const failing =
    (name: string, call: (...given: never[]) => unknown) =>
    (...given: never[]) => {
      disk.calls++;
      if (disk.left <= 0 && (disk.killed || disk.left === 0)) {
        disk.left--;
        throw Object.assign(new Error(`${name} failed`), { code: "EIO" });
      }
      disk.left--;
      return call(...given);
    };
  const changing = [
    "renameSync",
    "rmSync",
    "copyFileSync",
    "linkSync",
    "writeSync",
    "fsyncSync",
    "openSync",
    "readSync",
  ] as const;
  const mocked: Record<string, unknown> = { ...real };
  for (const name of changing) mocked[name] = failing(name, real[name] as never);
  return mocked;
});

beforeEach(() => {
  Object.assign(disk, { left: Number.POSITIVE_INFINITY, killed: false, calls: 0 });
});

const fresh = (at: string): Book =>
  newBook(join(at, "a.book"), { title: "Quay" }, { ports: steadyPorts(), who: "Ada", backups: false });

/** A book as a kill leaves it: its newest transactions only in the journal beside it. */
function unclosed(at: string): { path: string; before: string; after: string } {
  const book = fresh(at);
  for (let i = 0; i < 5; i++) book.add("site", { name: `site ${i}` });
  book.backup();
  const before = book.digest();
  book.context.driver.exec("PRAGMA wal_checkpoint(TRUNCATE)");
  book.add("note", { text: "after the backup" });
  const after = book.digest();
  const killed = join(at, "killed");
  fs.mkdirSync(killed);
  for (const end of ["", "-wal"]) fs.cpSync(book.path + end, join(killed, `a.book${end}`));
  fs.cpSync(`${book.path}.backups`, join(killed, "a.book.backups"), { recursive: true });
  book.close();
  return { path: join(killed, "a.book"), before, after };
}

function digestOf(path: string): string {
  const book = openBook(path, { ports: steadyPorts(7), backups: false });
  try {
    expect(book.check()).toMatchObject({ kind: "sound" });
    return book.digest();
  } finally {
    book.close();
  }
}

/** Everything lies where it can be found, whole: the book's name stands for one of the two, and the newest transactions are kept. */
function expectNothingLost({ path, before, after }: ReturnType<typeof unclosed>, when: string): void {
  Object.assign(disk, { left: Number.POSITIVE_INFINITY, killed: false });
  const at = dirname(path);
  const asides = fs.readdirSync(at).filter((name) => /\.aside-[^-]*Z(-\d+)?$/.test(name));
  const inodes = [basename(path), ...asides].map((name) => fs.statSync(join(at, name)).ino);
  expect(new Set(inodes).size, `${when}: one name a file`).toBe(inodes.length);
  const found = [path, ...asides.map((name) => join(at, name))].map(digestOf);
  expect([before, after], when).toContain(found[0]);
  expect(found, `${when}: the newest transactions`).toContain(after);
}

describe("restoring over a book that was not closed", () => {
  it("keeps the whole of it beside, and no journal of it beside what comes in its place", () => {
    const killed = unclosed(folder());
    const { aside } = restoreBook(killed.path, { ports: steadyPorts(3) });
    const names = ["a.book", basename(aside!), `${basename(aside!)}-wal`, "a.book.backups"];
    expect(fs.readdirSync(dirname(killed.path)).sort()).toEqual(names.sort());
    expect(digestOf(killed.path)).toBe(killed.before);
    expect(digestOf(aside!)).toBe(killed.after);
  });

  it.each([false, true])("loses nothing at whichever step the disk fails, or the program is killed (%s)", (kill) => {
    const trial = unclosed(folder());
    disk.calls = 0;
    restoreBook(trial.path, { ports: steadyPorts(3) });
    const steps = disk.calls;
    expect(steps).toBeGreaterThan(10);
    let failed = 0;
    for (let step = 0; step < steps; step++) {
      const killed = unclosed(folder());
      Object.assign(disk, { left: step, killed: kill });
      try {
        restoreBook(killed.path, { ports: steadyPorts(3) });
      } catch (error) {
        failed++;
        if (!kill) expect(error, `step ${step}`).toBeInstanceOf(BookTrouble);
      }
      expectNothingLost(killed, `step ${step}`);
    }
    expect(failed).toBeGreaterThan(steps / 2);
  });

  it("folds the journal into the file it takes, and lets go of it without a trace", () => {
    const killed = unclosed(folder());
    const alone = takeAlone(killed.path);
    expect(fs.statSync(`${killed.path}-wal`).size).toBeGreaterThan(0);
    alone.fold();
    const beside = () => fs.readdirSync(dirname(killed.path)).filter((name) => /-(wal|shm|journal)$/.test(name));
    expect(beside()).toEqual([]);
    // Of what lies in the file by now, all of it is the book.
    fs.cpSync(killed.path, `${killed.path}.copy`);
    fs.writeFileSync(`${killed.path}-wal`, "of the book that comes");
    alone.release();
    expect(fs.readFileSync(`${killed.path}-wal`, "utf8")).toBe("of the book that comes");
    expect(digestOf(`${killed.path}.copy`)).toBe(killed.after);
  });

  it("of a damaged one keeps it as it is, its journal too, in a name of its own", () => {
    const killed = unclosed(folder());
    const bytes = fs.readFileSync(killed.path);
    const wal = fs.readFileSync(`${killed.path}-wal`);
    fs.writeFileSync(killed.path, bytes.subarray(100, 2100));
    const { aside } = restoreBook(killed.path, { ports: steadyPorts(3) });
    expect(fs.readFileSync(aside!).equals(bytes.subarray(100, 2100))).toBe(true);
    expect(fs.readFileSync(`${aside!}-wal`).equals(wal)).toBe(true);
    expect(fs.existsSync(`${killed.path}-wal`)).toBe(false);
    expect(digestOf(killed.path)).toBe(killed.before);
  });
});

describe("restoring while anyone has the book open", () => {
  it("is refused in one line, also when the other only waits; nothing is changed", () => {
    const at = folder();
    const book = fresh(at);
    book.backup();
    book.add("note", { text: "later" });
    const names = fs.readdirSync(at).sort();
    expect(() => restoreBook(book.path)).toThrow(
      `${book.path}: another program has it open; close that program, then restore`,
    );
    const reader = openBook(book.path, { readOnly: true });
    expect(() => restoreBook(book.path)).toThrow("another program has it open");
    const digest = book.digest();
    book.add("note", { text: "goes on" });
    book.undo();
    book.close();
    expect(() => restoreBook(book.path)).toThrow("another program has it open");
    reader.close();
    expect(digest).not.toBe("");
    const { aside } = restoreBook(book.path, { ports: steadyPorts(3) });
    expect(openBook(aside!, { backups: false }).list("note", { hidden: "with" })).toHaveLength(2);
    expect(names).toContain("a.book");
  });

  it("is refused to another program, however often this one has opened and looked at it", () => {
    const book = fresh(folder());
    const again = openBook(book.path, { backups: false });
    again.close();
    // Another program asks for the file's own lock, as a restore does.
    const program = `const D = require("better-sqlite3"); const d = new D(process.argv[1], { timeout: 50 });
      try { d.exec("PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; COMMIT"); console.log("taken"); } catch (e) { console.log(e.code); }`;
    expect(execFileSync(process.execPath, ["-e", program, book.path], { encoding: "utf8" })).toBe("SQLITE_BUSY\n");
    book.close();
    expect(execFileSync(process.execPath, ["-e", program, book.path], { encoding: "utf8" })).toBe("taken\n");
  });

  it("is refused for a damaged one too, where the system lists locks", ({ skip }) => {
    if (!fs.existsSync("/proc/locks")) skip("no list of locks here");
    const book = fresh(folder());
    book.backup();
    const handle = fs.openSync(book.path, "r+");
    fs.writeSync(handle, Buffer.alloc(100), 0, 100, 0);
    const listed = fs.readFileSync("/proc/locks", "latin1").includes(`:${fs.statSync(book.path).ino} `);
    if (!listed) skip("locks of this disk are listed under another number");
    expect(() => restoreBook(book.path)).toThrow("another program has it open");
    book.context.driver.close();
    fs.closeSync(handle);
  });
});

describe("a book whose file another has taken the place of", () => {
  it("takes no more writes: none is acknowledged that nobody else would see", () => {
    const at = folder();
    const book = fresh(at);
    const site = book.add("site", { name: "x" });
    fs.renameSync(book.path, `${book.path}.moved`);
    fs.cpSync(`${book.path}.moved`, book.path);
    expect(() => book.edit("site", site, { name: "y" })).toThrow("another file stands in its place");
    fs.rmSync(book.path);
    expect(() => book.add("site", { name: "y" })).toThrow(
      "another file stands in its place since it was opened, or none",
    );
    fs.renameSync(`${book.path}.moved`, book.path);
    expect(book.edit("site", site, { name: "y" })).not.toBeNull();
    book.close();
  });
});

describe("a named backup", () => {
  it("that is damaged is not restored; the book stays as it is", () => {
    const book = fresh(folder());
    const { name, path } = book.backup();
    book.add("note", { text: "later" });
    const digest = book.digest();
    book.close();
    const bytes = fs.readFileSync(path);
    bytes[bytes.lastIndexOf("Quay")]! ^= 1;
    fs.writeFileSync(path, bytes);
    expect(() => restoreBook(book.path, { backup: name })).toThrow(`${path}: damaged; another backup is expected`);
    expect(() => restoreBook(book.path)).toThrow("no good backup beside it");
    expect(digestOf(book.path)).toBe(digest);
  });
});
