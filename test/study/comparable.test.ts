import { describe, expect, it } from "vitest";
import { readRig, settle } from "../../src/rode/index.ts";
import { comparablePulls, type PullCase } from "../../src/study/index.ts";
import { caseOf, record, trialRode } from "./cases.ts";

const gaveWay = {
  depth_m: 6,
  scope: 37 / 7.35,
  loadAt: "anchor",
  result: { kind: "gaveWay", load_N: 2000, u_N: 20 },
} as const;

/** Each with an id of its own, in their order. */
const numbered = (cases: readonly PullCase[]): PullCase[] =>
  cases.map((one, i) => ({ ...one, pull: { ...one.pull, id: `p${i + 1}` } }));
const about = (newtons: number) => expect.closeTo(newtons, 6);

describe("pulls as they are compared", () => {
  it("say what is known of each, one field without the other too", () => {
    const { pulls } = comparablePulls(
      numbered([
        caseOf(gaveWay),
        caseOf({ ...gaveWay, endedBy: "drag" }, { site: null, seabed: null }),
        caseOf(gaveWay, { day: null, anchor: record("anchor", "a2", { name: "Claw", flukeArea_m2: 0.11 }) }),
      ]),
    );
    expect(pulls.map(({ anchor, mass, flukeArea }) => [anchor, mass, flukeArea])).toEqual([
      ["Scoop, 15 kg", 15, undefined],
      ["Scoop, 15 kg", 15, undefined],
      ["Claw", undefined, 0.11],
    ]);
    expect(pulls.map(({ site, seabed, ending }) => [site, seabed, ending])).toEqual([
      ["Ternhead Flats", "soft mud", undefined],
      [undefined, undefined, "drag"],
      ["Ternhead Flats", "soft mud", undefined],
    ]);
    expect(pulls.map(({ day, tester }) => [day, tester])).toEqual([
      ["2024-05-15", "two"],
      ["2024-05-15", "two"],
      [undefined, undefined],
    ]);
  });

  it("hold to the load at which they gave way, and between two loads where it lies there", () => {
    const { pulls } = comparablePulls(
      numbered([
        caseOf(gaveWay),
        caseOf({ ...gaveWay, result: { kind: "heldTo", load_N: 2600, u_N: 20 } }),
        caseOf({ ...gaveWay, result: { kind: "neverSet", load_N: 400, u_N: 20 } }),
        caseOf({ ...gaveWay, result: { kind: "gaveWay" }, steps: [{ load_N: 2400 }, { load_N: 3000 }] }),
      ]),
    );
    expect(pulls.map(({ hold }) => hold)).toEqual([
      { kind: "gaveWay", newtons: about(2000) },
      { kind: "heldTo", newtons: about(2600) },
      { kind: "neverHeld", newtons: about(400) },
      { kind: "between", heldTo: about(2400), gaveWayBy: about(3000) },
    ]);
    expect(pulls.map(({ angleHeld }) => angleHeld !== undefined)).toEqual([false, false, false, true]);
    // The pull's water is the rig file's own: 6 m and 37 m.
    // At both loads the anchor is lifted.
    const filed = (newtons: number): number => {
      const settled = settle(readRig(trialRode, "rig"), { at: "anchor", newtons });
      return settled.kind === "settled" ? settled.anchor.angleToBottom : Number.NaN;
    };
    expect(pulls[3]!.angleHeld!).toBeCloseTo(filed(2400), 9);
    expect(pulls[3]!.anchorAngle!).toBeCloseTo(filed(3000), 9);
    expect(filed(2400)).toBeGreaterThan(0.01);
    expect(filed(3000)).toBeGreaterThan(filed(2400) + 0.01);
  });

  it("are left out where the rode at rest carries all of the load, by their place in the list", () => {
    const { pulls, ids, leftOut } = comparablePulls(
      numbered([
        caseOf({ ...gaveWay, loadAt: "bow", result: { kind: "heldTo", load_N: 180, u_N: 2 } }),
        caseOf(gaveWay, { anchor: null }),
        caseOf(gaveWay),
      ]),
    );
    expect(leftOut.map(({ row, cause }) => [row, cause])).toEqual([
      [1, "noneReached"],
      [2, "noAnchor"],
    ]);
    expect([pulls.length, ids]).toEqual([1, ["p3"]]);
  });
});
