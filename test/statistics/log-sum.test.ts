/** Sums of what logarithms stand for, worked out from definitions. */
import { describe, expect, it } from "vitest";
import { logAdd, logSum } from "../../src/statistics/index.ts";

describe("a sum behind logarithms", () => {
  it("is that of the numbers themselves, in any order", () => {
    expect(logAdd(Math.log(3), Math.log(5))).toBeCloseTo(Math.log(8), 14);
    expect(logAdd(Math.log(5), Math.log(3))).toBeCloseTo(Math.log(8), 14);
    expect(logSum([0.5, 2, 7, 0.25].map(Math.log))).toBeCloseTo(Math.log(9.75), 14);
  });
  it("holds far beyond what the numbers themselves could be", () => {
    expect(logAdd(5000, 5000)).toBeCloseTo(5000 + Math.LN2, 10);
    expect(logSum([-5000, -5000, -5000, -5000])).toBeCloseTo(-5000 + Math.log(4), 10);
  });
  it("of nothing is nothing, and nothing adds nothing", () => {
    const none = Number.NEGATIVE_INFINITY;
    expect(logSum([])).toBe(none);
    expect(logSum([none, none])).toBe(none);
    expect(logAdd(none, none)).toBe(none);
    expect(logAdd(none, 2)).toBe(2);
    expect(logSum([none, 2])).toBe(2);
  });
});
