import { describe, expect, test } from "vitest";
import { chiSquaredQuantile, mean, normalBelow, type Rng, rng, standardDeviation } from "../../src/statistics/index.ts";

function many(count: number, draw: () => number): Float64Array {
  return Float64Array.from({ length: count }, draw);
}

/** Chi-squared of counts in cells of like chance. */
function unevenness(shares: Float64Array, cells: number): number {
  const counts = new Float64Array(cells);
  for (const share of shares) counts[Math.min(cells - 1, Math.floor(share * cells))]!++;
  const expected = shares.length / cells;
  return counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
}

describe("random numbers", () => {
  test("the same seed gives the same numbers, another seed others", () => {
    const numbers = (stream: Rng): number[] => [stream.uniform(), stream.normal(), stream.normal(), stream.gamma(2.5)];
    expect(numbers(rng(7))).toEqual(numbers(rng(7)));
    expect(numbers(rng(8))).not.toEqual(numbers(rng(7)));
  });

  test("seeds next to each other give unrelated first numbers", () => {
    const first = many(
      10_000,
      (() => {
        let seed = 0;
        return () => rng(seed++).uniform();
      })(),
    );
    expect(unevenness(first, 100)).toBeLessThan(chiSquaredQuantile(0.999, 99));
    // Correlation of neighbours: standard error 0.01.
    const middle = mean(first);
    let together = 0;
    for (let i = 1; i < first.length; i++) together += (first[i]! - middle) * (first[i - 1]! - middle);
    expect(Math.abs(together / first.length / (1 / 12))).toBeLessThan(0.04);
  });

  test.each([1, 2, 3, 4, 5])("uniform numbers fill 1000 cells alike (seed %i)", (seed) => {
    const stream = rng(seed);
    const found = unevenness(
      many(200_000, () => stream.uniform()),
      1000,
    );
    expect(found).toBeLessThan(chiSquaredQuantile(0.9999, 999));
    expect(found).toBeGreaterThan(chiSquaredQuantile(0.0001, 999));
  });

  test.each([1, 2, 3])("normal deviates, through their distribution, fill 1000 cells alike (seed %i)", (seed) => {
    const stream = rng(seed);
    const found = unevenness(
      many(200_000, () => normalBelow(stream.normal())),
      1000,
    );
    expect(found).toBeLessThan(chiSquaredQuantile(0.9999, 999));
    expect(found).toBeGreaterThan(chiSquaredQuantile(0.0001, 999));
  });

  // Means of 100 000 draws, to five of their standard errors.
  test.each<[string, (stream: Rng) => number, number, number]>([
    ["exponential", (s) => s.exponential(), 1, 1],
    ["gamma of shape 0.3", (s) => s.gamma(0.3), 0.3, 0.3],
    ["gamma of shape 7", (s) => s.gamma(7), 7, 7],
    ["t with 5 degrees of freedom", (s) => s.t(5), 0, 5 / 3],
    ["whole number below 6", (s) => s.integer(6), 2.5, 35 / 12],
  ])("%s has its mean and variance", (_, draw, middle, variance) => {
    const stream = rng(99);
    const found = many(100_000, () => draw(stream));
    expect(Math.abs(mean(found) - middle)).toBeLessThan(5 * Math.sqrt(variance / found.length));
    // Kurtosis up to 30 (gamma 0.3): the variance is known to 2 %.
    expect(standardDeviation(found) ** 2 / variance).toBeCloseTo(1, 1);
  });

  test("branches are streams of their own, and leave the trunk as it was", () => {
    const [trunk, alone] = [rng(5), rng(5)];
    const branches = [trunk.branch(), trunk.branch()];
    expect(trunk.uniform()).toBe(alone.uniform());
    const [a, b] = branches.map((branch) => many(50_000, () => branch.normal())) as [Float64Array, Float64Array];
    const together = mean(a.map((x, i) => x * b[i]!));
    expect(Math.abs(together)).toBeLessThan(5 / Math.sqrt(a.length));
    expect(Array.from(a.subarray(0, 5))).not.toEqual(Array.from(b.subarray(0, 5)));
  });

  test("a seed or a bound that is no whole number is refused", () => {
    expect(() => rng(1.5)).toThrow("seed: 1.5; a whole number is expected");
    expect(() => rng(1).integer(0)).toThrow("below: 0; a whole number above zero is expected");
    expect(() => rng(1).gamma(-1)).toThrow("shape: -1; a number above zero is expected");
  });
});
