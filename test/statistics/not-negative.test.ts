import { describe, expect, it } from "vitest";
import { normalBelow, normalDensity, notNegative } from "../../src/statistics/index.ts";

describe("a normal distribution cut off below zero", () => {
  it.each([
    [1.3, 0.4],
    [0, 2],
    [-0.7, 0.5],
    [-9, 2],
    [40, 1],
  ])("%d ± %d has the moments that its density sums to", (value, sd) => {
    let [all, mean, square] = [0, 0, 0];
    const step = sd / 4000;
    // To ten standard deviations past where it is densest; the rule of the middle.
    for (let x = step / 2; x < Math.max(0, value) + 10 * sd; x += step) {
      const weight = normalDensity((x - value) / sd);
      all += weight;
      mean += weight * x;
      square += weight * x * x;
    }
    mean /= all;
    const cut = notNegative(value, sd);
    expect(cut.mean / mean).toBeCloseTo(1, 5);
    expect(cut.sd / Math.sqrt(square / all - mean ** 2)).toBeCloseTo(1, 4);
    expect(cut.logShare).toBeCloseTo(Math.log(normalBelow(value / sd)), 10);
  });

  it("is half a normal one about zero: mean √(2/π), standard deviation √(1 − 2/π)", () => {
    const { mean, sd, logShare } = notNegative(0, 1);
    expect(mean).toBeCloseTo(Math.sqrt(2 / Math.PI), 14);
    expect(sd).toBeCloseTo(Math.sqrt(1 - 2 / Math.PI), 14);
    expect(logShare).toBeCloseTo(Math.log(0.5), 14);
  });

  it("far below is exponential, its mean and standard deviation sd²/|value|, without a break where that takes over", () => {
    for (const value of [-25, -29.99, -30.01, -1e3, -1e10]) {
      const { mean, sd } = notNegative(value, 1);
      expect(mean * -value).toBeCloseTo(1, 2);
      expect(sd * -value).toBeCloseTo(1, 2);
    }
  });
});
