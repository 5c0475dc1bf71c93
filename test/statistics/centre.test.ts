import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  mad,
  mean,
  median,
  normalMad,
  normalQuantile,
  quantile,
  rng,
  standardDeviation,
  theilSen,
} from "../../src/statistics/index.ts";

const samples = fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 2, maxLength: 40 });

describe("centre and spread", () => {
  test("mean and standard deviation keep their digits far from zero", () => {
    // 1e9 + {4, 7, 13, 16}: mean 10, variance 30, the textbook trap of one-pass formulas.
    const sample = [4, 7, 13, 16].map((x) => 1e9 + x);
    expect(mean(sample)).toBe(1e9 + 10);
    expect(standardDeviation(sample)).toBeCloseTo(Math.sqrt(30), 12);
    expect(mean([1, 1e100, 1, -1e100])).toBe(0.5);
  });

  test("median is the middle, or between the two middles", () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([5])).toBe(5);
  });

  test("half a sample of wild values moves neither median nor spread beyond the good ones", () => {
    const good = [1, 2, 3, 4, 5];
    expect(median([...good, 1e9, 1e9, 1e9, 1e9])).toBe(5);
    expect(mad([...good, 1e9, 1e9])).toBeLessThan(normalMad * 4);
  });

  test("the spread of a normal sample is its standard deviation", () => {
    expect(normalMad).toBeCloseTo(1 / normalQuantile(0.75), 12);
    const stream = rng(3);
    const sample = Float64Array.from({ length: 100_000 }, () => 2 * stream.normal());
    // The spread's standard error is 1.17 σ / √n: here 0.0074; five of them.
    expect(Math.abs(mad(sample) - 2)).toBeLessThan(0.037);
  });

  test("quantiles run from the least to the largest and never cross", () => {
    fc.assert(
      fc.property(
        samples,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (sample, p, q) => {
          expect(quantile(sample, 0)).toBe(Math.min(...sample));
          expect(quantile(sample, 1)).toBe(Math.max(...sample));
          expect(quantile(sample, 0.5)).toBeCloseTo(median(sample), 9);
          expect(quantile(sample, Math.min(p, q))).toBeLessThanOrEqual(quantile(sample, Math.max(p, q)));
        },
      ),
      { seed: 1 },
    );
  });

  test("mean, median and spread move and stretch with the sample", () => {
    fc.assert(
      fc.property(
        samples,
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: 1, max: 9 }),
        (sample, shift, scale) => {
          const moved = sample.map((x) => scale * x + shift);
          // 1e-9 of values up to 1e4: far above rounding, far below any difference of method.
          for (const centre of [mean, median])
            expect(Math.abs(centre(moved) - (scale * centre(sample) + shift))).toBeLessThan(1e-9);
          for (const spread of [standardDeviation, mad])
            expect(Math.abs(spread(moved) - scale * spread(sample))).toBeLessThan(1e-9);
        },
      ),
      { seed: 2 },
    );
  });

  test("a quarter of wild points does not turn the median line", () => {
    const x = Array.from({ length: 20 }, (_, i) => i);
    const y = x.map((value, i) => (i % 4 === 0 ? 1000 + 7 * i : 3 + 0.5 * value));
    expect(theilSen(x, y)).toEqual({ slope: 0.5, intercept: 3 });
  });

  test("too few values, or a line through one x, are refused", () => {
    expect(() => mean([])).toThrow("sample: 0 values; at least 1 expected");
    expect(() => standardDeviation([1])).toThrow("sample: 1 values; at least 2 expected");
    expect(() => theilSen([1, 1], [2, 3])).toThrow("x: 2 equal values; at least two different ones are expected");
    expect(() => theilSen([1, 2], [2])).toThrow("y: 1 values; as many as in x, 2, are expected");
  });
});
