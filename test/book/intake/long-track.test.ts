import { spawn } from "node:child_process";
import { closeSync, mkdtempSync, openSync, rmSync, statSync, truncateSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { importLog, newBook, openBook } from "../../../src/book/index.ts";
import { root } from "../../support/command-line.ts";

const folder = mkdtempSync(join(tmpdir(), "long-track-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const place = (i: number) => 50 + i / 1e6;
const START = Date.UTC(2031, 4, 3);

/** A track of so many points, one a second, each some 160 bytes long as receivers write them. */
function writeTrack(name: string, points: number): string {
  const path = join(folder, name);
  const file = openSync(path, "w");
  writeSync(file, '<?xml version="1.0"?>\n<gpx version="1.1"><trk><trkseg>\n');
  for (let from = 0; from < points; from += 10_000) {
    const lines = Array.from({ length: Math.min(10_000, points - from) }, (_, k) => {
      const time = new Date(START + (from + k) * 1000).toISOString();
      const seen = "<ele>1.0</ele><sat>12</sat><hdop>0.9</hdop>";
      return `<trkpt lat="${place(from + k)}" lon="-4.25">${seen}<time>${time}</time><speed>0.5</speed></trkpt>\n`;
    });
    writeSync(file, lines.join(""));
  }
  writeSync(file, "</trkseg></trk></gpx>\n");
  closeSync(file);
  return path;
}

test("48 MB of track are read into a book by a program that may use 96 MB", async () => {
  const points = 350_000;
  const track = writeTrack("long.gpx", points);
  expect(statSync(track).size).toBeGreaterThan(48e6);
  newBook(join(folder, "long.book"), { title: "Long" }).close();
  const argv = ["--max-old-space-size=96", "--import", "tsx", join(root, "src/cli/main.ts")];
  const child = spawn(process.execPath, [...argv, "log", track, "--into", join(folder, "long.book"), "--json"], {
    cwd: root,
  });
  const said = { out: "", err: "" };
  child.stdout.on("data", (part: Buffer) => {
    said.out += part.toString();
  });
  child.stderr.on("data", (part: Buffer) => {
    said.err += part.toString();
  });
  const status = await new Promise((done) => child.once("close", done));
  expect([status, said.err.slice(-2000)]).toEqual([0, expect.not.stringMatching(/heap|FATAL|fault/)]);
  expect(JSON.parse(said.out).files[0]).toMatchObject({ kind: "imported", rows: points, counts: { gap: 0 } });
  const book = openBook(join(folder, "long.book"), { backups: false });
  let n = 0;
  for (const rows of book.logs.rows(book.list("log")[0]!.id)) {
    for (let i = 0; i < rows.times.length; i++, n++) {
      if (rows.columns.latitude![i] !== place(n) || rows.times[i] !== START / 1000 + n) throw new Error(`row ${n}`);
    }
  }
  expect(n).toBe(points);
  book.close();
});

describe("a track broken off", () => {
  test("goes on where it stopped, each point once", async () => {
    const points = 150_000;
    const track = writeTrack("broken.gpx", points);
    const book = newBook(join(folder, "broken.book"), { title: "Broken" });
    const stop = new AbortController();
    // Stopped by the first batch that is on disk.
    const first = await importLog(book, track, { signal: stop.signal, onProgress: () => stop.abort() });
    expect(first.kind).toBe("stopped");
    const begun = (first as { rows: number }).rows;
    expect(begun).toBeGreaterThan(0);
    expect(begun).toBeLessThan(points);
    const second = await importLog(book, track);
    expect(second).toMatchObject({ kind: "imported", rows: points, known: 0 });
    const log = book.list("log")[0]!.id;
    const places = [...book.logs.rows(log)].flatMap((rows) => [...rows.columns.latitude!]);
    expect(places.length).toBe(points);
    expect(places.every((latitude, i) => latitude === place(i))).toBe(true);
    expect(await importLog(book, track)).toMatchObject({ kind: "already", rows: points });
    book.close();
  });

  test("whose end is missing gives the points it holds, and says so", async () => {
    const track = writeTrack("cut.gpx", 1000);
    truncateSync(track, statSync(track).size - 30);
    const book = newBook(join(folder, "cut.book"), { title: "Cut" });
    const answer = await importLog(book, track);
    expect(answer.kind).toBe("imported");
    if (answer.kind === "imported") {
      // The cut goes through the end of the last point: what it holds may not be all of it.
      expect(answer.rows).toBe(999);
      expect(answer.ended?.why).toMatchObject({ kind: "brokenOff" });
    }
    book.close();
  });
});
