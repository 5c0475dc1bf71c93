import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type Book, newBook, takeInLeft } from "../../../src/book/index.ts";
import { type Captured, captureLive, type LiveReading } from "../../../src/book/intake/capture-live.ts";
import { LiveBuffer, takeIn } from "../../../src/book/intake/live-buffer.ts";
import { tcpSource } from "../../../src/book/intake/live-source.ts";
import { liveTroubleText } from "../../../src/cli/log-text.ts";
import { waitFor } from "../../support/wait-for.ts";
import { Instrument } from "./instrument.ts";

let folder: string;
let book: Book;
let instrument: Instrument;
let other: Database.Database;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "live-lock-"));
  book = newBook(join(folder, "live.book"), { title: "Live" });
  other = new Database(book.path);
  instrument = await new Instrument().start();
});
afterEach(async () => {
  await instrument.stop();
  other.close();
  book.close();
  rmSync(folder, { recursive: true, force: true });
});

function capture() {
  const stop = new AbortController();
  const shown: LiveReading[] = [];
  const told: string[] = [];
  const ended = captureLive(book, tcpSource("127.0.0.1", instrument.port, 20), {
    now: Date.now,
    signal: stop.signal,
    retry_ms: 20,
    onReading: (reading) => shown.push(reading),
    onTrouble: (trouble) => told.push(liveTroubleText(trouble)),
  });
  return { stop, shown, told, ended, until: (count: number) => waitFor(() => shown.length >= count) };
}

const loads = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => from + i);
const lines = (from: number, to: number) =>
  loads(from, to)
    .map((i) => `${i} N\r\n`)
    .join("");
const buffers = () => readdirSync(folder).filter((name) => name.includes(".live-"));
const kept = (log: string | null) => [...book.logs.rows(log!)].flatMap((rows) => [...rows.columns.load!]);

test("a lock held by another program ends no capture: readings are kept beside the book and then go into it", async () => {
  const { stop, shown, told, ended, until } = capture();
  await instrument.heard();
  await instrument.send(lines(0, 10));
  await until(9);
  other.exec("BEGIN IMMEDIATE");
  await instrument.send(lines(10, 20));
  await until(19);
  await instrument.send(lines(20, 30));
  await until(29);
  // What was shown is on disk, if not in the book.
  const [buffer] = buffers();
  expect(readFileSync(join(folder, buffer!), "utf8").trimEnd().split("\n")).toHaveLength(1 + 20);
  expect(told).toEqual([
    expect.stringMatching(
      /live\.book: another program is writing to it; readings are kept beside it, in live\.book\.live-/,
    ),
  ]);
  other.exec("ROLLBACK");
  await waitFor(() => told.length === 2);
  expect(told[1]).toBe("the book can be written again; the 20 readings kept beside it are in it now");
  await instrument.send(lines(30, 35));
  await until(34);
  stop.abort();
  const answer = (await ended) as Captured & { kind: "captured" };
  expect(answer).toMatchObject({ kind: "captured", rows: 34, waiting: 0, rejected: 0 });
  expect(kept(answer.log)).toEqual(loads(1, 35));
  expect(shown.map(({ rows }) => rows)).toEqual(loads(1, 35));
  expect(buffers()).toEqual([]);
});

test("a lock held from before the first reading to after the last leaves them all beside the book", async () => {
  other.exec("BEGIN IMMEDIATE");
  const { stop, ended, until } = capture();
  await instrument.heard();
  await instrument.send(lines(0, 12));
  await until(11);
  stop.abort();
  expect(await ended).toEqual({ kind: "captured", log: null, rows: 11, waiting: 11, rejected: 0 });
  other.exec("ROLLBACK");
  // A process that runs keeps its buffer to itself; one that is gone does not.
  expect(takeInLeft(book)).toEqual([]);
  const path = join(folder, buffers()[0]!);
  const gone = spawnSync(process.execPath, ["-e", ""]).pid;
  writeFileSync(path, readFileSync(path, "utf8").replace(`"process":${process.pid}`, `"process":${gone}`));
  expect(takeInLeft(book)).toEqual([
    expect.stringMatching(/: 11 live readings that were kept beside the book are in it now$/),
  ]);
  const [log] = book.list("log");
  expect([book.logs.progress(log!.id).kind, kept(log!.id), buffers()]).toEqual(["finished", loads(1, 12), []]);
});

const set = {
  name: "cell",
  fingerprint: "live:test",
  channels: [{ name: "load", quantity: "load", unit: "N", precision: "single" as const }],
};
const rowsOf = (values: readonly number[]) => ({
  times: Float64Array.from(values, (i) => 1e9 + i),
  columns: { load: Float64Array.from(values) },
});

test("taken in after being broken off anywhere, each reading is in the book once", () => {
  for (const done of [0, 1, 7, 19, 20]) {
    const own = { ...set, fingerprint: `live:${done}` };
    const { log } = book.logs.open(own);
    book.logs.record(log, rowsOf([100, 101]));
    const buffer = new LiveBuffer(book, own, 2);
    buffer.append(rowsOf(loads(0, 12)));
    buffer.append(rowsOf(loads(12, 20)));
    buffer.close();
    if (done > 0) book.logs.record(log, rowsOf(loads(0, done)));
    expect(takeIn(book, buffer.path)).toEqual({ log, rows: 22, taken: 20 - done });
    expect(kept(log)).toEqual([100, 101, ...loads(0, 20)]);
  }
});

test("cut off at any byte, every whole reading is taken in", () => {
  const buffer = new LiveBuffer(book, set, 0);
  buffer.append({ times: new Float64Array([1, 2, 3]), columns: { load: new Float64Array([1.5, Number.NaN, 3]) } });
  buffer.close();
  const whole = readFileSync(buffer.path, "utf8");
  const head = whole.indexOf("\n") + 1;
  for (let at = head; at <= whole.length; at++) {
    const text = whole.slice(0, at);
    const path = join(folder, `cut-${at}.jsonl`);
    writeFileSync(path, text.replace("live:test", `live:${at}`));
    const { log } = takeIn(book, path);
    expect(kept(log)).toEqual([1.5, Number.NaN, 3].slice(0, text.slice(head).split("\n").length - 1));
  }
});

test("torn by a power cut, with a later piece of the last write on disk and an earlier one not, every reading told is taken in", () => {
  const buffer = new LiveBuffer(book, set, 0);
  buffer.append({ times: new Float64Array([1, 2]), columns: { load: new Float64Array([1.5, 2.5]) } });
  const told = readFileSync(buffer.path).length;
  buffer.append({ times: new Float64Array([3, 4, 5]), columns: { load: new Float64Array([3.5, 4.5, 5.5]) } });
  buffer.close();
  const torn = readFileSync(buffer.path).fill(0, told, told + 5);
  writeFileSync(buffer.path, torn);
  const { log } = takeIn(book, buffer.path);
  expect(kept(log)).toEqual([1.5, 2.5]);
});

test.skipIf(process.platform !== "linux")(
  "a number of a process that is another's since the machine was started again keeps no readings out",
  () => {
    const buffer = new LiveBuffer(book, set, 0);
    buffer.append({ times: new Float64Array([1]), columns: { load: new Float64Array([1.5]) } });
    buffer.close();
    expect(takeInLeft(book)).toEqual([]);
    const text = readFileSync(buffer.path, "utf8");
    writeFileSync(buffer.path, text.replace(/"boot":"[^"]+"/, '"boot":"an earlier start"'));
    expect(takeInLeft(book)).toEqual([
      expect.stringContaining("1 live readings that were kept beside the book are in it now"),
    ]);
  },
);

test("what is no buffer is told in one line and left alone", () => {
  const path = `${book.path}.live-${book.context.newId()}.jsonl`;
  for (const text of [
    "nothing\n",
    "{}\n",
    `${"[".repeat(1000)}\n`,
    '{"format":"rodebench/live-buffer@1","process":0}\n',
  ]) {
    writeFileSync(path, text);
    const told = takeInLeft(book);
    expect(told).toHaveLength(1);
    expect(told[0]).not.toContain("\n");
    expect(readFileSync(path, "utf8")).toBe(text);
  }
});
