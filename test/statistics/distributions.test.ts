import { readFileSync } from "node:fs";
import chiSquaredPackage from "@stdlib/stats-base-dists-chisquare";
import normalPackage from "@stdlib/stats-base-dists-normal";
import tPackage from "@stdlib/stats-base-dists-t";
import { describe, expect, test } from "vitest";
import {
  chiSquaredAbove,
  chiSquaredBelow,
  chiSquaredQuantile,
  chiSquaredQuantileAbove,
  logNormalBelow,
  logNormalDensity,
  normalAbove,
  normalBelow,
  normalDensity,
  normalQuantile,
  tAbove,
  tBelow,
  tQuantile,
} from "../../src/statistics/index.ts";

// Computed with mpmath 1.3.0 at 50 digits by distribution-values.py beside this file; they, not the packages, judge the
// last digits.
const reference = JSON.parse(readFileSync(new URL("./distribution-values.json", import.meta.url), "utf8")) as {
  normal: [x: number, below: string, log: string, fromMiddle: string][];
  normalQuantile: [p: number, x: string][];
  t: [dof: number, t: number, above: string, fromMiddle: string][];
  tQuantile: [p: number, dof: number, t: string][];
  chiSquared: [dof: number, x: number, below: string, above: string][];
  chiSquaredQuantile: [p: number, dof: number, x: string][];
};

const off = (value: number, exact: string) => Math.abs(value / Number(exact) - 1);
/** What a double's exponent leaves: the logarithm of a share of 1e-300 has an error of 7e-14 from its last place alone. */
const bound = (exact: string) => 1e-14 + 4e-16 * Math.abs(Math.log(Number(exact)));

/** Every row that misses by more than it may. */
function missed<Row extends readonly unknown[]>(rows: readonly Row[], miss: (row: Row) => number, may: number) {
  expect(rows.length).toBeGreaterThan(30);
  return rows.filter((row) => !(miss(row) <= may)).map((row) => `${row.join(" ")}: ${miss(row)}`);
}

describe("values at 50 digits (mpmath 1.3.0, computed)", () => {
  // 1e-15 is four units in the last place.
  test("the normal shares keep their digits from −38 to 38", () => {
    const rows = reference.normal.filter((row) => Number(row[1]) > 0);
    expect(missed(rows, ([x, p]) => off(normalBelow(x), p), 1e-15)).toEqual([]);
    expect(missed(rows, ([x, p]) => off(normalAbove(-x), p), 1e-15)).toEqual([]);
  });
  test("the logarithm of a normal share keeps them to −1e8, where the share itself is no double", () => {
    const rows = reference.normal.filter((row) => Number(row[2]) < 0);
    expect(missed(rows, ([x, , log]) => off(logNormalBelow(x), log), 1e-15)).toEqual([]);
    expect(logNormalBelow(-40)).toBeCloseTo(-804.6084420137538, 12);
    expect(logNormalBelow(40)).toBe(-0);
  });
  test("the normal quantile from the smallest double to one less 1e-16", () => {
    expect(missed(reference.normalQuantile, ([p, x]) => off(normalQuantile(p), x), 1e-15)).toEqual([]);
  });
  test("shares above t, for a tenth to 1e15 degrees of freedom, down to 1e-307", () => {
    expect(missed(reference.t, ([dof, t, above]) => off(tAbove(t, dof), above) / bound(above), 1)).toEqual([]);
    expect(missed(reference.t, ([dof, t, above]) => off(tBelow(-t, dof), above) / bound(above), 1)).toEqual([]);
    // What is below is never far from one, so that its own rounding is all it may miss.
    const below = ([dof, t, above]: (typeof reference.t)[number]) => Math.abs(tBelow(t, dof) - (1 - Number(above)));
    expect(missed(reference.t, below, 1e-15)).toEqual([]);
  });
  test("t quantiles down to 1e-300 and next to the middle", () => {
    const rows = reference.tQuantile.filter(([, dof]) => dof >= 0.5);
    expect(missed(rows, ([p, dof, t]) => off(tQuantile(p, dof), t), 1e-14)).toEqual([]);
    expect(missed(reference.tQuantile, ([p, dof, t]) => off(tQuantile(p, dof), t), 3e-14)).toEqual([]);
  });
  test("both shares of chi-squared, for a tenth to a million degrees of freedom, down to 1e-307", () => {
    const below = reference.chiSquared.filter((row) => row[2] !== "");
    const above = reference.chiSquared.filter((row) => row[3] !== "" && row[0] >= 1);
    expect(missed(below, ([dof, x, p]) => off(chiSquaredBelow(x, dof), p) / bound(p), 1)).toEqual([]);
    expect(missed(above, ([dof, x, , q]) => off(chiSquaredAbove(x, dof), q) / bound(q), 1)).toEqual([]);
    const few = reference.chiSquared.filter((row) => row[3] !== "" && row[0] < 1);
    expect(missed(few, ([dof, x, , q]) => off(chiSquaredAbove(x, dof), q), 5e-14)).toEqual([]);
  });
  test("chi-squared quantiles down to 1e-300", () => {
    // x ~ p^(2/ν): with few degrees of freedom the rounding of the share is multiplied by 2/ν.
    const miss = ([p, dof, x]: (typeof reference.chiSquaredQuantile)[number]) =>
      off(chiSquaredQuantile(p, dof), x) * Math.min(1, dof / 2);
    expect(missed(reference.chiSquaredQuantile, miss, 5e-15)).toEqual([]);
  });
});

describe("closed forms", () => {
  const shares = [1e-12, 0.003, 0.1, 0.3, 0.45];
  test("t of one degree of freedom is Cauchy's, of two is t/√(2 + t²)", () => {
    for (const p of shares) {
      expect(off(tQuantile(p, 1), String(-1 / Math.tan(Math.PI * p)))).toBeLessThan(1e-14);
      expect(off(tQuantile(p, 2), String(-(1 - 2 * p) / Math.sqrt(2 * p * (1 - p))))).toBeLessThan(1e-14);
    }
  });
  test("chi-squared of two degrees of freedom is exponential", () => {
    for (const p of shares) {
      expect(off(chiSquaredQuantile(p, 2), String(-2 * Math.log1p(-p)))).toBeLessThan(1e-14);
      expect(off(chiSquaredQuantileAbove(p, 2), String(-2 * Math.log(p)))).toBeLessThan(1e-14);
    }
  });
  test("chi-squared of one degree of freedom is the square of a normal value", () => {
    for (const p of [1e-200, ...shares])
      expect(off(chiSquaredQuantileAbove(p, 1), String(normalQuantile(p / 2) ** 2))).toBeLessThan(1e-14);
  });
  test("the density is the slope of the share and the exponential of its logarithm", () => {
    for (const x of [-30, -3, -0.5, 0, 0.5, 3, 30]) {
      const h = 1e-3;
      // Five points: the error is h⁴/30 of the fifth derivative, which grows as x⁵.
      const slope =
        (8 * (normalBelow(x + h) - normalBelow(x - h)) - (normalBelow(x + 2 * h) - normalBelow(x - 2 * h))) / (12 * h);
      expect(Math.abs(slope - normalDensity(x))).toBeLessThan(1e-11);
      expect(off(Math.exp(logNormalDensity(x)), String(normalDensity(x)))).toBeLessThan(1e-13);
    }
    expect(logNormalDensity(-40)).toBeCloseTo(-800 - Math.log(2 * Math.PI) / 2, 11);
  });
});

test("the t distribution of endless degrees of freedom is the normal one, and so it is of 1e300", () => {
  for (const p of [1e-20, 0.3, 0.975]) {
    expect(tQuantile(p, Number.POSITIVE_INFINITY)).toBe(normalQuantile(p));
    expect(off(tQuantile(p, 1e300), String(normalQuantile(p)))).toBeLessThan(2e-15);
  }
  expect(tBelow(1.3, Number.POSITIVE_INFINITY)).toBe(normalBelow(1.3));
});

test("nothing breaks where one method takes over from the next", () => {
  for (const dof of [19.999999, 20, 20.000001, 99.99999, 100.00001, 199.9999, 200.0001])
    for (const p of [1e-40, 1e-8, 0.02, 0.2499999, 0.2500001, 0.4]) {
      expect(off(tBelow(tQuantile(p, dof), dof), String(p)), `t ${p} ${dof}`).toBeLessThan(1e-13);
      expect(off(chiSquaredBelow(chiSquaredQuantile(p, dof), dof), String(p)), `χ² ${p} ${dof}`).toBeLessThan(1e-13);
    }
});

test("the packages of @stdlib answer the same", () => {
  for (let i = 1; i < 60; i++) {
    const p = i / 60;
    expect(normalQuantile(p)).toBeCloseTo(normalPackage.quantile(p, 0, 1), 14);
    expect(normalBelow(8 * p - 4) / normalPackage.cdf(8 * p - 4, 0, 1)).toBeCloseTo(1, 13);
    for (const dof of [1, 2, 3.3, 8, 19, 21, 77, 250, 4000]) {
      expect(tQuantile(p, dof)).toBeCloseTo(tPackage.quantile(p, dof), 12);
      expect(tBelow(8 * p - 4, dof) / tPackage.cdf(8 * p - 4, dof)).toBeCloseTo(1, 12);
      const share = chiSquaredPackage.cdf(2 * p * dof, dof);
      if (share > 1e-290) expect(chiSquaredBelow(2 * p * dof, dof) / share).toBeCloseTo(1, 11);
      // At 4000 degrees of freedom the package's quantile is two thousandths off: its own cdf there is not p.
      if (dof < 4000) expect(chiSquaredQuantile(p, dof) / chiSquaredPackage.quantile(p, dof)).toBeCloseTo(1, 11);
    }
  }
});

test("shares outside 0 to 1 and degrees of freedom at or below zero are refused", () => {
  for (const p of [0, 1, -0.1, 1.1, Number.NaN]) {
    const line = `probability: ${p}; a number between 0 and 1 is expected`;
    expect(() => normalQuantile(p)).toThrow(line);
    expect(() => tQuantile(p, 3)).toThrow(line);
    expect(() => chiSquaredQuantile(p, 3)).toThrow(line);
  }
  for (const dof of [0, -1, Number.NaN]) {
    const line = `degrees of freedom: ${dof}; a number above zero is expected`;
    expect(() => tQuantile(0.5, dof)).toThrow(line);
    expect(() => tBelow(1, dof)).toThrow(line);
    expect(() => chiSquaredAbove(1, dof)).toThrow(line);
  }
});

test("the ends are reached and not a number stays none", () => {
  expect(normalBelow(Number.NEGATIVE_INFINITY)).toBe(0);
  expect(normalBelow(Number.POSITIVE_INFINITY)).toBe(1);
  expect(logNormalBelow(Number.NEGATIVE_INFINITY)).toBe(Number.NEGATIVE_INFINITY);
  expect(tBelow(Number.NEGATIVE_INFINITY, 3)).toBe(0);
  expect(tBelow(Number.POSITIVE_INFINITY, 30)).toBe(1);
  expect(tBelow(0, 30)).toBe(0.5);
  expect(chiSquaredBelow(-1, 3)).toBe(0);
  expect(chiSquaredAbove(Number.POSITIVE_INFINITY, 3)).toBe(0);
  // Beyond what a double holds.
  expect(tQuantile(1e-300, 0.1)).toBe(Number.NEGATIVE_INFINITY);
  for (const share of [normalBelow, logNormalBelow, (x: number) => tBelow(x, 3), (x: number) => tBelow(x, 30)])
    expect(share(Number.NaN)).toBeNaN();
  for (const dof of [3, 30, 300]) expect(chiSquaredBelow(Number.NaN, dof)).toBeNaN();
});
