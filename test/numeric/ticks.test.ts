import { describe, expect, it } from "vitest";
import { roundAbove, roundBelow, roundStep, ticks } from "../../src/numeric/index.ts";

describe("round numbers", () => {
  it.each([
    [1, 1],
    [1.01, 2],
    [2, 2],
    [2.01, 5],
    [5, 5],
    [5.01, 10],
    [0.03, 0.05],
    [0.0501, 0.1],
    [730, 1000],
    [1e-7, 1e-7],
  ])("the step not below %s is %s", (value, step) => expect(roundStep(value) / step).toBeCloseTo(1, 12));
  it.each([
    [1, 1],
    [1.2, 1.5],
    [1.6, 2],
    [2.5, 3],
    [3.1, 5],
    [5.1, 7.5],
    [7.6, 10],
    [450, 500],
    [0.021, 0.03],
  ])("the top not below %s is %s", (value, top) => expect(roundAbove(value) / top).toBeCloseTo(1, 12));
  it.each([
    [1, 1],
    [1.99, 1],
    [2, 2],
    [4.99, 2],
    [5, 5],
    [9.99, 5],
    [0.3, 0.2],
    [730, 500],
  ])("the one not above %s is %s", (value, step) => expect(roundBelow(value) / step).toBeCloseTo(1, 12));
  it("of a value a rounding beyond a round one are that one", () => {
    expect(roundStep(0.1 + 0.2 - 0.1)).toBeCloseTo(0.2, 12);
    expect(roundStep(5 * (1 + 1e-10))).toBe(5);
    expect(roundBelow(5 * (1 - 1e-10))).toBe(5);
  });
});

describe("marks of an axis", () => {
  it("are the multiples of a round step, both ends among them where they are round", () => {
    expect(ticks(0, 10, 5)).toEqual([0, 2, 4, 6, 8, 10]);
    expect(ticks(0.3, 1.1, 4)).toEqual([0.4, 0.6, 0.8, 1]);
    expect(ticks(-30, 20, 5)).toEqual([-30, -20, -10, 0, 10, 20]);
    expect(ticks(0, 0.3, 3)).toEqual([0, 0.1, 0.2, 0.3]);
    expect(ticks(1000, 1250, 3)).toEqual([1000, 1100, 1200]);
    expect(ticks(0, 7, 1)).toEqual([0]);
    expect(ticks(0, 7, 0)).toEqual([0]);
  });
  it("of no range is its one place", () => {
    expect(ticks(3, 3, 5)).toEqual([3]);
    expect(ticks(3, 2, 5)).toEqual([3]);
    expect(ticks(3, Number.POSITIVE_INFINITY, 5)).toEqual([3]);
    expect(ticks(3, Number.NaN, 5)).toEqual([3]);
  });
});
