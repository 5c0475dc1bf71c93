import { describe, expect, it } from "vitest";
import { beaufort, beaufortFromKnots, beaufortSpeed } from "../../src/sea/index.ts";

// WMO code table 1100, both columns as printed (seen).
const knots = [
  [0, 0],
  [1, 3],
  [4, 6],
  [7, 10],
  [11, 16],
  [17, 21],
  [22, 27],
  [28, 33],
  [34, 40],
  [41, 47],
  [48, 55],
  [56, 63],
  [64, 200],
] as const;
const metres = [
  [0, 0.2],
  [0.3, 1.5],
  [1.6, 3.3],
  [3.4, 5.4],
  [5.5, 7.9],
  [8.0, 10.7],
  [10.8, 13.8],
  [13.9, 17.1],
  [17.2, 20.7],
  [20.8, 24.4],
  [24.5, 28.4],
  [28.5, 32.6],
  [32.7, 100],
] as const;

describe("Beaufort, WMO code table 1100", () => {
  it.each(knots.map(([low, high], force) => [force, low, high] as const))(
    "force %i is %i to %i kn",
    (force, low, high) => {
      expect(beaufortFromKnots(low).force).toBe(force);
      expect(beaufortFromKnots(high).force).toBe(force);
    },
  );

  it.each(metres.map(([low, high], force) => [force, low, high] as const))(
    "force %i is %f to %f m/s",
    (force, low, high) => {
      expect(beaufort(low).force).toBe(force);
      expect(beaufort(high).force).toBe(force);
    },
  );

  it("names the forces in the table's words", () => {
    expect([0, 12, 22, 34, 48, 70].map((kn) => beaufortFromKnots(kn).name)).toEqual([
      "calm",
      "moderate breeze",
      "strong breeze",
      "gale",
      "storm",
      "hurricane",
    ]);
  });

  it("follows v = 0.836 B^1.5 (recalled; values computed independently)", () => {
    for (const [force, speed] of [
      [4, 6.688],
      [6, 12.287],
      [8, 18.917],
      [10, 26.437],
      [12, 34.752],
    ] as const) {
      // Half a unit of the third decimal printed.
      expect(Math.abs(beaufortSpeed(force) - speed)).toBeLessThan(5.01e-4);
    }
  });
});
