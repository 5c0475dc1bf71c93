import { describe, expect, it } from "vitest";
import { foundMarks, reducePullLog } from "../../src/study/index.ts";
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
