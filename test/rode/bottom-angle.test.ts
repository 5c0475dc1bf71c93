/**
 * An anchor feels the angle to its bottom. Checks by the closed form of the catenary (Irvine, Cable Structures, 1981,
 * ch. 1) of a rigid rode that hangs free: the slope of the bottom enters by the angle at its anchor alone.
 */
import { describe, expect, it } from "vitest";
import { carry } from "../../src/pull/index.ts";
import { find, match, type Rig, settle } from "../../src/rode/index.ts";
import { loads } from "../pull/run/demo.ts";

const LENGTH = 30;
const RISE = 9;
const WEIGHT = 2.3 * 9.80665;
const DEGREE = Math.PI / 180;

const sloping = (degrees: number): Rig =>
  loads({ loads: [1], setting: `{ medium: air, rise: 9 m, bottomSlope: ${degrees} deg }` }).rig;

/** Load at the upper end of the catenary whose anchor end stands at an angle above the horizontal: z = rise, bisected. */
function bowLoad(angle: number): number {
  const t = Math.tan(angle);
  const over = (a: number) => a * (Math.hypot(1, t + LENGTH / a) - Math.hypot(1, t)) - RISE;
  let [low, high] = [1e-3, 1e9];
  for (let i = 0; i < 300; i++) {
    const middle = Math.sqrt(low * high);
    if (over(middle) > 0) low = middle;
    else high = middle;
  }
  const a = Math.sqrt(low * high);
  return WEIGHT * a * Math.hypot(1, t + LENGTH / a);
}

describe("an anchor feels the angle to its bottom", () => {
  it.each([-6, -2, 2, 5, 8])("carry equates it from a level stand-in to a bottom that rises %i deg", (degrees) => {
    const { run, rig } = loads({ loads: [1250, 1350, 1450] });
    const { rows, notCarried } = carry(run, rig, sloping(degrees));
    expect(notCarried).toEqual([]);
    expect(new Set(rows.map((row) => Math.round(row.bow))).size).toBe(3);
    for (const row of rows) {
      expect(row.says).toBe("equal");
      expect(row.angleToBottom).toBeGreaterThan(0);
      // Both sides are solved to 1e-13; near straight the load magnifies that by some hundreds.
      expect(Math.abs(row.bow / bowLoad(row.angleToBottom + degrees * DEGREE) - 1)).toBeLessThan(1e-9);
    }
  });

  it("carry from a sloping stand-in to a level rode and back returns the reading", () => {
    const there = loads({ loads: [1500, 2000], setting: "{ medium: air, rise: 9 m, bottomSlope: -4 deg }" });
    const level = sloping(0);
    const out = carry(there.run, there.rig, level).rows;
    const run = { ...there.run, readings: out.map((row) => ({ load: row.bow, liftoff: false })) };
    const back = carry(run, level, there.rig).rows;
    expect(back.map((row) => Math.round(row.bow * 1e6) / 1e6)).toEqual([1500, 2000]);
  });

  it("match finds the length at which the other's anchor is pulled at one angle to its bottom", () => {
    const level = sloping(0);
    const rising = sloping(5);
    const found = match(level, rising, { at: "bow", newtons: 1800 });
    if (found.kind !== "matched") throw new Error(found.cause);
    expect(found.atLiftoff).toBe(false);
    expect(Math.abs(found.other.anchor.angleToBottom - found.rig.anchor.angleToBottom)).toBeLessThan(1e-10);
    expect(found.other.anchor.angle - found.rig.anchor.angle).toBeCloseTo(5 * DEGREE, 9);
  });

  it("find reaches an angle to the bottom, and one above the horizontal that is the same less the slope", () => {
    const rig = sloping(5);
    const pull = { at: "bow", newtons: 1800 } as const;
    const unknown = { what: "length", part: 1 } as const;
    const toBottom = find(rig, { unknown, pull, goal: { goal: "angleToBottom", angle: 2 * DEGREE } });
    const above = find(rig, { unknown, pull, goal: { goal: "anchorAngle", angle: 7 * DEGREE } });
    if (toBottom.kind !== "found" || above.kind !== "found") throw new Error("both are found");
    expect(Math.abs(toBottom.value / above.value - 1)).toBeLessThan(1e-10);
    const settled = settle(toBottom.rig, pull);
    expect(settled.kind === "settled" && settled.anchor.angleToBottom / DEGREE).toBeCloseTo(2, 8);
  });

  it("no pull is at an angle below the bottom", () => {
    const goal = { goal: "anchorAngle", angle: 2 * DEGREE } as const;
    const found = find(sloping(5), { unknown: { what: "pull" }, pull: { at: "bow", newtons: 1 }, goal });
    expect(found.kind).toBe("noEquilibrium");
    if (found.kind === "noEquilibrium") expect(found.limit / DEGREE).toBeCloseTo(5, 9);
  });
});
