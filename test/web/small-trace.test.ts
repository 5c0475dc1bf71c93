import { describe, expect, it } from "vitest";
import type { Bands } from "../../src/web/days/log/view-bytes.ts";
import { outlineOf } from "../../src/web/days/small-outline.ts";

const bands = (min: number[], max: number[]): Bands => ({
  readings: false,
  from: Float64Array.from(min.keys()),
  to: Float64Array.from(min.keys(), (i) => i),
  columns: new Map([["load", { min: Float64Array.from(min), max: Float64Array.from(max) }]]),
});
const corners = (path: string): number[][] =>
  path
    .replace(/^M|Z$/g, "")
    .split("L")
    .map((corner) => corner.split(" ").map(Number));

describe("the small trace of a pull", () => {
  it("goes over the greatest and back along the least, from no load at its foot to the peak at its head", () => {
    // By hand: 120 wide over 2 s; 24 high between its rims of 1, for 0 to 400 N.
    expect(corners(outlineOf(bands([0, 100, 200], [0, 300, 400]), "load"))).toEqual([
      ...[
        [0, 25],
        [60, 7],
        [120, 1],
      ],
      ...[
        [120, 13],
        [60, 19],
        [0, 25],
      ],
    ]);
  });

  it("leaves out what was not read, and is nothing where nothing was, or no load", () => {
    expect(corners(outlineOf(bands([0, Number.NaN, 200], [0, Number.NaN, 400]), "load"))).toHaveLength(4);
    expect(outlineOf(bands([0, 0], [0, 0]), "load")).toBe("");
    expect(outlineOf(bands([1], [2]), "angle")).toBe("");
  });
});
