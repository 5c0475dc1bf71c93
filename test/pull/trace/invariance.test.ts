import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { reduceTrace } from "../../../src/pull/trace/reduce-trace.ts";
import type { TraceReduction } from "../../../src/pull/trace/reduction.ts";
import type { Trace } from "../../../src/pull/trace/trace.ts";
import { simulatePull } from "./simulated-pull.ts";

const scenes = fc.record({ seed: fc.integer({ min: 1, max: 100_000 }), track: fc.boolean(), reversal: fc.boolean() });
const runs = { seed: 20_261, numRuns: 12 };

/** What a reduction found, without values: kinds, and times to a tenth of a second. */
function finds(r: TraceReduction): string[] {
  return r.marks.filter((m) => m.kind !== "peak").map((m) => `${m.kind} ${m.from.toFixed(1)} ${m.to.toFixed(1)}`);
}

function withLoad(trace: Trace, change: (load: number) => number): Trace {
  return { ...trace, load: trace.load.map(change) };
}

describe("the unit of load changes nothing but the unit", () => {
  it.each([4.4482216152605, 1e-3, 1024])("× %d: same marks, every load times that", (factor) => {
    fc.assert(
      fc.property(scenes, (scene) => {
        const { trace } = simulatePull(scene);
        const a = reduceTrace(trace, { readAt: "bow" });
        const b = reduceTrace(
          withLoad(trace, (v) => v * factor),
          { readAt: "bow" },
        );
        expect(finds(b)).toEqual(finds(a));
        a.marks.forEach((m, i) => {
          if (m.of !== "force") return;
          // Sums of some thousand readings round differently after a factor: 1e-9 of the highest load is far above that.
          const slip = 1e-9 * factor * Math.max(...a.marks.map((n) => Math.abs(n.value)));
          expect(Math.abs(b.marks[i]!.value - factor * m.value)).toBeLessThan(slip);
          expect(Math.abs(b.marks[i]!.u - factor * m.u)).toBeLessThan(slip);
        });
        expect(b.held.kind).toBe(a.held.kind);
        expect(b.peakCount).toBe(a.peakCount);
        expect(b.above.map((x) => x.upcrossings)).toEqual(a.above.map((x) => x.upcrossings));
        expect(b.cycles.total).toBe(a.cycles.total);
      }),
      runs,
    );
  });

  it("a shift of the clock shifts the marks", () => {
    fc.assert(
      fc.property(scenes, (scene) => {
        const { trace } = simulatePull(scene);
        const by = 4096;
        const shift = (t: Float64Array): Float64Array => t.map((v) => v + by);
        const a = reduceTrace(trace, { readAt: "bow" });
        const b = reduceTrace(
          {
            ...trace,
            time: shift(trace.time),
            ...(trace.track ? { track: { ...trace.track, time: shift(trace.track.time) } } : {}),
          },
          { readAt: "bow" },
        );
        expect(b.marks.map((m) => `${m.kind} ${(m.from - by).toFixed(1)} ${(m.to - by).toFixed(1)}`)).toEqual(
          a.marks.map((m) => `${m.kind} ${m.from.toFixed(1)} ${m.to.toFixed(1)}`),
        );
      }),
      runs,
    );
  });
});

describe("the rate of the log", () => {
  it("reading the same curve four times as often finds the same", () => {
    fc.assert(
      fc.property(scenes, (scene) => {
        const { trace } = simulatePull(scene);
        const fine = oftener(trace, 4);
        const a = reduceTrace(trace, { readAt: "bow" });
        const b = reduceTrace(fine, { readAt: "bow" });
        expect(finds(b)).toEqual(finds(a));
        const loads = (r: TraceReduction): number[] => r.plateaus.map((p) => p.load.value);
        loads(a).forEach((v, i) => {
          // The grains are exact integrals of the same curve, so that only the rounding of sums is left.
          expect(Math.abs(loads(b)[i]! - v)).toBeLessThan(1e-6 * Math.abs(v));
        });
      }),
      runs,
    );
  });

  it("the same pull logged at 5, 20 and 100 readings a second has the same plateaus within their ±, and the same drags", () => {
    let compared = 0;
    let agreeing = 0;
    for (let seed = 501; seed < 513; seed++) {
      const scene = { seed, spikes: 0, noise: 0.003, surge: 0.01 };
      const [slow, usual, fast] = [5, 20, 100].map((rate) =>
        reduceTrace(simulatePull({ ...scene, rate }).trace, { readAt: "bow" }),
      );
      for (const other of [slow!, fast!]) {
        expect(other.drags.length).toBe(usual!.drags.length);
        expect(other.held.kind).toBe(usual!.held.kind);
        for (const p of usual!.plateaus) {
          compared++;
          const q = other.plateaus.find((x) => Math.abs(x.from - p.from) < 2 && Math.abs(x.to - p.to) < 2);
          if (q && Math.abs(q.load.value - p.load.value) < 3 * Math.hypot(q.load.u, p.load.u)) agreeing++;
        }
      }
    }
    // Noise differs from rate to rate: a plateau's end in a slow corner may move by more than the two seconds.
    expect(compared).toBeGreaterThan(40);
    expect(agreeing / compared).toBeGreaterThan(0.95);
  });
});

/** The same straight-line curve, read `times` as often. */
function oftener(trace: Trace, times: number): Trace {
  const n = trace.time.length;
  const time = new Float64Array((n - 1) * times + 1);
  const load = new Float64Array(time.length);
  for (let i = 0; i < time.length; i++) {
    const k = Math.min(n - 2, Math.floor(i / times));
    const share = (i - k * times) / times;
    time[i] = trace.time[k]! + share * (trace.time[k + 1]! - trace.time[k]!);
    load[i] = trace.load[k]! + share * (trace.load[k + 1]! - trace.load[k]!);
  }
  return { ...trace, time, load };
}
