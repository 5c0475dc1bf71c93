import { execFileSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, it } from "vitest";
import { type Book, newBook } from "../../src/book/index.ts";
import { InputError } from "../../src/quantity/index.ts";
import { rodebench } from "../support/command-line.ts";
import { folder, steadyPorts } from "./folder.ts";

const CHANNELS = [{ name: "load", quantity: "force", unit: "N", precision: "double" as const }];

async function exported(at: string): Promise<{ book: Book; open: string; log: string }> {
  const book = newBook(join(at, "a.book"), { title: "Quay" }, { ports: steadyPorts(), who: "Ada", backups: false });
  const site = book.add("site", { name: "Ebb Cove" });
  book.addPicture({ about: site }, new TextEncoder().encode("a picture"));
  const { log } = book.logs.open({ name: "cell", channels: CHANNELS });
  const times = Float64Array.from({ length: 300 }, (_, i) => 1.9e9 + i);
  book.logs.append(log, { times, columns: { load: times.map((t) => t % 7) } }, { from: 0, to: 1 });
  const open = join(at, "open");
  await book.export(open);
  return { book, open, log };
}

async function lineOf(work: Promise<unknown>): Promise<string> {
  try {
    await work;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.message).toMatch(/^[^\n]{1,400}$/);
    return error.message;
  }
  throw new Error("nothing was refused");
}

const into = (at: string, name = "b.book") => newBook(join(at, name), null, { ports: steadyPorts(5), backups: false });

describe("a folder of open files that is none of ours", () => {
  it.each([
    "records/site.jsonl",
    "history.jsonl",
    "book.json",
    "purged.jsonl",
    "logs.jsonl",
    "logs/LOG.parquet",
    "files/FILE",
  ])("may hold no link in the place of %s: a file elsewhere is not read", async (name) => {
    const at = folder();
    const { book, open, log } = await exported(at);
    const file = name.replace("LOG", log).replace("FILE", readdirSync(join(open, "files"))[0]!);
    renameSync(join(open, file), join(at, "elsewhere"));
    symlinkSync(join(at, "elsewhere"), join(open, file));
    const other = into(at);
    expect(await lineOf(other.import(open))).toContain("a link; a plain file in the folder is expected");
    expect(other.counts().records.site).toBe(name.startsWith("logs") ? 1 : 0);
    book.close();
    other.close();
  });

  it("may hold no folder that is a link, and nothing to wait on", async () => {
    const at = folder();
    const { book, open } = await exported(at);
    renameSync(join(open, "records"), join(at, "elsewhere"));
    symlinkSync(join(at, "elsewhere"), join(open, "records"));
    const other = into(at);
    expect(await lineOf(other.import(open))).toContain("a link; a plain file in the folder is expected");
    rmSync(join(open, "records"));
    rmSync(join(open, "history.jsonl"));
    execFileSync("mkfifo", [join(open, "history.jsonl")]);
    expect(await lineOf(other.import(open))).toContain("no plain file");
    book.close();
    other.close();
  });

  it("may be reached by a link itself", async () => {
    const at = folder();
    const { book, open } = await exported(at);
    symlinkSync(open, join(at, "by-link"));
    const other = into(at);
    await other.import(join(at, "by-link"));
    expect(other.digest()).toBe(book.digest());
    book.close();
    other.close();
  });

  it.each(["../../secret", "files/../../secret", "/etc/hostname"])("may list no file by the name %j", async (name) => {
    const at = folder();
    const { book, open } = await exported(at);
    writeFileSync(join(at, "secret"), "a picture");
    const head = JSON.parse(readFileSync(join(open, "book.json"), "utf8"));
    head.files[name] = "0".repeat(64);
    writeFileSync(join(open, "book.json"), JSON.stringify(head));
    const other = into(at);
    expect(await lineOf(other.import(open))).toContain("no file of an exported book");
    book.close();
    other.close();
  });

  it("whose log calls itself by a path is refused", async () => {
    const at = folder();
    const { book, open } = await exported(at);
    writeFileSync(
      join(open, "logs.jsonl"),
      `${JSON.stringify({ log: "../../x", rows: 1, position: 0, state: null, finished: true })}\n`,
    );
    rmSync(join(open, "book.json"));
    const other = into(at);
    expect(await lineOf(other.import(open))).toContain("a UUID of version 7 is expected");
    book.close();
    other.close();
  });

  it("nested deeper than any book is told in one line, wherever it is", async () => {
    const deep = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;
    for (const [name, text] of [
      ["records/mark.jsonl", `{"id":"01970001-0000-7000-8000-000000000000","detail":${deep}}\n`],
      ["tables/mark.csv", `id,detail\r\n01970001-0000-7000-8000-000000000000,"${deep}"\r\n`],
      ["history.jsonl", `${deep}\n`],
      ["logs.jsonl", `${deep}\n`],
      ["book.json", deep],
    ] as const) {
      const at = folder();
      for (const made of ["records", "tables"]) mkdirSync(join(at, "open", made), { recursive: true });
      writeFileSync(join(at, "open/records/note.jsonl"), "");
      writeFileSync(join(at, "open", name), text);
      const other = into(at);
      expect(await lineOf(other.import(join(at, "open"))), name).toMatch(/nested too deeply/);
      other.close();
    }
  });

  it("with a record twice is told in one line", async () => {
    const at = folder();
    mkdirSync(join(at, "open/records"), { recursive: true });
    const line = '{"id":"01970001-0000-7000-8000-000000000000","text":"x"}\n';
    writeFileSync(join(at, "open/records/note.jsonl"), line + line);
    const other = into(at);
    expect(await lineOf(other.import(join(at, "open")))).toContain("given twice");
    expect(other.counts().transactions).toBe(0);
    other.close();
  });

  it("whose Parquet was mutated is told in one line, or its readings are as declared; the log stays whole", async () => {
    const at = folder();
    const { book, open, log } = await exported(at);
    rmSync(join(open, "book.json"));
    const path = join(open, `logs/${log}.parquet`);
    const bytes = readFileSync(path);
    const rng = xoroshiro128plus(20310520);
    let told = 0;
    for (let i = 0; i < 150; i++) {
      const mutated = Buffer.from(bytes);
      // Mostly in the footer, where lengths, counts and codecs stand.
      const from = i % 3 === 0 ? 0 : Math.max(0, bytes.length - 700);
      for (let k = 0; k < 1 + (i % 4); k++) mutated[uniformInt(rng, from, bytes.length - 1)] = uniformInt(rng, 0, 255);
      writeFileSync(path, i % 10 === 9 ? mutated.subarray(0, uniformInt(rng, 0, bytes.length)) : mutated);
      const other = into(at, `m${i}.book`);
      try {
        await other.import(open);
        expect(other.logs.progress(log).rows).toBe(300);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        told++;
        expect(error.message).toMatch(/^[^\n]{1,400}$/);
        expect(other.logs.progress(log).rows).toBe(0);
      }
      expect(other.check()).toMatchObject({ kind: "sound" });
      other.close();
    }
    expect(told).toBeGreaterThan(50);
    book.close();
  });
});

describe("a book with a long name in a script of three bytes a letter", () => {
  const long = "錨".repeat(77);

  it("is made, backed up, exported and restored", async () => {
    const at = folder();
    const machine = { cwd: at };
    const on = (...argv: string[]) => rodebench(["book", ...argv], {}, machine);
    expect((await on("new", `${long}.book`, "--title", "長い")).err).toBe("");
    expect(await on("backup", `${long}.book`)).toMatchObject({ status: 0, err: "" });
    expect(await on("export", `${long}.book`, long)).toMatchObject({ status: 0, err: "" });
    expect(existsSync(join(at, long, "book.json"))).toBe(true);
  });

  it.each([
    ["new", ["new", `${"錨".repeat(120)}.book`, "--title", "x"]],
    ["export", ["export", "a.book", "錨".repeat(120)]],
    ["restore", ["restore", `${long}.book`]],
    ["backup", ["backup", "a.book", "--to", `${"錨".repeat(120)}.book`]],
    ["import", ["import", "a.book", "錨".repeat(120)]],
    ["list", ["list", `${"錨".repeat(120)}.book`]],
  ])("that no disk takes is told in one line by %s", async (_name, argv) => {
    const at = folder();
    const on = (...given: string[]) => rodebench(["book", ...given], {}, { cwd: at });
    await on("new", "a.book", "--title", "x");
    await on("new", `${long}.book`, "--title", "x");
    await on("backup", `${long}.book`);
    const said = await on(...argv);
    expect(said.status).toBe(2);
    expect(said.err).toMatch(/^[^\n]+\n$/);
    expect(readdirSync(at).filter((name) => name.includes("part"))).toEqual([]);
  });
});
