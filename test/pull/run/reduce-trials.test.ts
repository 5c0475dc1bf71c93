import { describe, expect, it } from "vitest";
import { judge, type Run, reduce } from "../../../src/pull/index.ts";
import { rng } from "../../../src/statistics/index.ts";
import { judgementWords } from "../../../src/words/index.ts";
import { type Design, STATED, simulatedRun, statedRig } from "./simulated-run.ts";

// A small part of `scripts/reduce-trials.ts`, whose 1000 runs a cell stand in docs/method-uncertainty.md.
const degree = Math.PI / 180;

function trials(design: Design, runs: number, seed: number) {
  const stream = rng(seed);
  return Array.from({ length: runs }, () => {
    const { run, rig, truth, planted } = simulatedRun(stream, design);
    return { reduced: reduce(run, rig), truth, planted };
  });
}

describe("reduce, on runs made from what is stated of them", () => {
  it("finds an error of 8 to 15 standard uncertainties planted in a run of six angles", () => {
    const runs = trials({ angles: 6, release: 0, planted: [8, 15] }, 60, 1);
    const found = runs.filter(({ reduced, planted }) => reduced.readings[planted!]!.outlier).length;
    expect(found).toBeGreaterThanOrEqual(57);
    // Of 300 good readings at most 1 % are called wild on the long run: more than 8 but once in 1000.
    const wrong = runs.flatMap(({ reduced, planted }) =>
      reduced.readings.filter((row, i) => row.outlier && i !== planted),
    ).length;
    expect(wrong).toBeLessThanOrEqual(8);
  });

  it("calls no clean run scattered, and few good readings wild", () => {
    const runs = trials({ angles: 5, release: 0 }, 60, 2);
    const scattered = runs.filter(({ reduced }) => ["more", "less"].includes(reduced.spread.kind)).length;
    // Wrong in 1 of 100 on either side: more than 5 of 60 but once in 1000.
    expect(scattered).toBeLessThanOrEqual(5);
    expect(runs.flatMap(({ reduced }) => reduced.readings.filter((row) => row.outlier)).length).toBeLessThanOrEqual(8);
  });

  it("covers the give of the rig, though the first tape reading is in every movement", () => {
    const runs = trials({ angles: 4, release: 6 }, 80, 3);
    const inside = runs.filter(({ reduced, truth }) => {
      const { value, u } = reduced.fitted.rigGive!;
      return Math.abs(value - truth.rigGive) <= u;
    }).length;
    // 68.3 % of 80 is 54.6 ± 4.2: three of those.
    expect(inside).toBeGreaterThan(42);
    expect(inside).toBeLessThan(68);
  });

  it("finds an angle 5° wrong among five read to 0.35°, and does not call the run scattered", () => {
    const { run } = simulatedRun(rng(5), { angles: 5, release: 0 });
    const off: Run = {
      ...run,
      readings: run.readings.map((row, i) => (i === 2 ? { ...row, angle: row.angle! + 5 * degree } : row)),
    };
    const reduced = reduce(off, statedRig);
    expect(reduced.readings.map((row) => row.outlier)).toEqual([false, false, true, false, false]);
    expect(reduced.scatter).toBe(1);
    expect(judgementWords(judge(off, statedRig, reduced)[0]!)).toContain("theory accounts for 4 of 5 readings");
  });

  it("does not account for a gauge that reads 1° at all of twelve loads, and says that it may stick", () => {
    const loads = [800, 900, 1000, 1100, 1250, 1400, 1550, 1700, 1900, 2100, 2300, 2500];
    const run: Run = {
      name: "stuck",
      loadCellAt: "bow",
      angleAt: "anchor",
      uncertainty: STATED,
      readings: loads.map((load) => ({ load, angle: degree, liftoff: false })),
      release: [],
    };
    const says = judge(run, statedRig, reduce(run, statedRig)).map(judgementWords);
    const [, agree] = /theory does not account for these readings: (\d+) of 12 readings agree/.exec(says[0]!) ?? [];
    expect(Number(agree)).toBeLessThanOrEqual(2);
    expect(says[1]).toContain("the gauge reads the same at all 12 loads");
    expect(says[1]).toContain("it may stick");
  });

  it("says that two readings are too few to tell which is wrong", () => {
    const { run } = simulatedRun(rng(6), { angles: 2, release: 0 });
    const says = judge(run, statedRig, reduce(run, statedRig)).map(judgementWords);
    expect(says[0]).toContain("too few to say whether they scatter as stated");
    expect(says[1]).toContain("the run is too short to tell who is wrong");
  });

  it("names two readings of which one is wrong, and believes neither", () => {
    const { run } = simulatedRun(rng(6), { angles: 2, release: 0 });
    const off: Run = {
      ...run,
      readings: run.readings.map((row, i) => (i === 1 ? { ...row, angle: row.angle! + 8 * degree } : row)),
    };
    const reduced = reduce(off, statedRig);
    const doubted = reduced.readings.filter((row) => row.outlier || row.suspect);
    expect(doubted.length).toBeGreaterThan(0);
    // Whichever it is, the good one does not carry the fit to the wrong one.
    for (const row of doubted) expect(row.weight).toBeLessThan(0.5);
  });
});
