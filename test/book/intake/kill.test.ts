import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { writeLargeLog } from "../../../scripts/make-log.ts";
import { newBook, openBook } from "../../../src/book/index.ts";
import { importLog } from "../../../src/book/intake/import-log.ts";
import { waitFor } from "../../support/wait-for.ts";
import { Instrument } from "./instrument.ts";

let folder: string;
let book: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "rodebench-kill-"));
  book = join(folder, "a.book");
  newBook(book, { title: "Killed" }).close();
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Runs `rodebench log …` as a process of its own; `kill` is SIGKILL: nothing is tidied up. */
function rodebench(words: readonly string[]) {
  const child = spawn(process.execPath, ["--import", "tsx", "src/cli/main.ts", "log", ...words], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let out = "";
  let err = "";
  child.stdout.on("data", (bytes) => {
    out += bytes;
  });
  child.stderr.on("data", (bytes) => {
    err += bytes;
  });
  const ended = new Promise<void>((done) => child.on("close", () => done()));
  return {
    kill: () => child.kill("SIGKILL"),
    running: () => child.exitCode === null,
    ended,
    out: () => out,
    err: () => err,
  };
}

/** Size of the journal beside a book, bytes. */
const journal = (path: string) => (existsSync(`${path}-wal`) ? statSync(`${path}-wal`).size : 0);

function rowsIn(path: string): { times: number[]; loads: number[] } {
  const open = openBook(path);
  expect(open.check().kind).not.toBe("damaged");
  const times: number[] = [];
  const loads: number[] = [];
  for (const log of open.list("log"))
    for (const chunk of open.logs.rows(log.id)) {
      times.push(...chunk.times);
      loads.push(...chunk.columns.load!);
    }
  open.close();
  return { times, loads };
}

test("an import killed again and again ends with each row once", async () => {
  const ROWS = 600_000;
  const file = join(folder, "big.csv");
  await writeLargeLog(file, ROWS, 5);
  // Killed in the middle, three times on one book. A kill that came too late, the import being through, begins anew.
  for (let inTheMiddle = 0; inTheMiddle < 3; ) {
    const run = rodebench([file, "--into", book]);
    // The journal beside the book grows with the first batch: from there on, each time a little later.
    const before = journal(book);
    await waitFor(() => journal(book) > before + 100_000 + inTheMiddle * 300_000 || !run.running());
    run.kill();
    await run.ended;
    const rows = rowsIn(book).times.length;
    if (rows > 0 && rows < ROWS) inTheMiddle++;
    if (rows < ROWS) continue;
    inTheMiddle = 0;
    rmSync(book);
    newBook(book, { title: "Killed" }).close();
  }
  const open = openBook(book);
  const last = await importLog(open, file);
  expect(["imported", "already"]).toContain(last.kind);
  open.close();
  const killed = rowsIn(book);
  const whole = join(folder, "whole.book");
  const other = newBook(whole, { title: "Whole" });
  await importLog(other, file);
  other.close();
  const expected = rowsIn(whole);
  expect(killed.times.length).toBe(ROWS);
  expect(killed.times.findIndex((t, i) => t !== expected.times[i])).toBe(-1);
  expect(killed.loads.findIndex((load, i) => load !== expected.loads[i])).toBe(-1);
});

test("a live capture killed at any moment has every reading it showed", async () => {
  for (let n = 0; n < 3; n++) {
    const instrument = await new Instrument().start();
    const path = join(folder, `live-${n}.book`);
    newBook(path, { title: "Live" }).close();
    const run = rodebench(["--live", `127.0.0.1:${instrument.port}`, "--into", path]);
    await instrument.heard();
    let sent = 0;
    // Killed at some moment after so many readings were shown, counted and not timed: a busy machine changes nothing.
    const shownBefore = () => run.out().split("\n").length - 1;
    await waitFor(async () => {
      await instrument.send(`${(sent++).toFixed(1)} N\n`);
      return shownBefore() > 5 + n * 30 || !run.running();
    });
    run.kill();
    await run.ended;
    await instrument.stop();
    // A last line cut short was not shown.
    const shown = run
      .out()
      .split("\n")
      .slice(0, -1)
      .map((line) => Number(/load ([\d.]+)/.exec(line)![1]));
    const { loads } = rowsIn(path);
    expect(shown.length, run.err()).toBeGreaterThan(0);
    expect(loads.slice(0, shown.length)).toEqual(shown);
    // Every reading after the first line, in order, none twice.
    expect(loads).toEqual(Array.from({ length: loads.length }, (_, i) => i + 1));
  }
});
