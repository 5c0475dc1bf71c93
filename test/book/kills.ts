import { spawn } from "node:child_process";
import { copyFileSync, existsSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import { isGood } from "../../src/book/backup.ts";
import { type Book, newBook, openBook, systemPorts } from "../../src/book/index.ts";
import { takeInLeft } from "../../src/book/intake/live-buffer.ts";
import { VERSION, versionOf } from "../../src/book/migrate.ts";
import { openFile } from "../../src/book/open-file.ts";
import { BATCH, CHANNELS, COPIES, type Job, reading, rowsFrom } from "./kill-job.ts";

/** What one kill left behind. */
export interface Killed {
  readonly job: Job;
  readonly after_ms: number;
  /** Lines the killed program had told as done. */
  readonly done: number;
  /** What was lost or broken, in words; empty when nothing was. */
  readonly faults: readonly string[];
}

/**
 * One file of the program that is killed and all it needs: it begins its work in a fraction of the time the sources
 * would take. It lies among the packages, where it finds the compiled one.
 */
export async function buildChild(): Promise<{ path: string; remove(): void }> {
  const outDir = mkdtempSync(resolve("node_modules", ".kill-"));
  await build({
    configFile: false,
    logLevel: "error",
    build: {
      ssr: fileURLToPath(new URL("kill-child.ts", import.meta.url)),
      outDir,
      target: "node20",
      rollupOptions: { output: { entryFileNames: "child.mjs" } },
    },
    ssr: { noExternal: true, external: ["better-sqlite3"], target: "node" },
  });
  return { path: join(outDir, "child.mjs"), remove: () => rmSync(outDir, { recursive: true, force: true }) };
}

/**
 * Starts a program on a book, kills it (SIGKILL) so long after it began its work, and looks at what is left.
 *
 * @param told counted from when it has told so many pieces as done: a busy machine kills it as deep in its work as a quiet one
 */
export async function killOnce(child: string, job: Job, after_ms: number, told = 0): Promise<Killed> {
  const at = mkdtempSync(join(tmpdir(), "rodebench-kill-"));
  try {
    prepare(job, at);
    const done = await runAndKill(child, job, at, after_ms, told);
    return { job, after_ms, done: done.length, faults: await faultsLeft(job, at, done) };
  } finally {
    rmSync(at, { recursive: true, force: true });
  }
}

/** Lays out what a job works on. */
export function prepare(job: Job, at: string): void {
  if (job === "migrate") {
    for (let i = 0; i < COPIES; i++) copyFileSync(`data/books/v${(i % 3) + 1}.book`, join(at, `old${i}.book`));
    return;
  }
  if (job === "begin") return;
  const book = newBook(join(at, "a.book"), { title: "Kept" }, { who: "Ada" });
  for (let i = 0; i < 20; i++) book.add("site", { name: `kept ${i}` });
  if (job === "merge") newBook(join(at, "b.book"), { title: "Far" }).close();
  if (job === "restore" || job === "replace") book.backup();
  if (job === "replace") {
    // Enough that the pages of the book are no longer those of its backup.
    const many = Array.from({ length: 300 }, (_, i) => ({ kind: "site" as const, set: { name: `between ${i}` } }));
    book.write(many, "sites in between");
  }
  book.close();
  if (job === "restore" || job === "replace") leaveUnclosed(join(at, "a.book"));
}

/** As a kill leaves a book: its newest change lies only in the journal beside it. */
function leaveUnclosed(path: string): void {
  const book = openBook(path, { backups: false });
  book.add("note", { text: NEWEST });
  for (const end of ["", "-wal"]) copyFileSync(path + end, `${path}.kept${end}`);
  book.close();
  for (const end of ["", "-wal"]) renameSync(`${path}.kept${end}`, path + end);
}

const NEWEST = "the newest change, after the backup";

/** The book that was not closed is there whole: under its own name, or once restored over, under that of the one set aside. */
function lookForNewest(at: string, faults: string[]): void {
  const books = readdirSync(at).filter((name) => /^a\.book(\.aside-[^-]+Z(-\d+)?)?$/.test(name));
  const inodes = new Set(books.map((name) => statSync(join(at, name)).ino));
  if (inodes.size !== books.length) faults.push("two names on one file");
  const found = books.some((name) => {
    try {
      const book = openBook(join(at, name), { backups: false });
      try {
        return book.list("note").some(({ text }) => text === NEWEST);
      } finally {
        book.close();
      }
    } catch {
      return false;
    }
  });
  if (!found) faults.push("the newest change lost");
}

function runAndKill(path: string, job: Job, at: string, after_ms: number, told: number): Promise<string[]> {
  const child = spawn(process.execPath, [path, job, at], { stdio: ["ignore", "pipe", "pipe"] });
  let out = "";
  let err = "";
  let armed = false;
  child.stderr.on("data", (bytes) => {
    err += bytes;
  });
  child.stdout.on("data", (bytes) => {
    out += bytes;
    if (!armed && out.startsWith("ready\n") && out.split("\n").length - 2 >= told) {
      armed = true;
      setTimeout(() => child.kill("SIGKILL"), after_ms);
    }
  });
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (_code, signal) => {
      if (signal !== "SIGKILL") return reject(new Error(`${job} ended by itself: ${err}`));
      // A last line cut short was not told.
      resolve(out.split("\n").slice(1, -1));
    });
  });
}

/** What a stopped program lost or broke of what it had told as done, in words. */
export async function faultsLeft(job: Job, at: string, done: readonly string[]): Promise<string[]> {
  const faults: string[] = [];
  const opened = (path: string, look: (book: Book) => void): void => {
    try {
      const book = openBook(path, { backups: false });
      const soundness = book.check();
      if (soundness.kind === "damaged") faults.push(`${path}: ${soundness.why}`);
      look(book);
      book.close();
    } catch (error) {
      faults.push(`${error}`);
    }
  };
  const path = join(at, "a.book");
  if (job === "restore" || job === "replace") lookForNewest(at, faults);
  if (job === "migrate") {
    for (let i = 0; i < COPIES; i++) {
      const name = `old${i}.book`;
      const copies = readdirSync(at).filter(
        (other) => other.startsWith(`${name}.before-`) && !/\.part(-journal)?$/.test(other),
      );
      if (isForward(join(at, name)) && copies.length === 0)
        faults.push(`${name}: taken forward, and no copy of it as it was`);
      for (const copy of copies) if (!isGood(join(at, copy), systemPorts)) faults.push(`${copy} is not good`);
      opened(join(at, name), (book) => {
        if (book.about().title !== "Ebb Cove trials (invented)" || book.list("pull").length !== 1)
          faults.push(`old${i}: records lost`);
      });
    }
    return faults;
  }
  if (job === "begin") {
    for (let i = 0; i <= done.length; i++) {
      const made = join(at, `new${i}.book`);
      if (i < done.length || existsSync(made))
        opened(made, (book) => void (book.about().title !== `${i}` && faults.push(`new${i}: another title`)));
    }
    return faults;
  }
  opened(path, (book) => {
    const names = new Set(book.list("site", { hidden: "with" }).map((s) => s.name));
    for (let i = 0; i < 20; i++) if (!names.has(`kept ${i}`)) faults.push(`site kept ${i} lost`);
    if (job === "write") for (const id of done) if (!book.get("site", id)) faults.push(`site ${id} lost`);
    if (job === "replace") for (const id of done.slice(1)) if (!book.get("site", id)) faults.push(`site ${id} lost`);
    if (job === "merge" && book.list("site").length - 20 < Number(done.at(-1) ?? 0)) faults.push("merged sites lost");
    if (job === "merge" && (book.list("site").length - 20) % 20 !== 0) faults.push("a merge taken in by half");
    if (job === "record" || job === "import") lookAtRows(book, job, Number(done.at(-1) ?? -1), faults);
    if (job === "live") lookAtBuffer(book, Number(done.at(-1) ?? -1), faults);
    if (job === "backup") {
      const backups = book.backups();
      const last = done.slice(-9);
      for (const name of last) if (!backups.some((b) => b.name === name)) faults.push(`backup ${name} lost`);
      for (const backup of backups)
        if (!isGood(backup.path, systemPorts)) faults.push(`backup ${backup.name} is not good`);
    }
  });
  if (readdirSync(at).includes("a.book") === false) faults.push("the book's name stands for nothing");
  return faults;
}

function isForward(path: string): boolean {
  const { driver } = openFile(path, { readOnly: true });
  try {
    return versionOf(driver) === VERSION;
  } finally {
    driver.close();
  }
}

/** Every reading told to be on disk beside the book is taken in, once, in order. */
function lookAtBuffer(book: Book, acknowledged: number, faults: string[]): void {
  for (const told of takeInLeft(book)) if (!told.endsWith("are in it now")) faults.push(told);
  const log = book.list("log")[0];
  let i = 0;
  if (log)
    for (const part of book.logs.rows(log.id))
      for (let r = 0; r < part.times.length; r++, i++)
        if (part.times[r] !== reading(i).t || part.columns.load![r] !== reading(i).load)
          faults.push(`reading ${i} is another`);
  if (i <= acknowledged) faults.push(`${acknowledged + 1} readings told, ${i} left`);
}

/** Every acknowledged row is there; the source read on to its end is there once, in order, to the last bit. */
function lookAtRows(book: Book, job: Job, acknowledged: number, faults: string[]): void {
  const { log, rows, position } = book.logs.open({ name: "cell", channels: CHANNELS, fingerprint: "f" });
  if (rows < acknowledged + 1) faults.push(`${acknowledged + 1} rows acknowledged, ${rows} left`);
  if (job === "import" && position !== rows) faults.push(`position ${position}, rows ${rows}`);
  let from = rows;
  const end = rows + 2 * BATCH + 9;
  for (; from < end; from += 100) {
    const count = Math.min(100, end - from);
    if (job === "record") book.logs.record(log, rowsFrom(from, count));
    else book.logs.append(log, rowsFrom(from, count), { from, to: from + count });
  }
  book.logs.finish(log);
  let i = 0;
  for (const part of book.logs.rows(log))
    for (let r = 0; r < part.times.length; r++, i++) {
      const { t, load, angle } = reading(i);
      if (part.times[r] !== t || part.columns.load![r] !== load || part.columns.angle![r] !== angle) {
        faults.push(`row ${i} is another`);
        return;
      }
    }
  if (i !== end) faults.push(`${i} rows where ${end} are expected`);
}
