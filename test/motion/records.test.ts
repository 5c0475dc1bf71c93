/** What is drawn from a spectrum, and what a recorded series says by itself. */
import { describe, expect, it } from "vitest";
import { evenBands, logBands, randomRecord } from "../../src/motion/random-record.ts";
import { seriesStatistics } from "../../src/motion/series-statistics.ts";
import { rng } from "../../src/statistics/index.ts";

describe("bands", () => {
  it("even in frequency run from the first to the last in equal steps", () =>
    expect(evenBands(0.1, 0.5, 4).map((each) => each.toFixed(12))).toEqual(
      [0.1, 0.2, 0.3, 0.4, 0.5].map((each) => each.toFixed(12)),
    ));
  it("even in the logarithm run from the first to the last by equal factors", () =>
    expect(logBands(0.01, 10, 3).map((each) => each.toPrecision(12))).toEqual(
      [0.01, 0.1, 1, 10].map((each) => each.toPrecision(12)),
    ));
});

it("a record's variance is that of its bands, each of its frequencies lies in its band, and another seed draws others", () => {
  const edges = logBands(0.02, 1, 40);
  // A spectrum S(f) = 3 f: between two frequencies 1.5 (b² − a²).
  const record = randomRecord(edges, (a, b) => 1.5 * (b * b - a * a), rng(3));
  expect(record.count).toBe(40);
  let variance = 0;
  for (let j = 0; j < record.count; j++) {
    const f = record.omega[j]! / (2 * Math.PI);
    expect(f).toBeGreaterThanOrEqual(edges[j]!);
    expect(f).toBeLessThanOrEqual(edges[j + 1]!);
    variance += record.amplitude[j]! ** 2 / 2;
  }
  expect(variance).toBeCloseTo(1.5 * (1 - 0.02 ** 2), 12);
  expect(Math.max(...record.phase) - Math.min(...record.phase)).toBeGreaterThan(Math.PI);
  const other = randomRecord(edges, () => 1, rng(4));
  expect([...other.omega]).not.toEqual([...record.omega]);
  // A spectrum that dips below zero by rounding has nothing there.
  expect(randomRecord([1, 2], () => -1e-18, rng(1)).amplitude[0]).toBe(0);
});

describe("statistics of a series", () => {
  it("of eight numbers are those of the textbook formulas", () => {
    const { mean, deviation, largest, least, u } = seriesStatistics(Float64Array.of(2, 4, 4, 4, 5, 5, 7, 9));
    // Σ(x − 5)² = 32 over n − 1 = 7.
    expect([mean, largest, least]).toEqual([5, 9, 2]);
    expect(deviation).toBeCloseTo(Math.sqrt(32 / 7), 14);
    // Too short to be cut into twenty.
    expect(u).toBeNaN();
  });
  it("the ± of the mean is the scatter of twenty stretches over the root of twenty", () => {
    // Stretch b holds b, ten times: their means are 0 to 19, whose variance is (20² − 1)/12 · 20/19.
    const series = Float64Array.from({ length: 200 }, (_, i) => Math.floor(i / 10));
    expect(seriesStatistics(series).mean).toBe(9.5);
    expect(seriesStatistics(series).u).toBeCloseTo(Math.sqrt(((20 ** 2 - 1) / 12) * (20 / 19) * (1 / 20)), 12);
  });
  it("of noise that remembers, ± covers the true mean as often as it says", () => {
    // An autoregressive series of mean 10: x ← 10 + 0.9 (x − 10) + e.
    let within = 0;
    const series = new Float64Array(4000);
    const random = rng(11);
    for (let run = 0; run < 400; run++) {
      let x = 10;
      for (let i = 0; i < series.length; i++) {
        x = 10 + 0.9 * (x - 10) + random.normal();
        series[i] = x;
      }
      const { mean, u } = seriesStatistics(series);
      if (Math.abs(mean - 10) < 2.093 * u) within++;
    }
    // 2.093 is t of 19 degrees at 97.5 % (tables); four deviations of a count of 400 at 95 % are 17.
    expect(within).toBeGreaterThan(380 - 18);
    expect(within).toBeLessThan(380 + 18);
  });
});
