import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readRig, settle } from "../../src/rode/index.ts";
import { type Loop, loopDistance, loopPull } from "../../src/sizing/index.ts";

const loop: Loop = { length: 10, weight: 19.4, stiffness: 5.8e6 };

describe("a loop of chain between two points", () => {
  it("pulls as a settled chain of the same length does whose ends are level (rode's own closed forms)", () => {
    // The lower half of a symmetric loop: from its lowest point, where the pull is level, to one end.
    for (const pull of [40, 200, 2000]) {
      const distance = loopDistance(loop, pull);
      const half = 0.5 * loop.length;
      const height =
        (Math.hypot(pull, loop.weight * half) - pull) / loop.weight + (loop.weight * half ** 2) / (2 * loop.stiffness);
      const rig = readRig(
        `format: rodebench/rig@1\nsetting: { medium: air, rise: ${height} m }\nrode:\n  - line: { length: ${half} m, massPerLength: ${loop.weight / 9.80665} kg/m, density: 7850, stiffness: ${loop.stiffness} N }\n`,
        "loop",
      );
      const settled = settle(rig, { at: "horizontal", newtons: pull });
      if (settled.kind !== "settled") throw new Error(settled.cause);
      // The anchor end of that rig is level to rounding, so the half loop is all of it.
      expect(settled.span / (0.5 * distance)).toBeCloseTo(1, 6);
    }
  });

  it("reads back: distance to pull to distance", () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 10.01, noNaN: true }), (distance) => {
        expect(loopDistance(loop, loopPull(loop, distance)) / distance).toBeCloseTo(1, 9);
      }),
      { seed: 22, numRuns: 200 },
    );
  });

  it("pulls next to nothing while slack and without end once straight", () => {
    expect(loopPull(loop, 5)).toBeLessThan(0.2 * loop.weight * loop.length);
    // All but straight, a chain is a parabola: c = L + HL/EA − w²L³/(24 H²), textbook, good to the square of its slope (1 %).
    const pull = loopPull(loop, 9.999);
    const { length: L, weight: w, stiffness: EA } = loop;
    expect(L + (pull * L) / EA - (w * w * L ** 3) / (24 * pull * pull)).toBeCloseTo(9.999, 4);
    expect(loopPull({ ...loop, stiffness: Number.POSITIVE_INFINITY }, 10)).toBe(Number.POSITIVE_INFINITY);
  });
});
