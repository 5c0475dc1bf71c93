import { describe, expect, it } from "vitest";
import {
  logNormalBelowWithSlope,
  normalBelow,
  sumLogNormalBelow,
  tabledLogNormalBelow,
} from "../../src/statistics/index.ts";

// python3 with mpmath 1.3.0: log(erfc(-x / sqrt(2)) / 2) at 40 digits.
const VALUES = [
  [-9.97, -52.92878809501793],
  [-6.03, -20.92196266486787],
  [-3.33, -7.741936393678056],
  [-1.03, -1.887136632872678],
  [-0.21, -0.875067610174026],
  [0.47, -0.384453665815309],
  [1.71, -0.044613482012751],
  [2.94, -0.00164240925013],
] as const;

describe("the tabled logarithm of the normal share", () => {
  it("is within 2e-15, and its slope within 1e-13, of the one by quotients, inside the table and out", () => {
    const exact = new Float64Array(2);
    const tabled = new Float64Array(2);
    let worst = 0;
    let worstSlope = 0;
    for (let x = -40; x < 12; x += 0.00173) {
      logNormalBelowWithSlope(x, exact);
      tabledLogNormalBelow(x, tabled);
      worst = Math.max(worst, Math.abs(tabled[0]! - exact[0]!) / Math.max(1, Math.abs(exact[0]!)));
      worstSlope = Math.max(worstSlope, Math.abs(tabled[1]! - exact[1]!) / Math.max(1, exact[1]!));
    }
    expect(worst).toBeLessThan(2e-15);
    expect(worstSlope).toBeLessThan(1e-13);
  });

  it("agrees with values at 40 digits (mpmath: log(ncdf(x)))", () => {
    const out = new Float64Array(2);
    for (const [x, value] of VALUES) {
      tabledLogNormalBelow(x, out);
      expect(Math.abs(out[0]! - value)).toBeLessThan(1e-14 * Math.max(1, Math.abs(value)));
    }
  });

  it("adds up a column and leaves the slopes in place", () => {
    const x = Float64Array.from([-50, -3.2, -0.01, 0.7, 9, Number.NaN]);
    const own = x.slice();
    const sum = sumLogNormalBelow(x, x, 1, 4);
    expect(sum).toBeCloseTo(
      own.subarray(1, 4).reduce((total, at) => total + Math.log(normalBelow(at)), 0),
      13,
    );
    expect(x[0]).toBe(-50);
    expect(x[1]).toBeCloseTo(Math.exp(-0.5 * 3.2 ** 2) / Math.sqrt(2 * Math.PI) / normalBelow(-3.2), 12);
    expect(sumLogNormalBelow(x, x, 5, 6)).toBeNaN();
  });
});
