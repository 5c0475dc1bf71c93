import { describe, expect, test } from "vitest";
import { levenbergMarquardt, mean, outlierFit, type Rng, rng, standardDeviation } from "../../src/statistics/index.ts";

const x = Array.from({ length: 25 }, (_, i) => i / 5);
const truth = [2, -0.7, 4];
const model = (b: ArrayLike<number>, at: number): number => b[0]! * Math.exp(b[1]! * at) + b[2]!;

function problem(observed: readonly number[], uncertainty = 0.02) {
  return {
    observed,
    predict: (b: Float64Array, out: Float64Array) => {
      for (let i = 0; i < observed.length; i++) out[i] = model(b, x[i]!);
    },
    uncertainty: observed.map(() => uncertainty),
  };
}
const readings = (stream: Rng, u: number): number[] => x.map((at) => model(truth, at) + u * stream.normal());

/** A straight line through a few readings, with what is known of it beforehand. */
function line(at: readonly number[], observed: readonly number[], prior?: number) {
  return {
    observed,
    predict: (b: Float64Array, out: Float64Array) => {
      for (let i = 0; i < at.length; i++) out[i] = b[0]! + b[1]! * at[i]!;
    },
    uncertainty: at.map(() => 1),
    ...(prior === undefined
      ? {}
      : {
          priors: [
            { parameter: 0, value: 0, u: prior },
            { parameter: 1, value: 0, u: prior },
          ],
        }),
  };
}

describe("a fit that tells wild readings", () => {
  test("three wild readings of 25 are named, kept in view, and do not move the answer", () => {
    const clean = readings(rng(4), 0.02);
    const wild = clean.map((y, i) => (i === 2 ? y + 0.5 : i === 11 ? y - 0.8 : i === 20 ? y + 0.3 : y));
    const fit = outlierFit(problem(wild), [1, -1, 1]);
    expect(fit.outcome.kind).toBe("converged");
    expect(fit.outliers).toEqual([2, 11, 20]);
    expect(fit.suspects).toEqual([]);
    expect(fit.weights).toHaveLength(25);
    expect(fit.residuals[11]).toBeCloseTo(-0.8, 1);
    // Exactly what least squares says of the 22 good ones.
    const good = x.flatMap((_, i) => (fit.outliers.includes(i) ? [] : [i]));
    const alone = levenbergMarquardt(
      {
        observed: good.map((i) => wild[i]!),
        predict: (b, out) => {
          good.forEach((i, k) => {
            out[k] = model(b, x[i]!);
          });
        },
        uncertainty: good.map(() => 0.02),
      },
      [1, -1, 1],
    );
    alone.parameters.forEach((value, j) => {
      expect(Math.abs(fit.parameters[j]! - value)).toBeLessThan(1e-6 * alone.standardDeviations[j]!);
      expect(fit.standardDeviations[j]! / alone.standardDeviations[j]!).toBeCloseTo(1, 6);
    });
  });

  test("readings that scatter less than stated are taken at their word: one within its own ± is not wild", () => {
    // A fifth of the stated scatter, and one reading off by twice what is stated: ten times what the others scatter.
    const quiet = readings(rng(21), 0.004).map((y, i) => (i === 9 ? y + 0.04 : y));
    const fit = outlierFit(problem(quiet), [1, -1, 1]);
    expect(fit.outliers).toEqual([]);
    expect(fit.suspects).toEqual([]);
    expect(fit.weights[9]).toBeGreaterThan(0.5);
    expect(fit.scale).toBe(1);
  });

  test("of seven wild readings of 25 that agree with each other none carries the fit off", () => {
    const wild = readings(rng(12), 0.02).map((y, i) => (i % 4 === 1 ? y + 0.6 : y));
    const fit = outlierFit(problem(wild), [1, -1, 1]);
    expect(fit.outliers).toEqual([1, 5, 9, 13, 17, 21]);
  });

  test("a residual is standardised by what the fit leaves of it: unit variance, believed or not", () => {
    const stream = rng(3);
    const all: number[] = [];
    const last: number[] = [];
    for (let k = 0; k < 400; k++) {
      const fit = outlierFit(
        line(
          [0, 1, 2, 10],
          Array.from({ length: 4 }, () => stream.normal()),
        ),
        [0, 0],
      );
      all.push(...fit.standardised);
      last.push(fit.standardised[3]!);
    }
    // The reading far out pulls the line to itself: its plain residual has a standard deviation of 0.2.
    expect(standardDeviation(all)).toBeGreaterThan(0.93);
    expect(standardDeviation(all)).toBeLessThan(1.07);
    expect(standardDeviation(last)).toBeGreaterThan(0.88);
    expect(standardDeviation(last)).toBeLessThan(1.12);
  });

  test("unknowns that a prior holds do not count: the trace of the hat matrix", () => {
    const at = [0, 1, 2, 3, 4, 5];
    const free = outlierFit(line(at, [0, 0, 0, 0, 0, 0]), [0, 0]).effectiveUnknowns;
    const held = outlierFit(line(at, [0, 0, 0, 0, 0, 0], 1e-3), [0, 0]).effectiveUnknowns;
    expect(free).toBeCloseTo(2, 6);
    expect(held).toBeLessThan(1e-4);
    // Closed form of one level held to u = 1 by a prior, n readings of u = 1: n / (n + 1).
    const level = outlierFit(
      {
        observed: [0, 0, 0, 0],
        predict: (b, out) => out.fill(b[0]!, 0, 4),
        uncertainty: [1, 1, 1, 1],
        priors: [{ parameter: 0, value: 0, u: 1 }],
      },
      [0],
    );
    expect(level.effectiveUnknowns).toBeCloseTo(4 / 5, 6);
  });

  test("where two readings contradict each other and nothing else tells, neither is called wild, both are suspects", () => {
    const fit = outlierFit(line([0, 1], [0, 12]), [0, 0]);
    expect([fit.outliers, fit.suspects]).toEqual([[], []]);
    const level = (observed: number[]) =>
      outlierFit(
        {
          observed,
          predict: (b, out) => out.fill(b[0]!, 0, observed.length),
          uncertainty: observed.map(() => 1),
          priors: [{ parameter: 0, value: 0, u: 100 }],
        },
        [0],
      );
    const two = level([0, 12]);
    expect(two.outliers).toEqual([]);
    expect(two.suspects).toEqual([0, 1]);
    expect(two.untold).toEqual([]);
    const three = level([0, 12, 0.5]);
    expect([three.outliers, three.suspects]).toEqual([[1], []]);
  });

  test("readings too few to check each other are named", () => {
    expect(outlierFit(line([0, 1], [0, 1]), [0, 0]).untold).toEqual([0, 1]);
    expect(outlierFit(line([0, 1, 2], [0, 1, 2]), [0, 0]).untold).toEqual([0, 1, 2]);
    // Of six on a line the ends check each other least: 8 u there leave 5.5, and 4.2 that are not shared with a neighbour.
    expect(outlierFit(line([0, 1, 2, 3, 4, 5], [0, 1, 2, 3, 4, 5]), [0, 0]).untold).toEqual([0, 5]);
    const eight = [0, 1, 2, 3, 4, 5, 6, 7];
    expect(outlierFit(line(eight, eight), [0, 0]).untold).toEqual([]);
  });

  test("too modest an uncertainty makes no outliers: the scale grows instead, and the ± with it", () => {
    const fit = outlierFit(problem(readings(rng(8), 0.02), 0.005), [1, -1, 1]);
    expect(fit.scale).toBeGreaterThan(2.5);
    expect(fit.scale).toBeLessThan(6);
    expect(fit.scatter).toEqual({ kind: "more", ratio: fit.scale });
    expect(fit.outliers.length).toBeLessThanOrEqual(1);
    const told = outlierFit(problem(readings(rng(8), 0.02)), [1, -1, 1]);
    expect(told.scale).toBe(1);
    // 0.02 stated against 0.005 found anew: the same answer within a third.
    for (const j of [0, 1, 2])
      expect(Math.abs(fit.standardDeviations[j]! / told.standardDeviations[j]! - 1)).toBeLessThan(0.34);
  });

  test("nothing is widened where fewer than three readings are left over the unknowns", () => {
    const fit = outlierFit(line([0, 1, 2, 3], [0, 4, -4, 1]), [0, 0]);
    expect(fit.scale).toBe(1);
    expect(fit.scatter.kind).toBe("tooFew");
  });

  test("uncertainties ten times too large are told as such", () => {
    expect(outlierFit(problem(readings(rng(8), 0.02), 0.2), [1, -1, 1]).scatter.kind).toBe("less");
  });

  test.each([0, 3])("stated deviations are what repeated experiments with %i wild readings scatter by", (wild) => {
    const stream = rng(31 + wild);
    const runs = Array.from({ length: 130 }, () => {
      const y = readings(stream, 0.02);
      for (let k = 0; k < wild; k++) y[stream.integer(y.length)]! += 0.4 * (stream.uniform() < 0.5 ? -1 : 1);
      return outlierFit(problem(y), [1.5, -0.5, 3.5]);
    });
    for (const j of [0, 1, 2]) {
      const scatter = standardDeviation(runs.map((run) => run.parameters[j]!));
      const stated = mean(runs.map((run) => run.standardDeviations[j]!));
      // A standard deviation from 130 runs is known to 6 %; four of those.
      expect(Math.abs(scatter / stated - 1)).toBeLessThan(0.25);
    }
  });

  test("Cook's distance is how far a reading alone pulls the plain fit", () => {
    const stream = rng(6);
    const y = x.map((at) => 1 + at + 0.1 * stream.normal());
    const straight = (skip?: number) => {
      const at = x.filter((_, i) => i !== skip);
      const observed = y.filter((_, i) => i !== skip);
      return { ...line(at, observed), uncertainty: at.map(() => 0.1) };
    };
    const fit = outlierFit(straight(), [0, 0]);
    for (const skip of [0, 12, 24]) {
      const without = levenbergMarquardt(straight(skip), [0, 0]);
      const d = without.parameters.map((value, j) => value - fit.plain.parameters[j]!);
      // (JᵀJ) of a line, and D = dᵀ(JᵀJ)d / (p u²): exact for a linear model.
      const [n, sx, sxx] = [25, x.reduce((a, b) => a + b, 0), x.reduce((a, b) => a + b * b, 0)];
      const form = n * d[0]! ** 2 + 2 * sx * d[0]! * d[1]! + sxx * d[1]! ** 2;
      expect(fit.cooksDistances[skip]! / (form / (2 * 0.1 ** 2))).toBeCloseTo(1, 6);
    }
  });

  test("readings without stated uncertainties are refused", () => {
    const { uncertainty: _, ...bare } = problem(readings(rng(1), 0.1));
    expect(() => outlierFit(bare, [1, -1, 1])).toThrow("uncertainty: none; stated uncertainties are expected");
  });
});
