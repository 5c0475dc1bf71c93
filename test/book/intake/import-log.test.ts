import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { exampleLogs, writeLargeLog } from "../../../scripts/make-log.ts";
import { type Book, newBook } from "../../../src/book/index.ts";
import { importLog } from "../../../src/book/intake/import-log.ts";
import { previewLog } from "../../../src/book/intake/preview-log.ts";
import { choices } from "../../log/read-table.ts";

let folder: string;
let book: Book;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "rodebench-intake-"));
  book = newBook(join(folder, "test.book"), { title: "Intake" });
});
afterEach(() => {
  book.close();
  rmSync(folder, { recursive: true, force: true });
});

const put = (name: string, content: string | Uint8Array) => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

/** All rows of a log in the book. */
function rowsOf(log: string): { times: number[]; columns: Record<string, number[]> } {
  const times: number[] = [];
  const columns: Record<string, number[]> = {};
  for (const chunk of book.logs.rows(log)) {
    times.push(...chunk.times);
    for (const [name, values] of Object.entries(chunk.columns)) {
      columns[name] ??= [];
      columns[name].push(...values);
    }
  }
  return { times, columns };
}

async function imported(path: string, options: Parameters<typeof importLog>[2] = {}) {
  const answer = await importLog(book, path, options);
  if (answer.kind !== "imported") throw new Error(`not imported: ${JSON.stringify(answer)}`);
  return answer;
}

describe("every example log", () => {
  test.each(exampleLogs())(
    "$file stands in the book with its true loads and times",
    async ({ file, bytes, times, loads, told }) => {
      const answer = await imported(put(file, bytes), { told: choices(told ?? []) });
      expect(answer.rows).toBe(times.length);
      const rows = rowsOf(answer.log);
      expect(rows.times.every((t, i) => Math.abs(t - times[i]!) <= 1e-5)).toBe(true);
      // Loads are kept in single precision: 24 bits, half a step of which is 6e-8 of the value.
      expect(rows.columns.load!.every((v, i) => Math.abs(v - loads[i]!) <= 6e-8 * Math.abs(loads[i]!))).toBe(true);
    },
  );
});

const table = (from: number, to: number, header = "Time,Load (kN)") =>
  `${header}\n${Array.from({ length: to - from }, (_, i) => `2024-05-23T10:00:${String(from + i).padStart(2, "0")}Z,${(1 + (from + i) / 100).toFixed(2)}\n`).join("")}`;

describe("nothing is imported twice", () => {
  test("the same file again, under another name, adds nothing", async () => {
    const first = await imported(put("a.csv", table(0, 20)));
    expect(await importLog(book, put("b.csv", table(0, 20)))).toEqual({ kind: "already", log: first.log, rows: 20 });
    expect(book.list("log").length).toBe(1);
  });

  test("a file that has grown adds what is new, in a log that says what it continues", async () => {
    const first = await imported(put("a.csv", table(0, 20)));
    const second = await imported(put("a.csv", table(0, 30)));
    expect(second.rows).toBe(10);
    expect(rowsOf(second.log).times.map((t) => t % 60)).toEqual(Array.from({ length: 10 }, (_, i) => 20 + i));
    expect(book.get("log", second.log)?.mapping).toMatchObject({ continues: first.log });
    expect((await importLog(book, put("a.csv", table(0, 30)))).kind).toBe("already");
  });

  test("an export that overlaps an earlier one adds the rows whose stamps are new", async () => {
    await imported(put("a.csv", table(0, 20)));
    const second = await imported(put("b.csv", table(10, 35)));
    expect(second).toMatchObject({ rows: 15, known: 10 });
    const third = await imported(put("c.csv", table(5, 50)));
    expect(third).toMatchObject({ rows: 15, known: 30 });
  });

  test("equal stamps with other readings are other rows", async () => {
    await imported(put("a.csv", table(0, 20)));
    const other = table(0, 20).replaceAll("Z,1", "Z,2");
    expect(await imported(put("b.csv", other))).toMatchObject({ rows: 20, known: 0 });
  });

  test("stamps to the second with many readings each are met one by one", async () => {
    const coarse = (from: number, to: number) =>
      `Time,Load (kN)\n${Array.from({ length: to - from }, (_, i) => `2024-05-23T10:00:${String(Math.floor((from + i) / 5)).padStart(2, "0")}Z,${(from + i) % 2}.5\n`).join("")}`;
    await imported(put("a.csv", coarse(0, 98)));
    // 0.5 and 1.5 take turns, so the readings of one second are alike; each is met once only.
    expect(await imported(put("b.csv", coarse(50, 120)))).toMatchObject({ known: 48, rows: 22 });
  });

  test("a file read wrongly can be read again; the first reading is hidden", async () => {
    const first = await imported(put("a.csv", table(0, 20)));
    const again = await imported(put("a.csv", table(0, 20)), { again: true, told: choices(["--map", "load=2:lbf"]) });
    expect(again.rows).toBe(20);
    expect(book.list("log").map((log) => log.id)).toEqual([again.log]);
    expect(book.get("log", first.log)?.hidden).toBe(true);
  });
});

describe("the mapping of a source", () => {
  const plain = (unit: string, from: number) =>
    `Time,Value${unit}\n${Array.from({ length: 20 }, (_, i) => `${1716459630 + from + i},${i}.5\n`).join("")}`;
  test("is asked once and remembered for its next file", async () => {
    const asks = await importLog(book, put("a.csv", plain("", 0)));
    expect(asks.kind).toBe("asks");
    expect(book.list("log")).toEqual([]);
    await imported(put("a.csv", plain("", 0)), { told: choices(["--map", "load=Value:lbf"]) });
    const next = await imported(put("b.csv", plain("", 100)));
    expect(next.remembered).toBe(true);
    expect(rowsOf(next.log).columns.load![1]).toBe(Math.fround(1.5 * 4.4482216152605));
  });
  test("is not another source's", async () => {
    await imported(put("a.csv", plain("", 0)), { told: choices(["--map", "load=Value:lbf"]) });
    expect((await importLog(book, put("b.csv", plain(";Other", 100).replaceAll(",", ";")))).kind).toBe("asks");
  });
  test("told anew, the new one holds from then on", async () => {
    await imported(put("a.csv", plain("", 0)), { told: choices(["--map", "load=Value:lbf"]) });
    await imported(put("b.csv", plain("", 100)), { told: choices(["--map", "load=Value:kN"]) });
    const { guess } = previewLog(put("c.csv", plain("", 200)), {}, book);
    expect(guess.kind === "table" && guess.columns[1]).toMatchObject({
      as: "load",
      unit: "kN",
      why: { kind: "both", whys: [{ kind: "told" }, { kind: "unitTold" }] },
    });
  });
});

describe("an import that is stopped", () => {
  test("goes on where it stopped and ends with each row once", async () => {
    const path = join(folder, "big.csv");
    await writeLargeLog(path, 400_000, 7);
    const whole = await imported(path);
    const expected = rowsOf(whole.log);
    const other = newBook(join(folder, "other.book"), { title: "Stopped" });
    let stops = 0;
    for (;;) {
      const stop = new AbortController();
      const answer = await importLog(other, path, { signal: stop.signal, onProgress: () => stop.abort() });
      if (answer.kind === "imported") {
        expect(answer).toMatchObject({ rows: 400_000, size: whole.size, troubles: { rejected: 0 } });
        break;
      }
      expect(answer.kind).toBe("stopped");
      stops++;
    }
    expect(stops).toBeGreaterThan(3);
    const log = other.list("log");
    expect(log.length).toBe(1);
    const times: number[] = [];
    const loads: number[] = [];
    for (const chunk of other.logs.rows(log[0]!.id)) {
      times.push(...chunk.times);
      loads.push(...chunk.columns.load!);
    }
    expect(times).toEqual(expected.times);
    expect(loads).toEqual(expected.columns.load);
    other.close();
  });

  test("is refused another mapping, unless it is read anew", async () => {
    const path = join(folder, "big.csv");
    await writeLargeLog(path, 200_000, 7);
    const stop = new AbortController();
    await importLog(book, path, { signal: stop.signal, onProgress: () => stop.abort() });
    await expect(importLog(book, path, { told: choices(["--map", "load=2:kN"]) })).rejects.toThrow(
      /begun with another mapping.*--again/,
    );
    expect((await imported(path, { told: choices(["--map", "load=2:kN"]), again: true })).rows).toBe(200_000);
  });

  test("does not go on in a file whose front has changed", async () => {
    const path = join(folder, "big.csv");
    await writeLargeLog(path, 200_000, 7);
    const stop = new AbortController();
    await importLog(book, path, { signal: stop.signal, onProgress: () => stop.abort() });
    await writeLargeLog(path, 200_000, 8);
    expect((await imported(path)).rows).toBe(200_000);
    expect(book.list("log").length).toBe(2);
  });
});

describe("other logs", () => {
  test("a GPX track is its places and times", async () => {
    const gpx = `<?xml version="1.0"?><gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>
      <trkpt lat="12.345678901" lon="-45.6789"><time>2024-05-23T10:20:30Z</time></trkpt>
      <trkpt lat="12.345679" lon="-45.678901"><time>2024-05-23T10:20:31.5Z</time></trkpt></trkseg></trk></gpx>`;
    const answer = await imported(put("track.gpx", gpx));
    const rows = rowsOf(answer.log);
    expect(rows.times).toEqual([1716459630, 1716459631.5]);
    expect(rows.columns).toEqual({ latitude: [12.345678901, 12.345679], longitude: [-45.6789, -45.678901] });
    expect((await importLog(book, put("copy.gpx", gpx))).kind).toBe("already");
  });

  test("a track exported again with more points adds those alone", async () => {
    const points = (from: number, to: number) =>
      `<gpx><trk><trkseg>${Array.from({ length: to - from }, (_, i) => `<trkpt lat="12.${from + i}" lon="-45.${from + i}"><time>2024-05-23T10:20:${10 + from + i}Z</time></trkpt>`).join("")}</trkseg></trk></gpx>`;
    await imported(put("a.gpx", points(0, 20)));
    expect(await imported(put("b.gpx", points(5, 30)))).toMatchObject({ rows: 10, known: 15 });
  });

  test("sentences logged again are known again", async () => {
    const fix = (i: number) => {
      const body = `GPRMC,1020${10 + i}.00,A,1230.0${10 + i},N,04530.000,W,0.5,90.0,230524,,`;
      const sum = [...body].reduce((x, c) => x ^ c.charCodeAt(0), 0);
      return `$${body}*${sum.toString(16).toUpperCase().padStart(2, "0")}\n`;
    };
    const lines = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => fix(from + i)).join("");
    await imported(put("a.nmea", lines(0, 20)));
    expect(await imported(put("b.nmea", lines(10, 30)))).toMatchObject({ rows: 10, known: 10 });
  });

  test("Signal K deltas fill the channels of their paths", async () => {
    const delta = (s: number, values: object[]) =>
      JSON.stringify({ context: "vessels.self", updates: [{ timestamp: `2024-05-23T10:20:${s}.000Z`, values }] });
    const text = [
      JSON.stringify({ name: "server", version: "1" }),
      delta(30, [
        { path: "environment.wind.speedApparent", value: 5.5 },
        { path: "environment.wind.angleApparent", value: -0.5 },
      ]),
      delta(30, [{ path: "environment.depth.belowSurface", value: 8.25 }]),
      delta(31, [
        { path: "navigation.position", value: { latitude: 12.5, longitude: -45.5 } },
        { path: "rig.anchor.load", value: 1500 },
      ]),
      "{ broken",
    ].join("\n");
    const answer = await imported(put("log.jsonl", text));
    const { times, columns } = rowsOf(answer.log);
    expect(times).toEqual([1716459630, 1716459631]);
    expect(columns.windSpeed).toEqual([5.5, Number.NaN]);
    expect(columns.windAngle![0]).toBe(Math.fround(2 * Math.PI - 0.5));
    expect(columns.depth).toEqual([8.25, Number.NaN]);
    expect(columns.load).toEqual([Number.NaN, 1500]);
    expect(columns.latitude).toEqual([Number.NaN, 12.5]);
    expect(answer.troubles).toMatchObject({
      rejected: 1,
      first: [{ line: 5, expected: "a whole JSON document on one line is expected" }],
    });
  });

  test("sentences the package knows beside our own are taken from it: VWR", async () => {
    const text =
      "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\n$VWVWR,084,L,02.6,N,01.3,M,04.7,K*71\n";
    const answer = await imported(put("log.nmea", text));
    const { columns } = rowsOf(answer.log);
    expect(columns.windSpeed![0]).toBeCloseTo((2.6 * 1852) / 3600, 1);
    expect(columns.windAngle![0]).toBeCloseTo(((360 - 84) * Math.PI) / 180, 4);
  });

  test("cues of a video become marks", async () => {
    const answer = await importLog(
      book,
      put(
        "dive.vtt",
        "WEBVTT\n\n1\n00:00:05.000 --> 00:00:09.500\nfluke <b>bites</b>\n\n01:02.000 --> 01:03.000\nrolls &amp; resets\n",
      ),
      { told: { start: 1716459630 } },
    );
    expect(answer).toMatchObject({ kind: "marks", marks: 2, clock: "utc" });
    expect(book.list("mark").map(({ from_s, to_s, kind, origin }) => ({ from_s, to_s, kind, origin }))).toEqual([
      { from_s: 1716459635, to_s: 1716459639.5, kind: "fluke bites", origin: "by hand" },
      { from_s: 1716459692, to_s: 1716459693, kind: "rolls & resets", origin: "by hand" },
    ]);
  });

  test("a table of marks becomes marks", async () => {
    const answer = await importLog(book, put("marks.csv", "time;mark\n0:05;slack\n1:10;drags\n"));
    expect(answer).toMatchObject({ kind: "marks", marks: 2, clock: "elapsed" });
    expect(book.list("mark").map((mark) => [mark.from_s, mark.kind])).toEqual([
      [5, "slack"],
      [70, "drags"],
    ]);
  });
});

test("gaps and restarts stand as marks on the log", async () => {
  const logs = exampleLogs();
  const gaps = await imported(put("gaps.csv", logs.find(({ file }) => file === "gaps.csv")!.bytes));
  expect(gaps.counts).toMatchObject({ gap: 2, restart: 0 });
  expect(book.list("mark", { where: { log: gaps.log } }).map((mark) => [mark.kind, mark.to_s! - mark.from_s!])).toEqual(
    [
      ["gap", 30.5],
      ["gap", 70.5],
    ],
  );
  const restarts = await imported(put("restarts.csv", logs.find(({ file }) => file === "restarts.csv")!.bytes));
  expect(restarts).toMatchObject({ counts: { restart: 2, gap: 0 }, troubles: { headersAgain: 2, rejected: 0 } });
});

test("a second header in another unit is read on in that unit, and told", async () => {
  const answer = await imported(
    put("two.csv", exampleLogs().find(({ file }) => file === "other-unit-below.csv")!.bytes),
  );
  expect(answer.rows).toBe(40);
  expect(answer.ended).toBeNull();
  expect(answer.troubles.otherUnits).toBe(1);
});

test.each([
  ["empty.csv", "", /empty\.csv: no lines of text; a log as CSV/],
  ["words.txt", "only words\nand more\n", /words\.txt: no rows of numbers/],
  ["bad.gpx", "<gpx><trk></gpx>", /bad\.gpx: line 1: .*; a whole XML document is expected/],
  ["none.gpx", "<gpx/>", /none\.gpx: no track; a track of points with times is expected/],
  ["untimed.nmea", "$WIMWV,214.8,R,0.1,K,A*28\n", /untimed\.nmea: no sentence carries a time; RMC/],
  ["none.vtt", "WEBVTT\n\n00:05 --> 00:03\nx\n", /none\.vtt: line 3: 00:05 --> 00:03; a cue/],
])("%s is refused in one line", async (name, content, line) => {
  const error = await importLog(book, put(name, content)).then(
    () => null,
    (e: unknown) => e as Error,
  );
  expect(error?.message).toMatch(line);
  expect(error?.message).not.toContain("\n");
  expect(book.list("log")).toEqual([]);
});
