import { describe, expect, it } from "vitest";
import { meanOfGrains } from "../../../src/pull/trace/scatter.ts";
import { normal, numbers } from "./simulated-pull.ts";

/** First-order autoregression of unit variance about zero: its mean over n has variance (1 + r)/(1 − r)/n nearly. */
function correlated(n: number, r: number, random: () => number): Float64Array {
  const out = new Float64Array(n);
  let x = normal(random);
  for (let k = 0; k < n; k++) {
    out[k] = x;
    x = r * x + Math.sqrt(1 - r * r) * normal(random);
  }
  return out;
}

/** Variance of the mean of n values of that series: Σ over all pairs, in closed form. */
function varianceOfMean(n: number, r: number): number {
  let sum = 1;
  for (let k = 1; k < n; k++) sum += 2 * (1 - k / n) * r ** k;
  return sum / n;
}

describe("the standard uncertainty of a mean of correlated readings", () => {
  it.each([
    [200, 0],
    [200, 0.5],
    [200, 0.8],
    [1000, 0.9],
  ])("is that of the known process on average (n = %d, correlation %d)", (n, r) => {
    const random = numbers(1000 + n + Math.round(10 * r));
    const trials = 400;
    let squares = 0;
    let covered = 0;
    for (let k = 0; k < trials; k++) {
      const m = meanOfGrains(correlated(n, r, random), 0, n);
      squares += m.u * m.u;
      if (Math.abs(m.mean) < 2 * m.u) covered++;
    }
    const ratio = Math.sqrt(squares / trials / varianceOfMean(n, r));
    // The straight line taken off hides some of the slowest swings; u then is a little short, never long by more.
    expect(ratio).toBeGreaterThan(0.87);
    expect(ratio).toBeLessThan(1.12);
    // 95.4 % for a normal error of known u; 400 trials scatter by 1 %, an estimated u costs up to 5 %.
    expect(covered / trials).toBeGreaterThan(0.89);
  });

  it("is σ/√n, no less, for swings that cancel", () => {
    const swing = Float64Array.from({ length: 400 }, (_, k) => Math.sin((2 * Math.PI * k) / 8));
    const m = meanOfGrains(swing, 0, 400);
    expect(m.u).toBeGreaterThanOrEqual(Math.SQRT1_2 / Math.sqrt(400));
  });

  it("tells the slope of a ramp and takes it for no scatter", () => {
    const m = meanOfGrains(
      Float64Array.from({ length: 100 }, (_, k) => 50 + 0.25 * k),
      0,
      100,
    );
    expect(m.slope).toBeCloseTo(0.25, 12);
    expect(m.mean).toBeCloseTo(50 + 0.25 * 49.5, 10);
    expect(m.scatter).toBeLessThan(1e-10);
  });
});
