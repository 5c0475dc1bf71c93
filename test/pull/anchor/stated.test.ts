/** What somebody states of a pull beside its log: the bearing, and whether she pulled astern or ahead. */
import { describe, expect, it } from "vitest";
import { reduceTrace } from "../../../src/pull/index.ts";
import { makePull } from "./make-pull.ts";
import { regimes } from "./regimes.ts";

const made = (name: string, seed: number) => makePull(regimes.find((one) => one.name === name)!, seed);
const off = (a: number, b: number): number => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));

describe("the direction of a pull", () => {
  it("is the bearing somebody took, right to a tenth of a radian", () => {
    const pull = made("holds, quiet water", 900_003);
    const bearing = pull.truth.directionAt(0);
    const r = reduceTrace(pull.trace, { readAt: "bow", settings: { bearing } });
    expect(r.path!.stretches.map(({ direction }) => direction)).toEqual([{ value: bearing, u: 0.1, by: "stated" }]);
  });

  it("of a boat pulling ahead is found by her places where nobody said so, and that is told", () => {
    const name = "holds, pulled ahead unsaid, heading logged";
    // What tells is the rode's give against the wander of the fix: in most pulls of six it does.
    const found = [1, 2, 3, 4, 5, 6].map((k) => {
      const pull = made(name, 900_000 + k);
      const { direction } = reduceTrace(pull.trace, { readAt: "bow" }).path!.stretches[0]!;
      const right = off(direction.value, pull.truth.directionAt(0)) < 0.5;
      expect(direction.foundAhead === true).toBe(right);
      return right;
    });
    expect(found.filter(Boolean).length).toBeGreaterThanOrEqual(4);
  });

  it("of a boat pulling astern stays where nobody said so", () => {
    for (const k of [1, 2, 3, 4]) {
      const pull = made("holds, heading logged", 900_000 + k);
      const { direction } = reduceTrace(pull.trace, { readAt: "bow" }).path!.stretches[0]!;
      expect(off(direction.value, pull.truth.directionAt(0))).toBeLessThan(0.5);
      expect(direction.foundAhead).toBeUndefined();
    }
  });
});

describe("load against the anchor's movement", () => {
  it("has a row a plateau, right within 3 u of what the ground's maker says, and the first movement when it was", () => {
    const pull = made("ploughs, throttle off at once", 900_002);
    const r = reduceTrace(pull.trace, { readAt: "bow" });
    if (r.set.kind !== "measured") throw new Error("a set distance is expected");
    const way = (t: number): number => pull.truth.anchor[Math.round(t * 10)]!;
    expect(r.way.length).toBeGreaterThan(0);
    for (const row of r.way)
      expect(Math.abs(row.way.value - (way(row.at) - way(r.set.from)))).toBeLessThan(3 * row.way.u);
    expect(r.firstMovement).not.toBeNull();
    // The anchor truly goes while it is said to.
    expect(way(r.firstMovement!.to) - way(r.firstMovement!.from)).toBeGreaterThan(1);
  });

  it("is empty without a track", () => {
    const { track: _, ...alone } = made("ploughs, throttle off at once", 900_002).trace;
    expect(reduceTrace(alone, { readAt: "bow" })).toMatchObject({ way: [], firstMovement: null });
  });
});
