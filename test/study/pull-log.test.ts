import { describe, expect, it } from "vitest";
import { reduceTrace } from "../../src/pull/index.ts";
import { foundMarks, reducePullLog } from "../../src/study/index.ts";
import { plannedSteps } from "../../src/study/pull-log.ts";
import { simulatePull } from "../pull/trace/simulated-pull.ts";
import { caseOf } from "./cases.ts";

const { trace } = simulatePull({ seed: 3, rate: 10, top: 2600, spikes: 0 });
const { log: _, ...about } = caseOf({
  depth_m: 4.4,
  scope: 5,
  loadAt: "bow",
  result: { kind: "heldTo", load_N: 9000, u_N: 10 },
  steps: [{ load_N: 1000, duration_s: 20 }, { load_N: 0 }],
});
const question = { time: trace.time, load: trace.load, readAt: "bow", corrections: [], slack: [], about } as const;

describe("the log of a pull", () => {
  it("is carried in the pull's own water, by what the log says and not the record", () => {
    const reduced = reducePullLog(question);
    if (reduced.kind !== "reduced" || reduced.held.kind === "notKnown") throw new Error("a held load is expected");
    const { evidence } = reduced;
    expect(evidence?.from).toBe("log");
    expect(evidence?.deployment?.rise.value).toBeCloseTo(5.75, 12);
    const carried = evidence?.gaveWayBy ?? evidence?.heldTo;
    if (carried?.kind !== "carried") throw new Error("a carried load is expected");
    expect(carried.bow.value).toBeCloseTo(reduced.held.newtons, 6);
    expect(carried.anchor.value).toBeLessThan(carried.bow.value - 30);
    expect(evidence?.doubts.map(({ kind }) => kind)).toEqual([
      "logCannotTell",
      "depthDiffers",
      "lengthDiffers",
      "lineUnknown",
    ]);
    expect(reduced.steps).toHaveLength(1);
  });

  it("of no pull has no evidence, and is reduced all the same", () => {
    const reduced = reducePullLog({ ...question, about: null });
    expect(reduced).toMatchObject({ kind: "reduced", evidence: null });
  });

  it("refuses a log whose times run backward in one line", () => {
    const reduced = reducePullLog({ ...question, time: trace.time.toReversed() });
    expect(reduced.kind).toBe("refused");
  });

  it("goes to a worker and back as plain data", () => {
    expect(() => structuredClone(reducePullLog(structuredClone(question)))).not.toThrow();
  });
});

describe("marks found on a log", () => {
  it("are those not in the book yet, also where one was put aside", () => {
    const all = foundMarks(trace, "bow", "log", []);
    expect(all.length).toBeGreaterThan(2);
    for (const mark of all) expect(mark).toMatchObject({ log: "log", origin: "automatic" });
    expect(foundMarks(trace, "bow", "log", all)).toEqual([]);
    expect(foundMarks(trace, "bow", "log", all.slice(1))).toEqual([all[0]]);
  });
});

describe("a drag added by hand", () => {
  const { trace: still } = simulatePull({ seed: 3, rate: 10, top: 2600, spikes: 0 });
  const from = still.time[Math.floor(still.time.length / 2)]!;
  const drag = (value: number) =>
    ({
      change: "add",
      mark: { id: "d", kind: "drag", from, to: from + 3, value, u: 0, of: "force", why: { kind: "byHand" } },
    }) as const;
  const reduced = (corrections: Parameters<typeof reducePullLog>[0]["corrections"]) => {
    const found = reducePullLog({ ...question, about: null, corrections });
    if (found.kind !== "reduced") throw new Error(found.line);
    return found;
  };
  it("has the mean and the scatter of the load over the two seconds before it", () => {
    const own = reduced([drag(0)]).marks.find(({ kind, from: at }) => kind === "drag" && at === from)!;
    const { series } = reduceTrace(still, { readAt: "bow", settings: {} });
    const before = Array.from(series.load).filter((_, i) => series.time[i]! >= from - 2 && series.time[i]! <= from);
    const mean = before.reduce((sum, load) => sum + load, 0) / before.length;
    const square = before.reduce((sum, load) => sum + (load - mean) ** 2, 0) / before.length;
    expect(before.length).toBe(21);
    expect(own.value).toBeCloseTo(mean, 6);
    expect(own.u).toBeCloseTo(Math.sqrt(square), 6);
    expect(own.u).toBeGreaterThan(0);
    expect(own.why).toEqual({ kind: "byHandMeanBefore", seconds: 2 });
  });
});

describe("steps of a record as a protocol", () => {
  it("are those with a load, held no time where none is told", () => {
    expect(plannedSteps(null)).toEqual([]);
    expect(plannedSteps({ steps: null } as never)).toEqual([]);
    expect(plannedSteps({ steps: [{ load_N: 500, duration_s: 20 }, { load_N: 0 }, { load_N: 900 }] } as never)).toEqual(
      [
        { load: 500, hold: 20 },
        { load: 900, hold: 0 },
      ],
    );
  });
});
