import { describe, expect, it } from "vitest";
import { comesToRest } from "../../../src/pull/trace/comes-to-rest.ts";
import { chanceOf } from "../anchor/chance.ts";

const GRAIN = 0.5;

/** A load that falls from 100 N to `rest` by dF/dt = −F (F/100)^(p−1) / time, stepped, not solved, with noise. */
function falling(p: number, time: number, grains: number, rest: number, noise: () => number): Float64Array {
  let left = 100;
  return Float64Array.from({ length: grains }, () => {
    const now = left;
    for (let k = 0; k < 50; k++) left -= ((GRAIN / 50) * left * (left / 100) ** (p - 1)) / time;
    return rest + now + noise();
  });
}

describe("what a load that falls to rest comes to", () => {
  it("is the level of one that has come to rest, and as sure as its mean", () => {
    const { normal } = chanceOf(3);
    const level = Float64Array.from({ length: 60 }, () => -40 + 2 * normal());
    const rest = comesToRest(level, GRAIN, 100);
    const mean = level.reduce((sum, v) => sum + v, 0) / 60;
    expect(Math.abs(rest.value - mean)).toBeLessThan(2 * rest.u);
    expect(rest.u).toBeGreaterThan(2 / Math.sqrt(60) / 2);
    expect(rest.u).toBeLessThan(2);
    expect(comesToRest(new Float64Array(20).fill(7), GRAIN, 100)).toEqual({ value: 7, u: 0 });
    // A display's own reading through a change of units: alike to the last digit but one.
    const shown = Float64Array.from({ length: 14 }, (_, k) => 9 * 4.4482216152605 * (1 + (k % 2) * 1e-16));
    expect(comesToRest(shown, GRAIN, 100).value).toBeCloseTo(40.034, 3);
  });

  it("is a number for whatever is read: a step, a rise without noise, one reading far off", () => {
    const odd = [
      Float64Array.from({ length: 20 }, (_, k) => (k < 10 ? 0 : 50)),
      Float64Array.from({ length: 20 }, (_, k) => (k < 10 ? 50 : 0)),
      Float64Array.from({ length: 30 }, (_, k) => 1000 + 10 * k),
      Float64Array.from({ length: 30 }, (_, k) => (k === 15 ? 1e6 : 0)),
      Float64Array.from({ length: 30 }, (_, k) => 1e-9 * k),
    ];
    for (const values of odd) {
      const { value, u } = comesToRest(values, GRAIN, 50);
      expect(value).toBeGreaterThanOrEqual(Math.min(...values) - 5000);
      expect(value).toBeLessThanOrEqual(Math.max(...values));
      expect(u).toBeGreaterThanOrEqual(0);
      expect(u).toBeLessThan(Number.POSITIVE_INFINITY);
    }
  });

  it("is below the last reading of one that still falls, and known worse the sooner its log ends", () => {
    const { normal } = chanceOf(5);
    const us = [12, 24, 48, 96].map((grains) => {
      const values = falling(1, 8, grains, -40, () => normal());
      const rest = comesToRest(values, GRAIN, 100);
      expect(rest.value).toBeLessThan(Math.min(...values.slice(-5)) + 2);
      expect(Math.abs(rest.value + 40)).toBeLessThan(3 * rest.u);
      return rest.u;
    });
    expect(us).toEqual([...us].sort((a, b) => b - a));
    expect(us[3]).toBeLessThan(2);
  });

  it.each([
    ["on a spring", 1],
    ["on a catenary", 2],
  ])("is where a fall without noise ends %s, to some hundredths of it", (_, p) => {
    const rest = comesToRest(
      falling(p, 10, 80, 12, () => 0),
      GRAIN,
      100,
    );
    expect(Math.abs(rest.value - 12)).toBeLessThan(2 * rest.u);
    expect(rest.u).toBeLessThan(8);
  });

  it("is never above what it would be if it stayed: a rising foot takes nothing up", () => {
    const rising = Float64Array.from({ length: 40 }, (_, k) => 5 + 0.5 * k);
    expect(comesToRest(rising, GRAIN, 50).value).toBeLessThanOrEqual(5 + 0.5 * 19.5 + 1e-6);
  });

  it("moves and scales with the readings", () => {
    const { normal } = chanceOf(9);
    const values = falling(1.7, 6, 30, 3, () => 2 * normal());
    const once = comesToRest(values, GRAIN, 100);
    const twice = comesToRest(
      values.map((v) => 2 * v + 500),
      GRAIN,
      200,
    );
    expect(twice.value).toBeCloseTo(2 * once.value + 500, 6);
    expect(twice.u).toBeCloseTo(2 * once.u, 6);
  });

  it("holds what it tends to within 2 u in nine of ten of another maker's: any power from 1 to 2.5, any pace, correlated noise", () => {
    const chance = chanceOf(77);
    let within = 0;
    for (let run = 0; run < 400; run++) {
      let slow = 0;
      const noise = chance.between(0.5, 3.5);
      const values = falling(
        chance.between(1, 2.5),
        chance.between(1.5, 16),
        Math.floor(chance.between(16, 76)),
        20,
        () => {
          slow = 0.6 * slow + 0.8 * chance.normal();
          return noise * slow;
        },
      );
      const rest = comesToRest(values, GRAIN, 100);
      if (Math.abs(rest.value - 20) <= 2 * rest.u) within++;
    }
    expect(within).toBeGreaterThan(0.9 * 400);
  });
});
