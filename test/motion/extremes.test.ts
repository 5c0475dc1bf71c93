import { describe, expect, it } from "vitest";
import { extremes, fitTail, peaksBetweenRises } from "../../src/motion/index.ts";
import { rng } from "../../src/statistics/index.ts";

describe("extremes from the peaks of a record", () => {
  it("find the largest of a narrow Gaussian process where Longuet-Higgins (1952) has it: σ √(2 ln N)", () => {
    const random = rng(5);
    // A sum of 80 cosines about 0.1 Hz: Gaussian, peaks by Rayleigh.
    const parts = Array.from({ length: 80 }, () => ({
      w: 2 * Math.PI * (0.09 + 0.02 * random.uniform()),
      p: 2 * Math.PI * random.uniform(),
    }));
    const h = 0.5;
    const n = 100_000;
    const load = Float64Array.from({ length: n }, (_, i) => {
      let sum = 0;
      for (const { w, p } of parts) sum += Math.cos(w * i * h + p);
      return sum / Math.sqrt(40);
    });
    const duration = n * h;
    const storm = 3 * 3600;
    const answer = extremes(peaksBetweenRises(load, 0).load, duration, storm, rng(6))!;
    const expected = Math.sqrt(2 * Math.log(0.1 * storm));
    expect(answer.mostProbable.u).toBeLessThan(0.3);
    expect(Math.abs(answer.mostProbable.value - expected)).toBeLessThan(3 * answer.mostProbable.u + 0.05);
    expect(answer.ninety.value).toBeGreaterThan(answer.mostProbable.value);
  });

  it("give the law back that peaks were drawn from: exponential, shape 0", () => {
    const random = rng(9);
    const peaks = Float64Array.from({ length: 20_000 }, () => 500 + 200 * random.exponential());
    const fit = fitTail(peaks)!;
    // 4000 excesses: u(k) ≈ √(1/n)·1.1 = 0.017 for probability-weighted moments near k = 0 (Hosking & Wallis; recalled).
    expect(Math.abs(fit.shape)).toBeLessThan(0.07);
    expect(fit.scale / 200).toBeGreaterThan(0.9);
    expect(fit.scale / 200).toBeLessThan(1.1);
  });

  it("say nothing of too few peaks", () => {
    expect(fitTail(Float64Array.from({ length: 20 }, (_, i) => i))).toBeNull();
  });
});
