import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type Book, newBook, openBook } from "../../../src/book/index.ts";
import {
  type CaptureOptions,
  captureLive,
  type LiveReading,
  type LiveTrouble,
} from "../../../src/book/intake/capture-live.ts";
import { liveSource, tcpSource } from "../../../src/book/intake/live-source.ts";
import { readColumnChoice } from "../../../src/log/choices.ts";
import { Instrument } from "./instrument.ts";

let folder: string;
let book: Book;
let instrument: Instrument;
const LBF = 4.4482216152605;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "rodebench-live-"));
  book = newBook(join(folder, "live.book"), { title: "Live" });
  instrument = await new Instrument().start();
});
afterEach(async () => {
  await instrument.stop();
  book.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Starts a capture; `until` waits until so many readings were shown. */
function capture(options: Partial<CaptureOptions> = {}) {
  const stop = new AbortController();
  const shown: LiveReading[] = [];
  const troubles: LiveTrouble[] = [];
  let clock = 1716459630000;
  const ended = captureLive(book, tcpSource("127.0.0.1", instrument.port, 20), {
    now: () => (clock += 100),
    signal: stop.signal,
    onReading: (reading) => shown.push(reading),
    onTrouble: (trouble) => troubles.push(trouble),
    ...options,
  });
  const until = async (count: number) => {
    while (shown.length < count) await new Promise((done) => setTimeout(done, 5));
  };
  return { stop, shown, troubles, ended, until };
}

const lines = (from: number, to: number, line: (i: number) => string) =>
  Array.from({ length: to - from }, (_, i) => `${line(from + i)}\r\n`).join("");

test("each reading is on disk before it is shown", async () => {
  const other = openBook(book.path, { readOnly: true, backups: false });
  let checked = 0;
  const { stop, shown, ended, until } = capture({
    onReading: (reading) => {
      const log = other.list("log")[0]!.id;
      // Another connection to the same file sees only what has been written.
      const rows = [...other.logs.rows(log)].flatMap((chunk) => [...chunk.columns.load!]);
      expect(rows[reading.rows - 1]).toBe(Math.fround(reading.values.load!));
      checked++;
      shown.push(reading);
    },
  });
  await instrument.heard();
  await instrument.send(lines(0, 20, (i) => `${(i * 1.5).toFixed(1)} lbf`));
  await until(19);
  await instrument.send(lines(20, 30, (i) => `${(i * 1.5).toFixed(1)} lbf`));
  await until(29);
  stop.abort();
  const answer = await ended;
  expect(answer).toMatchObject({ kind: "captured", rows: 29, rejected: 0 });
  expect(checked).toBe(29);
  // The first line may have begun before anyone listened.
  expect(shown.map((reading) => reading.values.load)).toEqual(
    Array.from({ length: 29 }, (_, i) => (i + 1) * 1.5 * LBF),
  );
  expect(book.logs.progress((answer as { log: string }).log).kind).toBe("finished");
  other.close();
});

test("a line that arrives in pieces is one reading", async () => {
  const { stop, shown, ended, until } = capture();
  await instrument.heard();
  await instrument.send(lines(0, 10, (i) => `${i}.5 kN`));
  await until(9);
  for (const piece of ["12", ".2", "5 k", "N\r", "\n"]) {
    await instrument.send(piece);
    await new Promise((done) => setTimeout(done, 5));
  }
  await until(10);
  stop.abort();
  await ended;
  expect(shown.at(-1)?.values).toEqual({ load: 12250 });
});

test("a stream without units asks for them", async () => {
  const { ended } = capture();
  await instrument.heard();
  await instrument.send(lines(0, 10, (i) => `${i}.5`));
  expect(await ended).toMatchObject({ kind: "asks", guess: { questions: [{ about: "unit" }] } });
  expect(book.list("log")).toEqual([]);
});

test("it asks even when nothing more comes", async () => {
  const { ended } = capture({ patience_ms: 150 });
  await instrument.heard();
  await instrument.send(lines(0, 4, (i) => `${i}.5`));
  expect((await ended).kind).toBe("asks");
});

test("a few lines without a reading are refused even when nothing more comes", async () => {
  const { ended } = capture({ patience_ms: 150 });
  await instrument.heard();
  await instrument.send("hello\r\nwho is there\r\nnobody\r\n");
  await expect(ended).rejects.toThrow(
    /: hello; lines with readings, NMEA 0183 sentences or Signal K deltas are expected$/,
  );
});

test("told, it is read", async () => {
  const { stop, shown, ended, until } = capture({ told: { columns: [readColumnChoice("load=1:kN", "--map")] } });
  await instrument.heard();
  await instrument.send(lines(0, 10, (i) => `${i}.5`));
  await until(9);
  stop.abort();
  await ended;
  expect(shown[0]?.values.load).toBe(1500);
});

test("sentences are read as they come; a wrong checksum is told", async () => {
  const { stop, shown, troubles, ended, until } = capture();
  await instrument.heard();
  await instrument.send(lines(0, 9, () => "$WIMWV,214.8,R,0.1,K,A*28"));
  await instrument.send("$INDPT,2.3,0.0*47\r\n$INDPT,2.3,0.0*46\r\n");
  await until(9);
  stop.abort();
  await ended;
  expect(shown.at(-1)?.values).toEqual({ depthBelowTransducer: 2.3 });
  expect(troubles).toEqual([expect.objectContaining({ expected: "the checksum *46 of these bytes is expected" })]);
});

test("a stream that is lost is reached again, half a line left out", async () => {
  const { stop, shown, troubles, ended, until } = capture();
  await instrument.heard();
  await instrument.send(`${lines(0, 10, (i) => `${i} N`)}123`);
  await until(9);
  instrument.drop();
  await instrument.heard();
  await instrument.send(lines(100, 105, (i) => `${i} N`));
  await until(13);
  stop.abort();
  expect(await ended).toMatchObject({ rows: 13, rejected: 0 });
  expect(shown.map((reading) => reading.values.load)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 101, 102, 103, 104]);
  expect(troubles[0]?.value).toMatch(/was lost/);
});

test("a few lines are judged once patience ends", async () => {
  const { stop, ended, until } = capture({ patience_ms: 150 });
  await instrument.heard();
  await instrument.send(lines(0, 4, (i) => `${i} N`));
  await until(3);
  stop.abort();
  expect(await ended).toMatchObject({ rows: 3 });
});

test("a device is read until it ends", async () => {
  const path = join(folder, "device");
  writeFileSync(
    path,
    lines(0, 50, (i) => `${i} lbf`),
  );
  const answer = await captureLive(book, liveSource(path), { now: Date.now, signal: new AbortController().signal });
  expect(answer).toMatchObject({ kind: "captured", rows: 49 });
});

test("an instrument that is not there is told in one line", async () => {
  await instrument.stop();
  const { ended } = capture();
  await expect(ended).rejects.toThrow(
    /^127\.0\.0\.1:\d+: cannot be reached \(ECONNREFUSED\); an instrument that sends text there is expected$/,
  );
  instrument = await new Instrument().start();
});

test("what is no address is told", () => {
  expect(() => liveSource("instrument")).toThrow(/--live: "instrument"; host:port/);
  expect(() => liveSource("host:99999")).toThrow(/host:port/);
});
