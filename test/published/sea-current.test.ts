import { describe, expect, it } from "vitest";
import {
  acrossCoefficient,
  type Boat,
  currentForce,
  DEEP_SEA_WATER,
  frictionCoefficient,
} from "../../src/sea/index.ts";

const ship: Boat = {
  name: "a block to count on",
  length: 11,
  waterline: 10,
  beam: 3.5,
  draught: 0.8,
  displacement: 8200,
  bowRollerHeight: 1.2,
  measured: [],
  uncertainty: {},
};

describe("current force by UFC 4-159-03, sec. 4-5 (formulae seen)", () => {
  it("has the friction line of the worked check: 1.5 m/s, 10 m, ν 1.19e-6 (computed independently)", () => {
    const force = currentForce(ship, 1.5, 0, { ...DEEP_SEA_WATER, viscosity: 1.19e-6 });
    // Re printed to seven figures, the coefficient to seven.
    expect(force.reynolds).toBeCloseTo(1.260504e7, -1);
    expect(Math.abs(force.frictionCoefficient - 0.002882891)).toBeLessThan(5.1e-10);
    expect(frictionCoefficient(force.reynolds)).toBe(force.frictionCoefficient);
  });

  it("adds form (0.1 B T) and friction over S = 1.7 T L + D/(T γ), eq. 16-18, worked by hand", () => {
    const force = currentForce(ship, 1.5, 0, { ...DEEP_SEA_WATER, waterDensity: 1025, viscosity: 1.19e-6 });
    // ½·1025·2.25 = 1153.125 Pa; B T = 2.8 m²; S = 13.6 + 8 / 0.8 = 23.6 m².
    expect(force.form).toBeCloseTo(1153.125 * 2.8 * 0.1, 9);
    expect(force.wettedArea).toBeCloseTo(23.6, 12);
    expect(Math.abs(force.friction - 1153.125 * 23.6 * 0.002882891)).toBeLessThan(1153.125 * 23.6 * 5.1e-10);
    expect(force.along).toBe(force.form + force.friction);
    expect(Math.abs(force.across)).toBeLessThan(1e-9);
  });

  it("rises in shallow water as Table 4-6 prints it for a large ship at 1.5 m/s (seen, MN)", () => {
    const table = [
      [0.096, 0.55],
      [0.288, 0.66],
      [0.576, 1.03],
      [0.72, 1.3],
      [0.96, 1.9],
    ] as const;
    // The ship's size is not visible; two of the five rows give its χ and its scale, the other three then check the law.
    const [first, last] = [table[0], table[4]];
    const ratio = (chi: number): number => acrossCoefficient(chi, last[0]) / acrossCoefficient(chi, first[0]);
    let [low, high] = [0.1, 200];
    for (let i = 0; i < 200; i++) {
      const middle = (low + high) / 2;
      if (ratio(middle) > last[1] / first[1]) low = middle;
      else high = middle;
    }
    const scale = last[1] / acrossCoefficient(low, last[0]);
    for (const [share, force] of table) {
      // Half a unit of the printed second decimal, and as much again for the two rows that set the scale.
      expect(Math.abs(scale * acrossCoefficient(low, share) - force)).toBeLessThan(0.01);
    }
  });
});
