import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Book, newBook, openBook } from "../../src/book/index.ts";
import { rigText } from "../support/rig-text.ts";
import { folder, steadyPorts } from "./folder.ts";
import { elsewhere } from "./random-book.ts";

const CHANNELS = [{ name: "load", quantity: "force", unit: "N", precision: "double" as const }];
const fresh = (at: string, name = "a.book", seed = 1): Book =>
  newBook(join(at, name), { title: "Quay" }, { ports: steadyPorts(seed), who: "Ada", backups: false });

function purge(book: Book, id: string): ReturnType<Book["purge"]> {
  book.hide(id);
  const question = book.askPurge(id);
  if (question.kind !== "ask") throw new Error("not asked");
  return book.purge(id, question.token);
}

/** Every byte on the disk that belongs to the book. */
function bytesOf(book: Book): Buffer {
  const files = ["", "-wal", "-journal"].map((end) => book.path + end).filter((path) => existsSync(path));
  return Buffer.concat(files.map((path) => readFileSync(path)));
}

/** Readings that lie nowhere by chance: the golden ratio's multiples. */
const value = (i: number): number => ((i + 1) * 0.6180339887498949) % 1;
const raw = (v: number): Buffer => Buffer.from(new Float64Array([v]).buffer);

describe("what is deleted for good", () => {
  it("is gone from the file: live readings, chunks as they grew, names, notes, pictures", () => {
    const book = fresh(folder());
    const { log } = book.logs.open({ name: "cell on the capstan", channels: CHANNELS, fingerprint: "print of it" });
    const seen: Buffer[] = ["cell on the capstan", "print of it", "a secret of the quay", "first words"].map((t) =>
      Buffer.from(t),
    );
    for (let i = 0; i < 600; i++) {
      book.logs.record(log, { times: Float64Array.of(1.9e9 + i), columns: { load: Float64Array.of(value(i)) } });
      seen.push(raw(value(i)));
    }
    const { driver } = book.context;
    const keepColumns = (): void => {
      for (const { readings } of driver.all<{ readings: Uint8Array }>("SELECT readings FROM log_column"))
        for (let at = 0; at + 24 <= readings.length; at += 997) seen.push(Buffer.from(readings.subarray(at, at + 24)));
    };
    for (let i = 0; i < 12; i++) {
      const { position } = book.logs.progress(log);
      const times = Float64Array.from({ length: 400 }, (_, k) => 1.9e9 + 600 + 400 * i + k);
      book.logs.append(
        log,
        { times, columns: { load: times.map((_, k) => value(2000 + 400 * i + k)) } },
        { from: position, to: position + 1 },
      );
      keepColumns();
    }
    const note = book.add("note", { text: "a secret of the quay" });
    book.edit("note", note, { text: "first words" });
    const bytes = new TextEncoder().encode("bytes of a picture of the quay");
    const picture = book.addPicture({ about: note }, bytes);
    seen.push(Buffer.from(bytes));
    const kept = book.add("site", { name: "Ebb Cove stays" });
    const before = bytesOf(book);
    expect(seen.filter((s) => before.includes(s)).length).toBeGreaterThan(500);
    for (const id of [log, note, picture]) expect(purge(book, id)).toMatchObject({ leftover: false });
    const after = bytesOf(book);
    expect(seen.filter((s) => after.includes(s)).map((s) => s.toString("latin1"))).toEqual([]);
    expect(after.includes(Buffer.from("Ebb Cove stays"))).toBe(true);
    expect(book.get("site", kept)?.name).toBe("Ebb Cove stays");
    expect(book.check()).toMatchObject({ kind: "sound" });
    book.close();
  });

  it("is told when another program that reads keeps the bytes in the journal for now", () => {
    const book = fresh(folder());
    const note = book.add("note", { text: "a secret of the quay" });
    const reader = openBook(book.path, { readOnly: true });
    reader.context.driver.exec("BEGIN");
    reader.list("note");
    expect(purge(book, note)).toMatchObject({ records: 1, leftover: true });
    reader.close();
    book.close();
    expect(bytesOf(book).includes(Buffer.from("a secret of the quay"))).toBe(false);
  });

  it("goes from a book that is merged with, from its file too, and does not come back from one that has it", () => {
    const at = folder();
    const book = fresh(at);
    const note = book.add("note", { text: "a secret of the quay" });
    const other = elsewhere(book, join(at, "b.book"), 2);
    const third = elsewhere(book, join(at, "c.book"), 3);
    other.edit("note", note, { text: "the secret as told" });
    third.edit("note", note, { text: "as a third says" });
    purge(book, note);
    expect(book.merge(other)).toMatchObject({ records: 0 });
    expect(book.get("note", note)).toBeUndefined();
    expect(book.history({ record: note })).toEqual([]);
    expect(bytesOf(book).includes(Buffer.from("secret"))).toBe(false);
    expect(other.merge(book)).toMatchObject({ purged: 1 });
    expect(other.get("note", note)).toBeUndefined();
    expect(bytesOf(other).includes(Buffer.from("secret"))).toBe(false);
    // Through a third book, which has changed it since and has not heard of it.
    expect(other.merge(third)).toMatchObject({ records: 0 });
    expect(other.get("note", note)).toBeUndefined();
    expect(() => other.write([{ kind: "note", id: note, set: { text: "again" } }], "x")).toThrow("deleted for good");
    for (const one of [book, other, third]) {
      expect(one.check()).toMatchObject({ kind: "sound" });
      one.close();
    }
  });

  it("is never anything an import asks for: it keeps what the book holds, and says so", async () => {
    const at = folder();
    const book = fresh(at);
    const note = book.add("note", { text: "mine" });
    const other = elsewhere(book, join(at, "b.book"), 2);
    purge(other, note);
    const later = other.add("note", { text: "theirs" });
    await other.export(join(at, "open"));
    expect(await book.import(join(at, "open"))).toMatchObject({ purged: 0, deletedThere: 1 });
    expect(book.get("note", note)?.text).toBe("mine");
    expect(book.get("note", later)?.text).toBe("theirs");
    // Nor does it lie in wait for the next merge.
    const third = elsewhere(book, join(at, "c.book"), 3);
    third.merge(book);
    expect(third.get("note", note)?.text).toBe("mine");
    mkdirSync(join(at, "bare/records"), { recursive: true });
    writeFileSync(join(at, "bare/records/note.jsonl"), "");
    const mark = {
      record: note,
      kind: "note",
      stamp: "001937000000000.00000",
      device: note,
      who: "x",
      at: "2031-05-17T08:00:00Z",
    };
    writeFileSync(join(at, "bare/purged.jsonl"), `${JSON.stringify(mark)}\n`);
    expect(await book.import(join(at, "bare"))).toMatchObject({ purged: 0, deletedThere: 1 });
    expect(book.get("note", note)?.text).toBe("mine");
    // A new book made of the folder is the book that was exported, what was deleted with it.
    const back = newBook(join(at, "d.book"), null, { ports: steadyPorts(9), backups: false });
    await back.import(join(at, "open"));
    expect(back.digest()).toBe(other.digest());
    for (const one of [book, other, third, back]) one.close();
  });

  it("needs the token of the record as it stands, and a hidden record", () => {
    const book = fresh(folder());
    const note = book.add("note", { text: "x" });
    expect(() => book.purge(note, "00000000")).toThrow("not hidden");
    book.hide(note);
    const question = book.askPurge(note);
    if (question.kind !== "ask") throw new Error("not asked");
    book.edit("note", note, { text: "y" });
    const now = book.askPurge(note);
    // What would be right is not told: whoever reads the refusal has not been asked.
    if (now.kind !== "ask") throw new Error("not asked");
    expect(() => book.purge(note, question.token)).toThrow(new RegExp(`^(?!.*${now.token})`));
    expect(() => book.purge(note, question.token)).toThrow("the token of the first asking is expected");
    expect(book.get("note", note)?.text).toBe("y");
    book.close();
  });

  it("takes the parts of a record with it and tells what will point to nothing", () => {
    const book = fresh(folder());
    const rig = book.add("rig", { name: "Quay rig" });
    const version = book.add("rigVersion", { rig, file: rigText("x") });
    const pull = book.add("pull", { rigVersion: version });
    const picture = book.addPicture({ about: rig, reference: "r.jpg" });
    book.hide(rig);
    expect(book.askPurge(rig)).toMatchObject({ records: 2, pointing: 2, logRows: 0 });
    expect(purge(book, rig)).toMatchObject({ records: 2 });
    expect(book.get("rigVersion", version)).toBeUndefined();
    expect(book.get("pull", pull)?.rigVersion).toBeNull();
    expect(book.get("picture", picture)).toBeDefined();
    expect(book.check()).toMatchObject({ kind: "sound" });
    book.close();
  });
});
