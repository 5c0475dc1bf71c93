import { describe, expect, test } from "vitest";
import { levenbergMarquardt, mean, type Rng, rng, robustFit, standardDeviation } from "../../src/chance/index.ts";

const x = Array.from({ length: 25 }, (_, i) => i / 5);
const truth = [2, -0.7, 4];
const model = (b: ArrayLike<number>, at: number): number => b[0]! * Math.exp(b[1]! * at) + b[2]!;

function problem(observed: number[], uncertainty?: number) {
  return {
    observed,
    predict: (b: Float64Array, out: Float64Array) => {
      for (let i = 0; i < observed.length; i++) out[i] = model(b, x[i]!);
    },
    ...(uncertainty === undefined ? {} : { uncertainty: x.map(() => uncertainty) }),
  };
}
const readings = (stream: Rng, u: number): number[] => x.map((at) => model(truth, at) + u * stream.normal());

describe("robust fit", () => {
  test("three wild readings of 25 are flagged, kept in view, and do not move the answer", () => {
    const clean = readings(rng(4), 0.02);
    const wild = clean.map((y, i) => (i === 2 ? y + 0.5 : i === 11 ? y - 0.8 : i === 20 ? y + 0.3 : y));
    for (const uncertainty of [undefined, 0.02]) {
      const fit = robustFit(problem(wild, uncertainty), [1, -1, 1]);
      expect(fit.outcome.kind).toBe("converged");
      expect(fit.flagged).toEqual([2, 11, 20]);
      expect(fit.weights).toHaveLength(25);
      expect(fit.residuals).toHaveLength(25);
      expect(fit.residuals[11]).toBeCloseTo(-0.8, 1);
      for (const i of [2, 11, 20]) expect(fit.weights[i]).toBe(0);
      // What least squares says of the 22 good ones; Tukey's weights give a like answer, to half a deviation.
      const kept = x.map((_, i) => (fit.flagged.includes(i) ? 1e-12 : 1));
      const good = levenbergMarquardt(problem(clean, 0.02), [1, -1, 1], { weights: kept });
      good.parameters.forEach((value, j) => {
        expect(Math.abs(fit.parameters[j]! - value)).toBeLessThan(0.5 * good.standardDeviations[j]!);
      });
      // The plain fit beside it shows what they would have done.
      expect(Math.abs(fit.plain.parameters[1]! - truth[1]!)).toBeGreaterThan(3 * good.standardDeviations[1]!);
    }
  });

  test("clean readings are left as they are: few weights below a half, an answer near the plain one", () => {
    const fit = robustFit(problem(readings(rng(5), 0.02), 0.02), [1, -1, 1]);
    expect(fit.flagged).toEqual([]);
    expect(fit.weights.filter((w) => w < 0.5).length).toBeLessThanOrEqual(2);
    fit.plain.parameters.forEach((value, j) => {
      expect(Math.abs(fit.parameters[j]! - value)).toBeLessThan(0.6 * fit.plain.standardDeviations[j]!);
    });
  });

  test.each([0, 3])("stated deviations are what repeated experiments with %i wild readings scatter by", (wild) => {
    const stream = rng(31 + wild);
    const runs = Array.from({ length: 130 }, () => {
      const y = readings(stream, 0.02);
      for (let k = 0; k < wild; k++) y[stream.integer(y.length)]! += 0.4 * (stream.uniform() < 0.5 ? -1 : 1);
      return robustFit(problem(y, 0.02), [1.5, -0.5, 3.5], { scale: "stated" });
    });
    for (const j of [0, 1, 2]) {
      const scatter = standardDeviation(runs.map((run) => run.parameters[j]!));
      const stated = mean(runs.map((run) => run.standardDeviations[j]!));
      // A standard deviation from 130 runs is known to 6 %; four of those.
      expect(Math.abs(scatter / stated - 1)).toBeLessThan(0.25);
    }
  });

  test("the spread finds the noise where no uncertainty is stated", () => {
    const scales = Array.from(
      { length: 40 },
      (_, k) => robustFit(problem(readings(rng(100 + k), 0.05)), [1, -1, 1]).scale,
    );
    // One spread of 25 readings is known to about 17 %, the mean of 40 to 3 %; it is a few per cent high by design.
    expect(mean(scales)).toBeGreaterThan(0.045);
    expect(mean(scales)).toBeLessThan(0.06);
  });

  test("too modest an uncertainty makes no outliers: the scale grows instead", () => {
    const fit = robustFit(problem(readings(rng(8), 0.02), 0.005), [1, -1, 1]);
    expect(fit.scale).toBeGreaterThan(2.5);
    expect(fit.scale).toBeLessThan(6);
    expect(fit.flagged.length).toBeLessThanOrEqual(1);
    const stated = robustFit(problem(readings(rng(8), 0.02), 0.005), [1, -1, 1], { scale: "stated" });
    expect(stated.scale).toBe(1);
    expect(stated.flagged.length).toBeGreaterThan(3);
  });

  test("Huber's weights pull in a far reading without letting go of it", () => {
    const wild = readings(rng(4), 0.02).map((y, i) => (i === 11 ? y - 0.8 : y));
    const fit = robustFit(problem(wild, 0.02), [1, -1, 1], { weight: "huber" });
    expect(fit.flagged).toEqual([11]);
    expect(fit.weights[11]).toBeGreaterThan(0.02);
    expect(fit.weights[11]).toBeLessThan(0.06);
    expect(fit.weights[11]! * Math.abs(fit.scaledResiduals[11]!)).toBeCloseTo(1.345, 6);
  });

  test("an exact fit with one wild reading is exact on the rest", () => {
    const y = x.map((at, i) => model(truth, at) + (i === 7 ? 1 : 0));
    const fit = robustFit(problem(y), [1, -1, 1]);
    fit.parameters.forEach((value, j) => {
      expect(value).toBeCloseTo(truth[j]!, 7);
    });
    expect(fit.flagged).toContain(7);
  });

  test("Cook's distance is how far a reading alone pulls the plain fit", () => {
    const line = (y: number[], skip?: number) => {
      const at = x.filter((_, i) => i !== skip);
      const observed = y.filter((_, i) => i !== skip);
      return {
        observed,
        predict: (b: Float64Array, out: Float64Array) => {
          for (let i = 0; i < observed.length; i++) out[i] = b[0]! + b[1]! * at[i]!;
        },
      };
    };
    const stream = rng(6);
    const y = x.map((at) => 1 + at + 0.1 * stream.normal());
    const fit = robustFit(line(y), [0, 0]);
    for (const skip of [0, 12, 24]) {
      const without = levenbergMarquardt(line(y, skip), [0, 0]);
      const d = without.parameters.map((value, j) => value - fit.plain.parameters[j]!);
      // (JᵀJ) of a line, and D = dᵀ(JᵀJ)d / (p s²): exact for a linear model.
      const [n, sx, sxx] = [25, x.reduce((a, b) => a + b, 0), x.reduce((a, b) => a + b * b, 0)];
      const form = n * d[0]! ** 2 + 2 * sx * d[0]! * d[1]! + sxx * d[1]! ** 2;
      const cook = form / (2 * fit.plain.residualStandardDeviation ** 2);
      expect(fit.cooksDistances[skip]! / cook).toBeCloseTo(1, 6);
    }
  });

  test("a stated scale without stated uncertainties is refused", () => {
    expect(() => robustFit(problem(readings(rng(1), 0.1)), [1, -1, 1], { scale: "wider" })).toThrow(
      'scale: "wider"; stated uncertainties are expected for it, or the scale spread',
    );
  });
});
