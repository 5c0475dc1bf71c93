import { copyFileSync, mkdirSync, readdirSync, readFileSync, statSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, it } from "vitest";
import { type Book, BookTrouble, newBook, openBook, restoreBook } from "../../src/book/index.ts";
import { folder, steadyPorts } from "./folder.ts";

const CHANNELS = [{ name: "load", quantity: "force", unit: "N", precision: "single" as const }];

/** A book with something of everything in it. */
function fullBook(path: string): Book {
  const book = newBook(path, { title: "Quay days" }, { ports: steadyPorts(), who: "Ada" });
  const site = book.add("site", { name: "Ebb Cove", latitude_deg: 10, longitude_deg: 20 });
  const day = book.add("day", { date: "2031-05-17", site });
  const pull = book.add("pull", { day, depth_m: 6, result: { kind: "gaveWay", load_N: 3100 }, endedBy: "drag" });
  for (let i = 0; i < 30; i++)
    book.edit("pull", pull, { remarks: `read again, time ${i}: ${"about the same ".repeat(i % 7)}` });
  book.addPicture({ about: pull, type: "text/plain" }, new TextEncoder().encode("a picture of a furrow. ".repeat(200)));
  const { log } = book.logs.open({ name: "cell", pull, channels: CHANNELS, fingerprint: "f1" });
  const times = Float64Array.from({ length: 9000 }, (_, i) => 1.9e9 + i / 8);
  book.logs.append(
    log,
    { times, columns: { load: times.map((_, i) => 2000 + 500 * Math.sin(i / 50)) } },
    { from: 0, to: 90_000 },
  );
  book.logs.record(log, { times: Float64Array.of(1.9e9 + 2000), columns: { load: Float64Array.of(7) } });
  const wrong = book.add("site", { name: "wrong" });
  book.hide(wrong);
  const question = book.askPurge(wrong);
  if (question.kind === "ask") book.purge(wrong, question.token);
  return book;
}

function copyWithBackups(from: string, to: string): void {
  copyFileSync(from, to);
  mkdirSync(`${to}.backups`);
  for (const name of readdirSync(`${from}.backups`))
    copyFileSync(join(`${from}.backups`, name), join(`${to}.backups`, name));
}

const oneLine = /^[^\n]+$/;

describe("a damaged book", () => {
  it("is told in one line wherever a bit flips, or holds exactly what it held; nothing is overwritten", () => {
    const at = folder();
    const book = fullBook(join(at, "a.book"));
    book.backup();
    const digest = book.digest();
    book.close();
    const bytes = readFileSync(book.path);
    const rng = xoroshiro128plus(20310517);
    const flips = 160;
    let told = 0;
    for (let i = 0; i < flips; i++) {
      // The first sixty in the header and the tables' descriptions, where a flip is most confusing.
      const bit = uniformInt(rng, 0, (i < 60 ? 4096 : bytes.length) * 8 - 1);
      const path = join(at, `flip${i}.book`);
      copyWithBackups(book.path, path);
      const flipped = Buffer.from(bytes);
      flipped[bit >> 3]! ^= 1 << (bit & 7);
      writeFileSync(path, flipped);
      try {
        const again = openBook(path, { ports: steadyPorts(2), backups: false });
        expect(again.digest(), `bit ${bit}`).toBe(digest);
        again.close();
      } catch (error) {
        if (!(error instanceof BookTrouble)) throw error;
        told++;
        expect(error.message, `bit ${bit}`).toMatch(oneLine);
        expect(["damaged", "newer"], `bit ${bit}: ${error.message}`).toContain(error.kind);
        expect(readFileSync(path).equals(flipped), `bit ${bit}: file untouched`).toBe(true);
        if (error.kind === "damaged") expect(error.message, `bit ${bit}`).toContain("its newest good backup is 2031");
      }
    }
    expect(told).toBeGreaterThan(0);
  });

  it("is told whatever kept byte flips: names, history, readings, pictures, who deleted what", () => {
    const at = folder();
    const book = fullBook(join(at, "a.book"));
    const { driver } = book.context;
    const kept = (statement: string) => Object.values(driver.get<Record<string, string | Uint8Array>>(statement)!)[0]!;
    const targets = [
      kept("SELECT name FROM site"),
      kept("SELECT value FROM change WHERE field = 'remarks' ORDER BY stamp LIMIT 1"),
      kept("SELECT stamp FROM act ORDER BY seq LIMIT 1"),
      kept("SELECT id FROM act ORDER BY seq LIMIT 1"),
      "2031-05-17T08:00",
      kept("SELECT times FROM log_chunk WHERE n = 1"),
      kept("SELECT bins FROM log_chunk WHERE n = 1"),
      kept("SELECT readings FROM log_column WHERE n = 1"),
      kept("SELECT readings FROM log_live"),
      kept("SELECT state FROM (SELECT log AS state FROM log_content)"),
      kept("SELECT bytes FROM file"),
      kept("SELECT sha256 FROM file"),
      kept("SELECT record FROM purged"),
      kept("SELECT value FROM meta WHERE key = 'device'"),
      kept("SELECT endedBy FROM pull"),
      "CREATE TABLE pull",
    ].map((target) => Buffer.from(target));
    book.close();
    const bytes = readFileSync(book.path);
    for (const target of targets) {
      // A stretch of up to 24 bytes lies whole on a page of the file, or its first bytes do.
      const needle = target.subarray(0, 24);
      const places: number[] = [];
      for (let i = bytes.indexOf(needle); i >= 0; i = bytes.indexOf(needle, i + 1)) places.push(i);
      expect(places.length, `${needle}`).toBeGreaterThan(0);
      const isTold = places.some((place) => {
        const flipped = Buffer.from(bytes);
        flipped[place + needle.length - 1]! ^= 4;
        const path = join(at, "flip.book");
        writeFileSync(path, flipped);
        try {
          openBook(path, { ports: steadyPorts(2), backups: false }).close();
          return false;
        } catch (error) {
          if (error instanceof BookTrouble && error.kind === "damaged") return true;
          throw error;
        }
      });
      // Pages let go of may hold an old copy that nothing reads; the kept one is always told.
      expect(isTold, `${needle.toString("latin1")} at ${places}`).toBe(true);
    }
  });

  it.each([0.99, 0.7, 0.3, 0.05])("cut to %f of its length is told in one line, and restored", (share) => {
    const at = folder();
    const book = fullBook(join(at, "a.book"));
    const { name } = book.backup();
    const digest = book.digest();
    book.close();
    truncateSync(book.path, Math.floor(statSync(book.path).size * share));
    const cut = readFileSync(book.path);
    expect(() => openBook(book.path)).toThrow(BookTrouble);
    expect(() => openBook(book.path)).toThrow(`its newest good backup is ${name}: rodebench book restore ${book.path}`);
    expect(readFileSync(book.path).equals(cut)).toBe(true);
    const { aside } = restoreBook(book.path, { ports: steadyPorts(3) });
    expect(readFileSync(aside!).equals(cut)).toBe(true);
    const again = openBook(book.path, { ports: steadyPorts(4) });
    expect(again.digest()).toBe(digest);
    again.close();
  });

  it("whose newest backup is damaged as well is offered the newest good one", () => {
    const at = folder();
    const book = fullBook(join(at, "a.book"));
    const good = book.backup();
    book.add("note", { text: "later" });
    const bad = book.backup();
    book.close();
    truncateSync(bad.path, 5000);
    truncateSync(book.path, 5000);
    expect(() => openBook(book.path)).toThrow(good.name);
    expect(restoreBook(book.path, { ports: steadyPorts(3) }).from.name).toBe(good.name);
  });

  it("without any backup is told so", () => {
    const book = fullBook(join(folder(), "a.book"));
    book.close();
    truncateSync(book.path, 9000);
    expect(() => openBook(book.path)).toThrow("it has no good backup beside it");
    expect(() => restoreBook(book.path)).toThrow("no good backup beside it");
    expect(statSync(book.path).size).toBe(9000);
  });
});

describe("restoring", () => {
  it("takes a backup by name, and no other file", () => {
    const at = folder();
    const book = fullBook(join(at, "a.book"));
    const first = book.backup();
    book.add("note", { text: "more" });
    book.backup();
    book.close();
    expect(restoreBook(book.path, { backup: first.name, ports: steadyPorts(3) }).from.name).toBe(first.name);
    expect(() => restoreBook(book.path, { backup: "other.book" })).toThrow("one of the backups of");
  });
});

describe("backups", () => {
  it("are made by themselves when there is something new, and the last ten are kept", () => {
    const at = folder();
    const path = join(at, "a.book");
    newBook(path, { title: "T" }, { ports: steadyPorts() }).close();
    const day = 86_400_000;
    const counts: number[] = [];
    for (let i = 1; i <= 14; i++) {
      const book = openBook(path, { ports: steadyPorts(i, Date.parse("2031-05-17T08:00:00Z") + i * day) });
      counts.push(book.backups().length);
      if (i !== 5) book.add("note", { text: `day ${i}` });
      book.close();
    }
    // One at making the book; then one a day, but none after the day with nothing new; then no more than ten.
    expect(counts).toEqual([1, 2, 3, 4, 5, 5, 6, 7, 8, 9, 10, 10, 10, 10]);
  });

  it("are made of a book that stays open, every 200 transactions", () => {
    const book = newBook(join(folder(), "a.book"), { title: "T" }, { ports: steadyPorts() });
    book.close();
    const open = openBook(book.path, { ports: steadyPorts(2, Date.parse("2031-05-17T09:00:00Z")) });
    for (let i = 0; i < 450; i++) open.add("note", { text: `${i}` });
    expect(open.backups().map((b) => b.transactions)).toEqual([401, 201, 1]);
    expect(open.notices).toEqual([]);
    open.close();
  });

  it("are not made of a damaged book, nor is a good one let go for it", () => {
    const at = folder();
    const book = fullBook(join(at, "a.book"));
    book.backup();
    const before = readdirSync(`${book.path}.backups`);
    book.context.driver.exec("UPDATE pull SET depth_m = 60");
    expect(() => book.backup()).toThrow("depth_m is not what its history says");
    expect(readdirSync(`${book.path}.backups`)).toEqual(before);
    book.close();
  });
});
