import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LogRows, NO_TROUBLES } from "../../../src/log/index.ts";
import type { MarkCause } from "../../../src/pull/index.ts";
import { correctionsToJson, readCorrections } from "../../../src/pull/trace/corrections-file.ts";
import { traceFromRows } from "../../../src/pull/trace/from-rows.ts";
import { type Correction, markKinds } from "../../../src/pull/trace/marks.ts";
import { displayStep } from "../../../src/pull/trace/trace.ts";

const f = (...values: number[]): Float64Array => Float64Array.from(values);

function rowsOf(
  time: Float64Array,
  columns: Partial<Record<LogRows["channels"][number]["kind"], Float64Array>>,
  marks: LogRows["marks"] = [],
): LogRows {
  const kinds = Object.keys(columns) as LogRows["channels"][number]["kind"][];
  return {
    channels: kinds.map((kind) => ({ name: kind, kind })),
    clock: "utc",
    time,
    values: kinds.map((k) => columns[k]!),
    marks,
    troubles: NO_TROUBLES,
    ended: null,
    remarks: [],
    seen: [],
  };
}

describe("a trace out of the rows of a log", () => {
  it("lays places on a plane in metres: a minute of latitude at 45° is 1852.2 m, of longitude 1314.1 m", () => {
    // Lengths of a minute on WGS 84: π/180/60 · M(φ) and N(φ) cos φ, computed here from the radii of the ellipsoid.
    const a = 6378137;
    const e2 = (2 - 1 / 298.257223563) / 298.257223563;
    const w = 1 - e2 / 2;
    const minute = Math.PI / 10_800;
    const rows = rowsOf(f(0, 1), { load: f(1, 2), latitude: f(45, 45 + 1 / 60), longitude: f(-30, -30 + 1 / 60) });
    const { trace } = traceFromRows(rows, "log");
    expect(trace.track!.north[1]).toBeCloseTo(((a * (1 - e2)) / w ** 1.5) * minute, 6);
    expect(trace.track!.east[1]).toBeCloseTo((a / Math.sqrt(w)) * Math.SQRT1_2 * minute, 6);
    // 1852.2 m is the length of a minute of latitude at 45° in the tables (recalled).
    expect(trace.track!.north[1]).toBeCloseTo(1852.2, 0);
  });

  it("does not go round the world where the longitude jumps from 180 to −180", () => {
    const rows = rowsOf(f(0, 1), { load: f(1, 2), latitude: f(0, 0), longitude: f(179.9999, -179.9999) });
    expect(traceFromRows(rows, "log").trace.track!.east[1]).toBeCloseTo(0.0002 * 111_319.49, 1);
  });

  it("takes one of several loads by its name, or the sum of those that are named, each once", () => {
    const [fore, aft] = [f(1, 2, 3), f(10, 20, 30)];
    const rows: LogRows = {
      ...rowsOf(f(0, 1, 2), { load: fore }),
      channels: [
        { name: "load", kind: "load" },
        { name: "load-2", kind: "load" },
      ],
      values: [fore, aft],
    };
    const load = (channel?: string) => [
      ...traceFromRows(rows, "log", channel === undefined ? {} : { channel }).trace.load,
    ];
    expect(load("load-2")).toEqual([10, 20, 30]);
    expect(load("load+load-2")).toEqual([11, 22, 33]);
    expect(load(" load + load-2 ")).toEqual([11, 22, 33]);
    expect(() => load()).toThrow(/2 loads, load, load-2/);
    expect(() => load("load+load")).toThrow(/no load channel "load\+load"/);
    expect(() => load("load+other")).toThrow(/one of load, load-2 is expected/);
  });

  it("leaves out rows without the channel, each channel for itself", () => {
    const rows = rowsOf(f(0, 1, 2), { load: f(1, Number.NaN, 3), heading: f(Number.NaN, 1, Number.NaN) });
    const { trace, magnetic } = traceFromRows(rows, "log");
    expect([...trace.time]).toEqual([0, 2]);
    expect([...trace.heading!.time]).toEqual([1]);
    expect(magnetic).toBe(true);
  });

  it("puts rows that came late where they belong, and cuts where the clock was started again", () => {
    const late = traceFromRows(rowsOf(f(0, 1, 3, 2, 4), { load: f(0, 1, 3, 2, 4) }), "log");
    expect([...late.trace.load]).toEqual([0, 1, 2, 3, 4]);
    const restart = rowsOf(f(5, 6, 0, 1, 2), { load: f(1, 2, 3, 4, 5) }, [
      { kind: "restart", row: 2, line: 4, from: 6, to: 0 },
    ]);
    expect(traceFromRows(restart, "log")).toMatchObject({ parts: 2, part: 2 });
    expect([...traceFromRows(restart, "log", { part: 1 }).trace.load]).toEqual([1, 2]);
  });
});

describe("the step of a display", () => {
  it("is found in the readings, in whatever unit they come", () => {
    const lbf = 4.4482216152605;
    const shown = Float64Array.from({ length: 5000 }, (_, i) => 0.2 * Math.round((300 * Math.sin(i / 70)) / 0.2) * lbf);
    expect(displayStep(shown)).toBeCloseTo(0.2 * lbf, 9);
    expect(displayStep(new Float64Array(10).fill(3))).toBe(0);
  });
});

describe("a file of corrections", () => {
  it("read again says what was written", () => {
    // JSON keeps doubles to the last digit, but not the sign of zero.
    const number = fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((v) => v + 0);
    const kind = fc.constantFrom(...markKinds);
    const lay = fc.record({ kind, from: number, to: number });
    const said = { by: fc.string({ maxLength: 8 }), at: fc.constant("2030-06-01T09:00:00Z") };
    const correction: fc.Arbitrary<Correction> = fc.oneof(
      fc.record({ change: fc.constant("move" as const), mark: fc.string(), lay, from: number, to: number, ...said }),
      fc.record({ change: fc.constant("take away" as const), mark: fc.string(), lay, ...said }),
      fc.record({ change: fc.constant("call" as const), mark: fc.string(), lay, kind }),
      fc.record({
        change: fc.constant("value" as const),
        mark: fc.string(),
        lay,
        value: number,
        u: fc.double({ min: 0, max: 100, noNaN: true }),
      }),
      fc.record({
        change: fc.constant("add" as const),
        mark: fc.record({
          id: fc.string({ minLength: 1 }),
          kind: fc.constantFrom("drag" as const, "plateau" as const),
          from: number,
          to: number,
          value: number,
          u: fc.double({ min: 0, max: 100, noNaN: true }),
          of: fc.constant("force" as const),
          why: fc.record({ kind: fc.constant("written" as const), text: fc.string() }),
        }),
      }),
    );
    const written = (why: MarkCause): string => (why.kind === "written" ? why.text : "");
    fc.assert(
      fc.property(fc.array(correction, { maxLength: 5 }), (corrections) => {
        const zeroed = JSON.parse(JSON.stringify(corrections)) as Correction[];
        expect(readCorrections(JSON.stringify(correctionsToJson(corrections, written)), "mine.json")).toEqual(zeroed);
      }),
      { seed: 21, numRuns: 100 },
    );
  });

  it("without a load for a drag is told by its field", () => {
    const text = JSON.stringify({
      format: "rodebench/corrections@1",
      corrections: [{ change: "add", mark: { id: "x", kind: "drag", from_s: 0, to_s: 1, why: "" } }],
    });
    expect(() => readCorrections(text, "mine.json")).toThrow(
      "mine.json: corrections #1.mark.value_N: nothing given; a load in newtons is expected",
    );
  });
});
