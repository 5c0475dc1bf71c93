import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openBetterSqlite } from "../../src/book/better-sqlite-driver.ts";
import type { OpenDriver } from "../../src/book/driver.ts";
import { BookTrouble, newBook, openBook } from "../../src/book/index.ts";
import { folder, steadyPorts } from "./folder.ts";
import { smallDisk, whyNoDisk } from "./mounted.ts";

const CHANNELS = [{ name: "load", quantity: "force", unit: "N", precision: "double" as const }];
const noise = (rows: number, from: number) => ({
  times: Float64Array.from({ length: rows }, (_, i) => 1.9e9 + from + i),
  // Hardly compressible: a multiplicative congruence by the golden ratio.
  columns: { load: Float64Array.from({ length: rows }, (_, i) => (((from + i) * 0.6180339887498949) % 1) * Math.PI) },
});

function troubleOf(work: () => unknown): BookTrouble {
  try {
    work();
  } catch (error) {
    if (error instanceof BookTrouble) {
      expect(error.message).toMatch(/^[^\n]+$/);
      return error;
    }
    throw error;
  }
  throw new Error("no trouble came");
}

describe("a full disk", () => {
  it("is told in one line; all acknowledged before is there, and the book goes on once there is room", (context) => {
    const disk = smallDisk("1500k");
    if (!disk) return context.skip(whyNoDisk);
    try {
      const path = join(disk.path, "a.book");
      const filler = join(disk.path, "filler");
      writeFileSync(filler, new Uint8Array(300_000));
      const book = newBook(path, { title: "Quay" }, { ports: steadyPorts(), backups: false });
      const { log } = book.logs.open({ name: "cell", channels: CHANNELS, fingerprint: "f" });
      let acknowledged = 0;
      const trouble = troubleOf(() => {
        for (let i = 0; i < 1000; i++) {
          const next = acknowledged + 4000;
          book.logs.append(log, noise(4000, acknowledged), { from: acknowledged, to: next });
          acknowledged = next;
        }
      });
      expect(trouble.kind).toBe("full");
      expect(trouble.message).toContain("the disk is full; nothing of the last step was kept, all before it was");
      expect(acknowledged).toBeGreaterThan(0);
      expect(book.logs.progress(log)).toMatchObject({ rows: acknowledged, position: acknowledged });
      expect(troubleOf(() => book.backup()).kind).toBe("full");
      expect(book.backups()).toEqual([]);
      writeFileSync(filler, "");
      book.logs.append(log, noise(100, acknowledged), { from: acknowledged, to: acknowledged + 100 });
      expect(book.check()).toMatchObject({ kind: "sound", counts: { logRows: acknowledged + 100 } });
      book.close();
      const again = openBook(path, { ports: steadyPorts(2), backups: false });
      expect(again.logs.progress(log).rows).toBe(acknowledged + 100);
      again.close();
    } finally {
      disk.release();
    }
  });

  it("keeps no half of a new book", (context) => {
    const disk = smallDisk("60k");
    if (!disk) return context.skip(whyNoDisk);
    try {
      const path = join(disk.path, "a.book");
      expect(troubleOf(() => newBook(path, { title: "Quay" })).kind).toBe("full");
      expect(troubleOf(() => openBook(path)).kind).toBe("missing");
    } finally {
      disk.release();
    }
  });
});

describe("a disk that can only be read", () => {
  it("gives the book to be read, says so, and refuses to write in one line", (context) => {
    const disk = smallDisk("4m");
    if (!disk) return context.skip(whyNoDisk);
    try {
      const path = join(disk.path, "a.book");
      const made = newBook(path, { title: "Quay" }, { ports: steadyPorts() });
      const site = made.add("site", { name: "Ebb Cove" });
      const digest = made.digest();
      made.close();
      disk.readOnly();
      const book = openBook(path, { ports: steadyPorts(2) });
      expect(book.notices).toEqual([`${path}: it can be read but not written; nothing new is kept`]);
      expect(book.digest()).toBe(digest);
      expect(book.get("site", site)?.name).toBe("Ebb Cove");
      expect(troubleOf(() => book.edit("site", site, { name: "other" })).kind).toBe("readOnly");
      expect(troubleOf(() => book.undo()).kind).toBe("readOnly");
      book.close();
      expect(troubleOf(() => newBook(join(disk.path, "b.book"), { title: "B" })).kind).toBe("readOnly");
    } finally {
      disk.release();
    }
  });
});

describe("two programs on one book", () => {
  it("see it sound and whole whatever the other writes between two looks: opening, checking, counting, exporting", async () => {
    const at = folder();
    const path = join(at, "a.book");
    const one = newBook(path, { title: "Quay" }, { ports: steadyPorts(1), who: "one" });
    const { log } = one.logs.open({ name: "cell", channels: CHANNELS });
    let writes = 0;
    let armed = true;
    const meanwhile = (): void => {
      if (!armed) return;
      armed = false;
      one.logs.record(log, noise(1, writes));
      if (writes % 7 === 0) one.add("note", { text: `${writes}` });
      writes++;
      armed = true;
    };
    // The other program, which gets its turn before every statement of this one.
    const interleaved: OpenDriver = (file, options) => {
      const driver = openBetterSqlite(file, options);
      return {
        ...driver,
        get: (text, parameters) => {
          meanwhile();
          return driver.get(text, parameters);
        },
        all: (text, parameters) => {
          meanwhile();
          return driver.all(text, parameters);
        },
      };
    };
    for (let i = 0; i < 3; i++) {
      const two = openBook(path, { ports: steadyPorts(2), who: "two", driver: interleaved, backups: false });
      const before = writes;
      const soundness = two.check();
      expect(soundness).toMatchObject({ kind: "sound" });
      const { counts } = soundness as { counts: { logRows: number } };
      expect(counts.logRows).toBeLessThanOrEqual(before + 1);
      let rows = 0;
      for (const part of two.logs.rows(log)) rows += part.times.length;
      expect(rows).toBeGreaterThanOrEqual(counts.logRows);
      two.digest();
      two.close();
    }
    expect(writes).toBeGreaterThan(100);
    const exporting = one.export(join(at, "open"));
    for (let i = 0; i < 50; i++) {
      meanwhile();
      await new Promise((done) => setImmediate(done));
    }
    const { digest } = await exporting;
    const back = newBook(join(at, "b.book"), null, { ports: steadyPorts(3), backups: false });
    await back.import(join(at, "open"));
    expect(back.digest()).toBe(digest);
    expect(back.check()).toMatchObject({ kind: "sound" });
    one.close();
    back.close();
  });

  it("write in turn and see each other's records", () => {
    const path = join(folder(), "a.book");
    const one = newBook(path, { title: "Quay" }, { ports: steadyPorts(1), who: "one" });
    const two = openBook(path, { ports: steadyPorts(2), who: "two" });
    const site = one.add("site", { name: "a" });
    two.edit("site", site, { name: "b" });
    one.edit("site", site, { name: "c" });
    expect(two.get("site", site)?.name).toBe("c");
    expect(two.history({ record: site }).map((h) => h.who)).toEqual(["one", "two", "one"]);
    expect(two.check()).toMatchObject({ kind: "sound" });
    one.close();
    two.close();
  });

  it("are told in one line when the other keeps the book too long, and nothing is lost", () => {
    const path = join(folder(), "a.book");
    const one = newBook(path, { title: "Quay" }, { ports: steadyPorts(1) });
    const two = openBook(path, { ports: steadyPorts(2), patience_ms: 50 });
    one.context.driver.exec("BEGIN IMMEDIATE");
    expect(troubleOf(() => two.add("site", { name: "b" })).message).toBe(
      `${path}: another program is writing to it; close that program or try again`,
    );
    expect(two.list("site")).toEqual([]);
    one.context.driver.exec("COMMIT");
    expect(two.add("site", { name: "b" })).toBeTruthy();
    one.close();
    two.close();
  });

  it("cannot both read one source into one log", () => {
    const path = join(folder(), "a.book");
    const one = newBook(path, { title: "Quay" }, { ports: steadyPorts(1) });
    const two = openBook(path, { ports: steadyPorts(2) });
    const set = { name: "cell", channels: CHANNELS, fingerprint: "f" };
    const { log } = one.logs.open(set);
    expect(two.logs.open(set)).toMatchObject({ log, kind: "begun", position: 0 });
    one.logs.append(log, noise(10, 0), { from: 0, to: 10 });
    expect(troubleOf(() => two.logs.append(log, noise(10, 0), { from: 0, to: 10 })).message).toContain(
      "another program is reading the same source",
    );
    expect(two.logs.progress(log).rows).toBe(10);
    one.close();
    two.close();
  });
});

describe("a clock set back", () => {
  it("is remarked on, and what is written later still comes later", () => {
    const path = join(folder(), "a.book");
    const morning = Date.parse("2031-05-17T08:00:00Z");
    const book = newBook(path, { title: "Quay" }, { ports: steadyPorts(1, morning) });
    const site = book.add("site", { name: "first" });
    book.close();
    const back = openBook(path, { ports: steadyPorts(2, morning - 3 * 86_400_000) });
    expect(back.notices).toEqual([
      expect.stringMatching(/^\S+: this clock is behind the last change in the book, of 2031-05-17T08:/),
    ]);
    back.edit("site", site, { name: "second" });
    back.edit("site", site, { name: "third" });
    expect(back.get("site", site)?.name).toBe("third");
    expect(back.history({ record: site }).map((h) => h.changes[0]?.value)).toEqual(["third", "second", false]);
    expect(back.undo()).toMatchObject({ kind: "reverted" });
    expect(back.get("site", site)?.name).toBe("second");
    expect(back.check()).toMatchObject({ kind: "sound" });
    back.close();
  });
});
