/** A bearing stated beside a log, and load against the anchor's movement. */
import { describe, expect, it } from "vitest";
import { reduceTrace } from "../../../src/pull/index.ts";
import { makePull } from "./make-pull.ts";
import { regimes } from "./regimes.ts";

const made = (name: string, seed: number) => makePull(regimes.find((one) => one.name === name)!, seed);

describe("the direction of a pull", () => {
  it("is the bearing somebody took, right to a tenth of a radian", () => {
    const pull = made("holds, quiet water", 900_003);
    const bearing = pull.truth.directionAt(0);
    const r = reduceTrace(pull.trace, { readAt: "bow", settings: { bearing } });
    expect(r.path!.stretches.map(({ direction }) => direction)).toEqual([{ value: bearing, u: 0.1, by: "stated" }]);
  });
});

describe("load against the anchor's movement", () => {
  it("is right within 3 u of what the ground's maker says in nearly every row", () => {
    let rows = 0;
    let right = 0;
    for (const name of ["ploughs, throttle off at once", "holds, quiet water"])
      for (const seed of [900_002, 900_003, 900_004]) {
        const pull = made(name, seed);
        const r = reduceTrace(pull.trace, { readAt: "bow" });
        if (r.set.kind !== "measured") continue;
        const way = (t: number): number => pull.truth.anchor[Math.round(t * 10)]!;
        for (const row of r.way) {
          rows++;
          if (Math.abs(row.way.value - (way(row.at) - way(r.set.from))) < 3 * row.way.u) right++;
        }
      }
    expect(rows).toBeGreaterThan(6);
    expect(right).toBeGreaterThanOrEqual(0.95 * rows);
  });

  it("is empty without a track", () => {
    const { track: _, ...alone } = made("ploughs, throttle off at once", 900_002).trace;
    expect(reduceTrace(alone, { readAt: "bow" }).way).toEqual([]);
  });
});
