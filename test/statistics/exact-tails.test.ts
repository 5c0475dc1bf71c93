/**
 * The incomplete beta and gamma functions with whole parameters are sums of binomial and Poisson chances: worked out here
 * in whole numbers, for which nothing of the functions' own expansions is needed.
 */
import { describe, expect, it } from "vitest";
import { chiSquaredBelow, incompleteBeta } from "../../src/statistics/index.ts";

/** A quotient of whole numbers as the double next to it. */
function quotient(top: bigint, bottom: bigint): number {
  const shift = 25 + bottom.toString().length - top.toString().length;
  const digits = shift >= 0 ? (top * 10n ** BigInt(shift)) / bottom : top / (bottom * 10n ** BigInt(-shift));
  return Number(`${digits}e${-shift}`);
}

/** I_x(a, b) = P(at least a of a + b − 1 come off), x = top/bottom. */
function betaExactly(a: number, b: number, top: bigint, bottom: bigint): number {
  const n = a + b - 1;
  let choose = 1n;
  let above = 0n;
  for (let k = 0; k <= n; k++) {
    if (k >= a) above += choose * top ** BigInt(k) * (bottom - top) ** BigInt(n - k);
    choose = (choose * BigInt(n - k)) / BigInt(k + 1);
  }
  return quotient(above, bottom ** BigInt(n));
}

/** P(Poisson(x) ≥ n), x whole: Σ over k from n of x^k/k!, over e^x, both cut where 60 digits end. */
function gammaExactly(n: number, x: number): number {
  const one = 10n ** 400n;
  let term = one;
  let whole = 0n;
  let above = 0n;
  for (let k = 0; term > 0n; k++) {
    whole += term;
    if (k >= n) above += term;
    term = (term * BigInt(x)) / BigInt(k + 1);
  }
  return quotient(above, whole);
}

describe("the incomplete beta function", () => {
  const cases: [a: number, b: number, top: number, bottom: number][] = [];
  for (const [a, b] of [
    [1, 1],
    [2, 5],
    [9, 9],
    [30, 40],
    // One small beside a large one, either way about; both large.
    [3, 150],
    [10, 101],
    [1, 400],
    [7, 240],
    [60, 60],
    [40, 180],
    [11, 95],
  ] as const)
    for (const [top, bottom] of [
      [1, 100],
      [1, 20],
      [1, 4],
      [1, 2],
      [7, 10],
      [19, 20],
    ] as const)
      cases.push([a, b, top, bottom], [b, a, top, bottom]);
  // Below 1e-250 the powers leave the doubles.
  const told = cases.filter(([a, b, top, bottom]) => betaExactly(a, b, BigInt(top), BigInt(bottom)) > 1e-250);
  it.each(told)("of %i and %i at %i/%i is the chance of that many of so many, to 13 digits", (a, b, top, bottom) => {
    const exact = betaExactly(a, b, BigInt(top), BigInt(bottom));
    const x = top / bottom;
    const value = incompleteBeta(a, b, x, (bottom - top) / bottom);
    // Stated: up to the mean of itself, beyond it of one; the rounding of x counts a times, that of 1 − x b times.
    const rounding = 2.3e-16 * (a + b) + 2e-14;
    if (x <= a / (a + b))
      expect(Math.abs(value / exact - 1)).toBeLessThan(rounding + 1e-15 * Math.abs(Math.log(exact)));
    else expect(Math.abs(value - exact)).toBeLessThan(rounding);
  });
  it("is 0 and 1 at its ends, and a half in the middle of equal parameters", () => {
    expect(incompleteBeta(3, 4, 0, 1)).toBe(0);
    expect(incompleteBeta(3, 4, 1, 0)).toBe(1);
    for (const a of [0.5, 3, 70, 500]) expect(Math.abs(incompleteBeta(a, a, 0.5, 0.5) - 0.5)).toBeLessThan(1e-13);
  });
});

describe("chi-squared of an even number of freedoms", () => {
  it.each([
    [1, 1],
    [3, 2],
    [10, 4],
    [10, 25],
    [60, 55],
    [60, 80],
    [150, 120],
    [300, 310],
  ])("2 × %i at 2 × %i is the chance of a Poisson count", (n, x) => {
    expect(Math.abs(chiSquaredBelow(2 * x, 2 * n) / gammaExactly(n, x) - 1)).toBeLessThan(3e-13);
  });
});
