import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { exampleLogs, writeLargeLog } from "../../../scripts/make-log.ts";
import { newBook, openBook } from "../../../src/book/index.ts";
import { type Machine, rodebench } from "../../support/command-line.ts";
import { schemaTroubles } from "../../support/schema-troubles.ts";
import { waitFor } from "../../support/wait-for.ts";
import { Instrument } from "./instrument.ts";

const EXAMPLES = resolve("data/examples/logs");
let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "rodebench-log-"));
  newBook(join(folder, "a.book"), { title: "Logs" }).close();
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Runs `rodebench log …` in the folder. */
const log = (words: readonly string[], machine: Machine = {}) =>
  rodebench(["log", ...words], {}, { cwd: folder, ...machine });

const put = (name: string, content: string | Uint8Array) => writeFileSync(join(folder, name), content);
const table = "Time (s),Load (kN)\n0,1\n1,2\n2,3\n";

describe("rodebench log", () => {
  test("reads files into the book and says what came of each", async () => {
    put("a.csv", table);
    put("b.csv", `${table}x,4\n`.replaceAll(",", ";"));
    const { out, err, status } = await log(["a.csv", "b.csv", "--into", "a.book"]);
    expect([status, err]).toEqual([0, ""]);
    expect(out).toMatch(/^a\.csv: 3 rows in log [0-9a-f-]{36}; times since a start that is not stated/);
    expect(out).toMatch(
      /b\.csv: 3 rows in log .*\n {2}1 line not read\n {4}line 5: "x;4"; a time as elapsed-s is expected\n$/,
    );
    const again = await log(["a.csv", "--into", "a.book"]);
    expect(again.out).toMatch(/^a\.csv: in the book already, 3 rows in log .*; nothing was read\n$/);
  });

  test("answers one JSON document", async () => {
    put("a.csv", table);
    const { out, err, status } = await log(["a.csv", "--into", "a.book", "--json"]);
    expect([status, err]).toEqual([0, ""]);
    expect(JSON.parse(out)).toMatchObject({
      format: "rodebench/logs@1",
      files: [{ file: "a.csv", kind: "imported", rows: 3, clock: "elapsed", troubles: { rejected: 0 } }],
    });
  });

  test("previews without a book, and reads nothing in", async () => {
    const { out, status } = await log([join(EXAMPLES, "windows-1252.csv"), "--preview", "--json"]);
    expect(status).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      format: "rodebench/log-guess@1",
      files: [
        {
          kind: "table",
          ready: true,
          encoding: { value: "windows-1252" },
          delimiter: { value: "semicolon" },
          decimal: { value: "," },
          columns: [
            { as: "time", unit: "elapsed-s" },
            { as: "load", unit: "daN" },
            { as: "angle", unit: "deg" },
          ],
        },
      ],
    });
    put("a.csv", table);
    await log(["a.csv", "--preview", "--into", "a.book"]);
    const book = openBook(join(folder, "a.book"));
    expect(book.list("log")).toEqual([]);
    book.close();
  });

  test("every example that asks is read once it is told", async () => {
    for (const { file, told, loads } of exampleLogs().filter((example) => example.told !== undefined)) {
      const path = join(EXAMPLES, file);
      const asked = await log([path, "--into", "a.book"]);
      expect(asked.status, file).toBe(2);
      expect(asked.err, file).toMatch(/is expected\n$/);
      expect((await log([path, "--into", "a.book", "--name", file, ...told!])).out, file).toContain(
        `${loads.length} rows`,
      );
    }
  });

  test("a file that cannot be read keeps no other out; the status says so", async () => {
    put("a.csv", table);
    put("words.txt", "nothing here\n");
    const { out, err, status } = await log(["words.txt", "a.csv", "--into", "a.book"]);
    expect(status).toBe(2);
    expect(out).toContain("a.csv: 3 rows");
    expect(err).toBe(
      "words.txt: no rows of numbers; a log as CSV, NMEA 0183, Signal K, GPX or time marks is expected\n",
    );
  });

  test("standard input is a file like others", async () => {
    const { out, status } = await log(["-", "--into", "a.book"], {
      pieces: async () => ({
        bytes: (async function* () {
          yield Buffer.from(table);
        })(),
      }),
    });
    expect(status).toBe(0);
    expect(out).toMatch(/^standard input: 3 rows/);
  });

  test("ctrl-c stops between rows, and the same command goes on", async () => {
    await writeLargeLog(join(folder, "big.csv"), 300_000, 3);
    const stop = new AbortController();
    const wal = join(folder, "a.book-wal");
    // Once the first rows are on disk; the reading gives way to this between any two pieces of the file.
    void waitFor(() => (statSync(wal, { throwIfNoEntry: false })?.size ?? 0) > 200_000).then(() => stop.abort());
    const first = await log(["big.csv", "--into", "a.book"], { stop: stop.signal });
    expect(first.status).toBe(0);
    expect(first.out).toMatch(/^big\.csv: stopped at \d+ %, \d+ rows in log .*; the same command goes on\n$/);
    const second = await log(["big.csv", "--into", "a.book"]);
    expect(second.out).toMatch(/300000 rows/);
    const book = openBook(join(folder, "a.book"));
    expect(book.list("log").map((one) => book.logs.progress(one.id).rows)).toEqual([300_000]);
    book.close();
  });

  test("live readings are shown as they are kept, in the units asked for", async () => {
    const instrument = await new Instrument().start();
    const stop = new AbortController();
    let shown = 0;
    const running = log(["--live", `127.0.0.1:${instrument.port}`, "--into", "a.book", "--units", "us"], {
      stop: stop.signal,
      heard: (text) => {
        shown += text.split("\n").length - 1;
        if (shown === 9) stop.abort();
      },
    });
    await instrument.heard();
    await instrument.send(Array.from({ length: 10 }, (_, i) => `${i}.5 lbf\n`).join(""));
    const { out, err, status } = await running;
    await instrument.stop();
    expect(status).toBe(0);
    expect(out.split("\n")[0]).toMatch(/^\d{4}-\d\d-\d\dT[\d:.]+Z {2}load 1\.5(0000)? lbf$/);
    expect(err).toMatch(/9 readings kept in log/);
  });
});

test("live readings are told as one JSON document that holds to its schema", async () => {
  const instrument = await new Instrument().start();
  const stop = new AbortController();
  const running = log(["--live", `127.0.0.1:${instrument.port}`, "--into", "a.book", "--json"], { stop: stop.signal });
  await instrument.heard();
  await instrument.send(Array.from({ length: 10 }, (_, i) => `${i}.5 lbf\n`).join(""));
  await waitFor(() => {
    const book = openBook(join(folder, "a.book"), { backups: false });
    const rows = book.list("log").map(({ id }) => book.logs.progress(id).rows);
    book.close();
    return rows[0] === 9;
  });
  stop.abort();
  const { out, status } = await running;
  await instrument.stop();
  expect(status).toBe(0);
  const document = JSON.parse(out);
  expect(document).toMatchObject({ format: "rodebench/live@1", kind: "captured", rows: 9, waiting: 0 });
  expect(schemaTroubles("live@1", document)).toEqual([]);
});

describe("wrong words are told in one line", () => {
  test.each<[readonly string[], RegExp]>([
    [[], /^log: nothing given; log files, or --live with a source, are expected/],
    [["a.csv"], /^--into: nothing given; a book is expected/],
    [["none.csv", "--into", "a.book"], /^none\.csv: no such file; a readable file is expected/],
    [[".", "--into", "a.book"], /^\.: a folder; a readable file is expected/],
    [["a.csv", "--into", "none.book"], /none\.book: no such file; a book is expected/],
    [["a.csv", "--into", "a.book", "--map", "load"], /^--map: "load"; ROLE=COLUMN\[:UNIT\] is expected/],
    [["a.csv", "--into", "a.book", "--map", "pull=2"], /^--map: "pull" is no role of a column; /],
    [["a.csv", "--into", "a.book", "--map", "load=2:stone"], /^--map: "stone" is no unit of load; one of N, daN, kN/],
    [["a.csv", "--into", "a.book", "--map", "load=2:m"], /^--map: "m" is no unit of load/],
    [["a.csv", "--into", "a.book", "--map", "time=1:sundial"], /^--map: "sundial" is no format of a time; one of ymd/],
    [
      ["a.csv", "--into", "a.book", "--map", "load=9:kN"],
      /^a\.csv: --map: "9"; a column of the file is expected: Time \(s\), Load \(kN\)/,
    ],
    [
      ["a.csv", "--into", "a.book", "--map", "load=Pull:kN"],
      /^a\.csv: --map: "Pull"; a column of the file is expected/,
    ],
    [
      ["a.csv", "--into", "a.book", "--map", "time=1:dmy"],
      /^a\.csv: --map time: column "Time \(s\)" holds "0"; times as dmy are expected there/,
    ],
    [["a.csv", "--into", "a.book", "--delimiter", "dash"], /^--delimiter: "dash"; one of comma/],
    [["a.csv", "--into", "a.book", "--decimal", "dot"], /--decimal/],
    [["a.csv", "--into", "a.book", "--zone", "summer"], /^--zone: "summer"; a zone is expected/],
    [["a.csv", "--into", "a.book", "--start", "3 May"], /^--start: "3 May"; a day or moment/],
    [["a.csv", "--into", "a.book", "--rate", "0"], /^--rate: "0"; rows a second, above zero, are expected/],
    [["a.csv", "b.csv", "--into", "a.book", "--name", "x"], /^--name: "x"; one file is expected with it/],
    [["a.csv", "--into", "a.book", "--pull", "nobody"], /pull.*nobody/],
    [["--live", "nowhere", "--into", "a.book"], /^--live: "nowhere"; host:port/],
    [["a.csv", "--live", "localhost:1", "--into", "a.book"], /^--live: "a\.csv"; either files or --live is expected/],
    [["--live", "127.0.0.1:1", "--into", "a.book"], /^127\.0\.0\.1:1: cannot be reached/],
  ])("%j", async (words, line) => {
    put("a.csv", table);
    put("b.csv", table);
    const { out, err, status } = await log(words);
    expect(status).toBe(2);
    expect(err).toMatch(line);
    expect(err.trimEnd()).not.toContain("\n");
    expect(out.trim()).toBe("");
  });
});

describe("docs/logs.md", () => {
  const page = readFileSync("docs/logs.md", "utf8");
  const blocks = [...page.matchAll(/```console\n\$ rodebench log (.*?)\n(.*?)```/gs)].map(([, words, out]) => ({
    words: words!,
    out: out!,
  }));
  test("has examples", () => expect(blocks.length).toBeGreaterThan(1));
  test.each(blocks)("$words", async ({ words, out }) => {
    const said = await log(words.split(" "), { cwd: process.cwd() });
    expect([said.out, said.err, said.status]).toEqual([out, "", 0]);
  });
});
