import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Book, CHUNK_ROWS, newBook, openBook, type Rows } from "../../src/book/index.ts";
import { packReadings, packTimes, unpack } from "../../src/book/log-codec.ts";
import { folder, steadyPorts } from "./folder.ts";

const CHANNELS = [
  { name: "load", quantity: "force", unit: "N", precision: "double" as const },
  { name: "wind", quantity: "speed", unit: "m/s", precision: "single" as const },
];
const fresh = (): Book =>
  newBook(join(folder(), "a.book"), { title: "Logs" }, { ports: steadyPorts(), backups: false });

function made(count: number, from = 0): Rows {
  const index = Array.from({ length: count }, (_, i) => from + i);
  return {
    times: Float64Array.from(index, (i) => 1.9e9 + i / 10),
    columns: {
      load: Float64Array.from(index, (i) => 1000 * Math.sin(i / 900) + (i % 13)),
      wind: Float64Array.from(index, (i) => (i % 10 === 0 ? Math.fround(5 + (i % 7) / 3) : Number.NaN)),
    },
  };
}

function all(book: Book, log: string): { times: number[]; load: number[]; wind: number[] } {
  const out = { times: [] as number[], load: [] as number[], wind: [] as number[] };
  for (const rows of book.logs.rows(log)) {
    out.times.push(...rows.times);
    out.load.push(...rows.columns.load!);
    out.wind.push(...rows.columns.wind!);
  }
  return out;
}

describe("packing", () => {
  const numbers = fc.array(fc.double(), { maxLength: 200 }).map((a) => Float64Array.from(a));
  it("gives readings back to the last bit", () => {
    fc.assert(
      fc.property(numbers, (values) => {
        expect(unpack(packReadings(values, false))).toEqual(values);
        const single = Float64Array.from(Float32Array.from(values));
        expect(unpack(packReadings(single, true))).toEqual(single);
      }),
      { seed: 1 },
    );
  });
  it("gives times back to the last bit, whether they are whole microseconds or not", () => {
    const stamps = fc
      .array(fc.integer({ min: -1e15, max: 2e15 }), { maxLength: 100 })
      .map((a) => Float64Array.from(a, (us) => us / 1e6));
    fc.assert(
      fc.property(fc.oneof(numbers, stamps), (times) => {
        expect(unpack(packTimes(times))).toEqual(times);
      }),
      { seed: 2 },
    );
  });
  it("takes little room for a steady log's times: under a tenth of a byte each", () => {
    expect(packTimes(made(CHUNK_ROWS).times).length / CHUNK_ROWS).toBeLessThan(0.1);
  });
});

describe("a log", () => {
  it("holds each row once, in order, however it came in", () => {
    const cut = fc.array(fc.record({ live: fc.boolean(), rows: fc.integer({ min: 1, max: 5000 }) }), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(cut, (parts) => {
        const book = fresh();
        const { log } = book.logs.open({ name: "cell", channels: CHANNELS });
        let rows = 0;
        let position = 0;
        for (const part of parts) {
          if (part.live) book.logs.record(log, made(Math.min(part.rows, 1500), rows));
          else book.logs.append(log, made(part.rows, rows), { from: position, to: position + 10 * part.rows });
          rows += part.live ? Math.min(part.rows, 1500) : part.rows;
          position = book.logs.progress(log).position;
        }
        expect(book.logs.progress(log).rows).toBe(rows);
        const whole = made(rows);
        expect(all(book, log)).toEqual({
          times: [...whole.times],
          load: [...whole.columns.load!],
          wind: [...whole.columns.wind!],
        });
        expect(book.check()).toMatchObject({ kind: "sound" });
        book.close();
      }),
      { seed: 3, numRuns: 15 },
    );
  });

  it("of a source known by its fingerprint goes on where it stopped, also after the book was closed", () => {
    const book = fresh();
    const set = { name: "cell", channels: CHANNELS, fingerprint: "sha256:1" };
    const { log, kind } = book.logs.open(set);
    expect(kind).toBe("new");
    book.logs.append(log, made(100), { from: 0, to: 5000, state: { date: "2031-05-17" } });
    book.close();
    const again = openBook(book.path, { ports: steadyPorts(2), backups: false });
    expect(again.logs.open(set)).toEqual({
      log,
      kind: "begun",
      rows: 100,
      position: 5000,
      state: { date: "2031-05-17" },
    });
    again.logs.append(log, made(50, 100), { from: 5000, to: 7000 });
    again.logs.finish(log);
    expect(again.logs.open(set)).toMatchObject({ log, kind: "finished", rows: 150 });
    expect(() => again.logs.append(log, made(1), { from: 7000, to: 7010 })).toThrow("a finished log");
    again.close();
  });

  it.each([
    [{ times: Float64Array.of(Number.NaN), columns: {} }, "log.times: NaN"],
    [
      { times: Float64Array.of(1), columns: { load: Float64Array.of(1, 2) } },
      "log.columns.load: 2 readings; 1, one a row, are expected",
    ],
    [
      { times: Float64Array.of(1), columns: { angle: Float64Array.of(1) } },
      "log.columns.angle: not declared; one of load, wind is expected",
    ],
    [
      { times: Float64Array.of(1), columns: { load: Float64Array.of(Number.POSITIVE_INFINITY) } },
      "log.columns.load: Infinity",
    ],
  ])("refuses rows %# in one line, and keeps none of them", (rows, line) => {
    const book = fresh();
    const { log } = book.logs.open({ name: "cell", channels: CHANNELS });
    expect(() => book.logs.append(log, rows as Rows, { from: 0, to: 1 })).toThrow(line);
    expect(() => book.logs.record(log, rows as Rows)).toThrow(line);
    expect(book.logs.progress(log)).toMatchObject({ rows: 0, position: 0 });
    book.close();
  });

  it("takes new channels after the old ones, and loses none", () => {
    const book = fresh();
    const { log } = book.logs.open({ name: "cell", channels: CHANNELS });
    book.logs.record(log, made(3));
    const depth = { name: "depth", quantity: "length", unit: "m", precision: "double" as const };
    expect(() => book.edit("log", log, { channels: [depth] })).toThrow("log.channels: load changed or left out");
    book.edit("log", log, { channels: [...CHANNELS, depth] });
    book.logs.record(log, { times: Float64Array.of(2e9), columns: { depth: Float64Array.of(7) } });
    const view = book.logs.view(log, { channels: ["load", "depth"] });
    expect(view).toMatchObject({
      kind: "readings",
      columns: { depth: Float64Array.of(Number.NaN, Number.NaN, Number.NaN, 7) },
    });
    book.close();
  });
});

describe("a view of a log", () => {
  const ROWS = 40_000;
  const book = () => {
    const b = fresh();
    const { log } = b.logs.open({ name: "cell", channels: CHANNELS });
    b.logs.append(log, made(ROWS), { from: 0, to: 1 });
    b.logs.record(log, made(77, ROWS));
    return { b, log };
  };

  it("of any stretch has the smallest and largest reading there, and no more points than asked for", () => {
    const { b, log } = book();
    const whole = made(ROWS + 77);
    fc.assert(
      fc.property(fc.nat(ROWS), fc.nat(ROWS), fc.integer({ min: 2, max: 3000 }), (a, z, points) => {
        const [first, last] = a < z ? [a, z] : [z, a];
        const view = b.logs.view(log, { from_s: whole.times[first]!, to_s: whole.times[last]!, points });
        const inside = whole.columns.load!.subarray(first, last + 1);
        if (view.kind === "readings") {
          expect([...view.columns.load!]).toEqual([...inside]);
          expect(view.times.length).toBeLessThanOrEqual(points);
          return;
        }
        expect(view.from.length).toBeLessThanOrEqual(points);
        // Bands may reach up to a bin past either end; within, none is missing.
        const { min, max } = view.columns.load!;
        expect(Math.min(...min)).toBeLessThanOrEqual(Math.min(...inside));
        expect(Math.max(...max)).toBeGreaterThanOrEqual(Math.max(...inside));
        expect(view.from[0]).toBeLessThanOrEqual(whole.times[first]!);
        expect(view.to.at(-1)).toBeGreaterThanOrEqual(whole.times[last]!);
        expect(view.from[0]).toBeGreaterThan(whole.times[first]! - 64 / 10);
      }),
      { seed: 4, numRuns: 60 },
    );
    b.close();
  });

  it("never smooths a peak of one reading away", () => {
    const b = fresh();
    const { log } = b.logs.open({ name: "cell", channels: CHANNELS });
    const rows = made(100_000);
    rows.columns.load![54_321] = 1e6;
    b.logs.append(log, rows, { from: 0, to: 1 });
    for (const points of [2, 100, 2000]) {
      const view = b.logs.view(log, { points });
      if (view.kind !== "bands") throw new Error("bands are expected");
      const at = view.columns.load!.max.indexOf(1e6);
      expect(view.from[at]).toBeLessThanOrEqual(rows.times[54_321]!);
      expect(view.to[at]).toBeGreaterThanOrEqual(rows.times[54_321]!);
    }
    b.close();
  });

  it("leaves a gap where a channel was silent", () => {
    const { b, log } = book();
    const view = b.logs.view(log, { channels: ["wind"], from_s: 1.9e9 + 0.05, to_s: 1.9e9 + 0.95 });
    expect(view).toMatchObject({ kind: "readings" });
    if (view.kind === "readings") expect([...view.columns.wind!].every(Number.isNaN)).toBe(true);
    b.close();
  });
});
