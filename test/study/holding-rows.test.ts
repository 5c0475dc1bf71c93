import { describe, expect, it } from "vitest";
import { comparablePulls, holdingRows, pullCases, verdictOf } from "../../src/study/index.ts";
import { caseOf, record, trialRode } from "./cases.ts";

const water = { depth_m: 6, scope: 37 / 7.35, loadAt: "bow" } as const;

describe("a series of pulls as rows of the pulls table", () => {
  it("has both loads equal where the anchor gave way, one where it held or never set, two where it lies between", () => {
    const { rows, leftOut } = holdingRows([
      caseOf({ ...water, result: { kind: "gaveWay", load_N: 2000, u_N: 20 }, endedBy: "drag" }),
      caseOf({ ...water, result: { kind: "heldTo", load_N: 2600, u_N: 20 } }),
      caseOf({ ...water, result: { kind: "neverSet", load_N: 400, u_N: 20 } }),
      caseOf({ ...water, result: { kind: "gaveWay" }, steps: [{ load_N: 1000 }, { load_N: 1500 }, { load_N: 2000 }] }),
    ]);
    expect(leftOut).toEqual([]);
    expect(rows.map((row) => [row.heldTo_N !== null, row.gaveWayBy_N !== null])).toEqual([
      [true, true],
      [true, false],
      [false, true],
      [true, true],
    ]);
    expect(rows[0]!.heldTo_N).toBe(rows[0]!.gaveWayBy_N);
    expect(rows[3]!.heldTo_N!).toBeLessThan(rows[3]!.gaveWayBy_N! - 450);
    for (const row of rows)
      for (const load of [row.heldTo_N, row.gaveWayBy_N]) if (load !== null) expect(load).toBeLessThan(2600 - 50);
    expect(rows[0]).toMatchObject({
      anchor: "Scoop, 15 kg",
      mass_kg: 15,
      seabed: "soft mud",
      site: "Ternhead Flats",
      day: "2024-05-15",
      ending: "drag",
      tester: "two",
    });
    expect(rows[1]!.anchorAngle_deg).toBeGreaterThan(1);
  });

  it("leaves out what says nothing, each with its cause and place", () => {
    const result = { kind: "heldTo", load_N: 2600, u_N: 20 } as const;
    const { rows, leftOut } = holdingRows([
      caseOf({ ...water, result }, { anchor: null }),
      caseOf({ ...water }),
      caseOf({ ...water, result: { kind: "neverSet" } }),
      caseOf({ ...water, result }, { rigFile: null }),
      caseOf({ ...water, result: { kind: "heldTo", load_N: 1 } }),
      caseOf({ ...water, result }),
    ]);
    expect(leftOut.map(({ row, cause }) => [row, cause])).toEqual([
      [1, "noAnchor"],
      [2, "noResult"],
      [3, "noLoad"],
      [4, "noRig"],
      [5, "noEquilibrium"],
    ]);
    expect(rows).toHaveLength(1);
  });

  it("needs no rig where the load was read at the anchor", () => {
    const { rows } = holdingRows([
      caseOf({ loadAt: "anchor", result: { kind: "gaveWay", load_N: 2000, u_N: 20 } }, { rigFile: null }),
    ]);
    expect(rows[0]).toMatchObject({ heldTo_N: 2000, gaveWayBy_N: 2000, anchorAngle_deg: null });
  });
});

describe("the verdict of a pull", () => {
  const log = {
    held: {
      kind: "gaveWay",
      newtons: 1800,
      u: 15,
      at: "bow",
      mark: "m",
      why: { kind: "held", seconds: 30, most: null, rule: null, gaveWayAtLess: false, open: null },
      untold: null,
    },
    zeroFound: true,
    unmatched: 0,
  } as const;

  it("is the record's where it has one, and says where the log differs", () => {
    const { verdict, from, doubts } = verdictOf(
      { loadAt: "bow", result: { kind: "heldTo", load_N: 2000, u_N: 20 } },
      log,
    );
    expect([verdict.kind, from]).toEqual(["heldTo", "record"]);
    expect(doubts).toEqual([
      {
        kind: "resultDiffersFromLog",
        result: { kind: "heldTo", newtons: 2000 },
        log: { kind: "gaveWay", newtons: 1800 },
      },
    ]);
  });

  it("is the log's where the record has none", () => {
    expect(verdictOf({ result: { kind: "none" } }, log)).toMatchObject({
      from: "log",
      verdict: { kind: "gaveWay" },
      doubts: [],
    });
  });

  it("says that an ending and a result contradict each other", () => {
    const doubted = (kind: "heldTo" | "gaveWay", endedBy: "drag" | "engine limit" | "gear") =>
      verdictOf({ loadAt: "bow", endedBy, result: { kind, load_N: 2000, u_N: 20 } }, null).doubts.length > 0;
    expect(doubted("heldTo", "drag")).toBe(true);
    expect(doubted("gaveWay", "engine limit")).toBe(true);
    expect(doubted("heldTo", "engine limit")).toBe(false);
    expect(doubted("gaveWay", "drag")).toBe(false);
    expect(doubted("heldTo", "gear")).toBe(false);
  });

  it("takes 1 % of a load whose uncertainty nobody stated, and says so", () => {
    expect(verdictOf({ loadAt: "bow", result: { kind: "heldTo", load_N: 2000 } }, null)).toMatchObject({
      verdict: { load: { u: 20 } },
      doubts: [{ kind: "uncertaintyUnstated", u: 20 }],
    });
  });
});

describe("cases gathered from the records of a book", () => {
  const site = record("site", "s", { name: "cove" });
  const days = [1.4, 0.4, null].map((waterLevel_m, i) =>
    record("day", `d${i}`, { date: `2024-05-1${i}`, site: "s", waterLevel_m }),
  );
  const pull = (id: string, day: string, depth_m: number | null) =>
    record("pull", id, { day, anchor: "a", rigVersion: "v", depth_m });
  const records = {
    pull: [pull("p0", "d0", 6.4), pull("p1", "d0", 6.6), pull("p2", "d1", null), pull("p3", "d2", null)],
    day: days,
    site: [site],
    seabed: [],
    anchor: [record("anchor", "a", { name: "Claw", shape: "claw" })],
    series: [],
    rigVersion: [record("rigVersion", "v", { rig: "r", file: trialRode })],
  };

  it("find what a pull points to, its site by its day", () => {
    const [first] = pullCases(records);
    expect(first).toMatchObject({ site: { name: "cove" }, anchor: { name: "Claw" }, seabed: null, rigFile: trialRode });
  });

  it("give a pull without depth that of the others on its ground, corrected by the level of its day", () => {
    const cases = pullCases(records);
    expect(cases[0]!.depthByLevel).toBeNull();
    // 6.5 m at a level of 1.4 m is 5.5 m at 0.4 m.
    expect(cases[2]!.depthByLevel).toMatchObject({ value: 5.5, soundings: 2 });
    expect(cases[3]!.depthByLevel).toBeNull();
  });
});

describe("what goes with the load of a row", () => {
  const cases = (load: number) => [
    caseOf({ ...water, result: { kind: "heldTo", load_N: load, u_N: 20 } }),
    caseOf({ ...water, result: { kind: "gaveWay" }, steps: [{ load_N: 1500 }, { load_N: load }] }),
  ];

  it("is its uncertainty, the angle it made, and how that grows with the load", () => {
    const at = (load: number) => holdingRows(cases(load)).rows;
    const [held, between] = at(2000);
    const [more] = at(2010);
    expect(held!.uncertainty_N).toBeGreaterThan(20);
    // A difference of half a percent in load, whose curvature leaves some thousandths of the slope.
    const seen = (more!.anchorAngle_deg! - held!.anchorAngle_deg!) / Math.log(more!.heldTo_N! / held!.heldTo_N!);
    expect(held!.anchorAngleRise_deg! / seen).toBeCloseTo(1, 1);
    expect(held!.anchorAngleHeld_deg).toBeNull();
    expect(between!.anchorAngleHeld_deg!).toBeLessThan(between!.anchorAngle_deg!);
    const { pulls } = comparablePulls(cases(2000));
    expect(pulls[0]).toMatchObject({ loadError: held!.uncertainty_N! / held!.heldTo_N! });
    expect(pulls[0]!.angleRise! / ((held!.anchorAngleRise_deg! * Math.PI) / 180)).toBeCloseTo(1, 12);
    expect(pulls[1]!.angleHeld!).toBeLessThan(pulls[1]!.anchorAngle!);
  });

  it("has no rise while rode lies on the bottom", () => {
    const { rows } = holdingRows(cases(400));
    expect(rows[0]!.anchorAngle_deg).toBe(0);
    expect(rows[0]!.anchorAngleRise_deg).toBe(0);
  });
});
