import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tracedToJson } from "../../../src/pull/trace/json.ts";
import { reduceTrace } from "../../../src/pull/trace/reduce-trace.ts";
import { settingsWith } from "../../../src/pull/trace/settings.ts";
import { zeroAt } from "../../../src/pull/trace/zero.ts";
import { InputError } from "../../../src/quantity/index.ts";
import { traceWords } from "../../../src/words/index.ts";
import { numbers, simulatePull } from "./simulated-pull.ts";

/** Every number within a JSON value. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (typeof value !== "object" || value === null) return [];
  return Object.values(value).flatMap(numbersIn);
}

describe("zero and drift", () => {
  it("are those of the slack before and after, a straight line between", () => {
    const { trace, truth } = simulatePull({ seed: 12, noise: 0.001, spikes: 0 });
    const { zero } = reduceTrace(trace, { readAt: "bow" });
    if (zero.kind !== "drifting") throw new Error(zero.kind);
    for (const t of [0, 40, 80]) {
      const z = zeroAt(zero, t);
      expect(Math.abs(z.value - truth.zero.atStart - truth.zero.rate * t)).toBeLessThan(4 * z.u);
    }
  });

  it("are not guessed when the log begins and ends under load", () => {
    const { trace, truth } = simulatePull({ seed: 12, noise: 0.001, spikes: 0 });
    const first = truth.plateaus[0]!;
    const last = truth.plateaus.at(-1)!;
    const part = (a: Float64Array): Float64Array =>
      a.filter((_, i) => trace.time[i]! > first.from && trace.time[i]! < last.to);
    expect(reduceTrace({ time: part(trace.time), load: part(trace.load) }, { readAt: "bow" }).zero.kind).toBe(
      "notFound",
    );
  });

  it("stand still, and the drift is not known, with slack on one side only", () => {
    const { trace, truth } = simulatePull({ seed: 12, noise: 0.001, spikes: 0 });
    const last = truth.plateaus.at(-1)!;
    const part = (a: Float64Array): Float64Array => a.filter((_, i) => trace.time[i]! < last.to);
    expect(reduceTrace({ time: part(trace.time), load: part(trace.load) }, { readAt: "bow" }).zero).toMatchObject({
      kind: "fixed",
      side: "before",
    });
  });

  it("are taken where a person points, and allow for rode that hangs under the cell", () => {
    const { trace, truth } = simulatePull({ seed: 12, noise: 0.001, spikes: 0 });
    const r = reduceTrace(trace, {
      readAt: "bow",
      slack: [{ from: 0, to: 5 }],
      settings: { slack: { load: 40, u: 3 } },
    });
    if (r.zero.kind !== "fixed") throw new Error(r.zero.kind);
    expect(Math.abs(r.zero.slack.mean - (truth.zero.atStart - 40))).toBeLessThan(4 * r.zero.slack.u);
    expect(r.zero.slack.u).toBeGreaterThanOrEqual(3);
  });
});

describe("a reduction as JSON", () => {
  it("is one document of finite numbers with units in the names, whatever the pull", () => {
    fc.assert(
      fc.property(
        fc.record({
          seed: fc.integer({ min: 1, max: 9999 }),
          track: fc.boolean(),
          reversal: fc.boolean(),
          heading: fc.boolean(),
        }),
        (scene) => {
          const r = reduceTrace(simulatePull(scene).trace, { readAt: "anchor", steps: [{ load: 1000, hold: 20 }] });
          const json = tracedToJson(r, traceWords("metric"));
          expect(JSON.parse(JSON.stringify(json))).toEqual(json);
          for (const n of numbersIn(json)) expect(Number.isFinite(n)).toBe(true);
          expect(json).toMatchObject({ format: "rodebench/traced@1", readAt: "anchor" });
        },
      ),
      { seed: 10, numRuns: 25 },
    );
  });
});

describe("any log at all", () => {
  it("is reduced without a crash, or refused in one line", () => {
    const value = fc.oneof(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.constant(Number.NaN),
      fc.constant(0),
      fc.constant(1e9),
    );
    const step = fc.oneof(fc.constant(0), fc.constant(0.1), fc.double({ min: 0, max: 50, noNaN: true }));
    fc.assert(
      fc.property(fc.array(fc.tuple(step, value), { maxLength: 120 }), (rows) => {
        let t = 0;
        const time = Float64Array.from(rows, ([dt]) => {
          t += dt;
          return t;
        });
        const load = Float64Array.from(rows, ([, v]) => v);
        try {
          const r = reduceTrace(
            { time, load, track: { time, east: load, north: load }, heading: { time, angle: load } },
            { readAt: "bow" },
          );
          for (const n of numbersIn(tracedToJson(r, traceWords("metric")))) expect(Number.isFinite(n)).toBe(true);
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
          expect(error.message).not.toContain("\n");
        }
      }),
      { seed: 11, numRuns: 400 },
    );
  });

  it("of one load has no marks but that load", () => {
    const random = numbers(1);
    const time = Float64Array.from({ length: 600 }, (_, i) => i / 10);
    for (const noise of [0, 1]) {
      const r = reduceTrace({ time, load: time.map(() => 500 + noise * (random() - 0.5)) }, { readAt: "bow" });
      expect(r.zero.kind).toBe("notFound");
      expect(r.drags).toEqual([]);
      expect(r.plateaus.map((p) => [p.from, Math.round(p.to), Math.round(p.load.value)])).toEqual([[0, 60, 500]]);
    }
  });
});

describe("settings", () => {
  it("are changed one by one within their groups", () => {
    expect(settingsWith({ plateau: { shortest: 20 } }).plateau).toEqual({
      shortest: 20,
      change: 0.02,
      sameLevel: 0.03,
      disturbed: 5,
    });
  });

  it.each([
    [{ bandwidth: 0 }, "bandwidth"],
    [{ plateau: { shortest: Number.NaN } }, "plateau.shortest"],
    [{ cell: { relative: -0.1 } }, "cell.relative"],
    [{ peak: { shares: [0.9, 0] } }, "peak.shares"],
    [{ pulls: "sideways" as "astern" }, "pulls"],
  ])("out of range are told by name: %j", (change, place) => {
    expect(() => settingsWith(change)).toThrow(new RegExp(`^${place.replace(".", "\\.")}: `));
  });
});
