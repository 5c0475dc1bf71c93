import { describe, expect, test } from "vitest";
import {
  budget,
  compareBudget,
  type DistributionShape,
  mean,
  propagate,
  rng,
  standardDeviation,
  type UncertainInput,
} from "../../src/statistics/index.ts";

const one = (x: ArrayLike<number>): number => x[0]!;

describe("drawing inputs", () => {
  // Kurtosis (fourth moment over variance squared) tells the shapes apart; closed forms.
  const blurred = 0.5;
  const m2 = 1 / 3 + blurred ** 2 / 9;
  const m4 = (1 + (2 * blurred ** 2 * 3) / 3 + blurred ** 4 / 5) / 5;
  test.each<[string, DistributionShape, number]>([
    ["normal", "normal", 3],
    ["rectangular", "rectangular", 9 / 5],
    ["triangular", "triangular", 12 / 5],
    ["arcsine", "arcsine", 3 / 2],
    ["a trapezium without a top: triangular", { trapezoidal: 0 }, 12 / 5],
    ["a trapezium all top: rectangular", { trapezoidal: 1 }, 9 / 5],
    [
      "a trapezium with half a top",
      { trapezoidal: 0.5 },
      3 - (1.2 * (1.5 ** 4 + 0.5 ** 4)) / (1.5 ** 2 + 0.5 ** 2) ** 2,
    ],
    ["sharp limits: rectangular", { inexactLimits: 0 }, 9 / 5],
    ["blurred limits", { inexactLimits: blurred }, m4 / m2 ** 2],
  ])("%s has the mean, deviation and kurtosis of its shape", (_, distribution, kurtosis) => {
    const run = propagate(one, [{ name: "x", value: 5, u: 2, distribution }], { rng: rng(8), digits: 1 });
    const n = run.sorted.length;
    const found = mean(run.sorted);
    // Five standard errors: σ/√n of the mean, σ √((κ−1)/4n) of the deviation.
    expect(Math.abs(found - 5)).toBeLessThan(5 * (2 / Math.sqrt(n)));
    expect(Math.abs(standardDeviation(run.sorted) - 2)).toBeLessThan(5 * 2 * Math.sqrt((kurtosis - 1) / (4 * n)));
    const fourth = mean(run.sorted.map((x) => (x - found) ** 4)) / run.u ** 4;
    // Of a kurtosis the error is at most about √(24/n) (normal): 0.0155 at 100 000; five of those.
    expect(Math.abs(fourth - kurtosis)).toBeLessThan(5 * Math.sqrt(24 / n));
  });

  test("few degrees of freedom draw Student's t, scaled by u", () => {
    const run = propagate(one, [{ name: "x", value: 0, u: 1, dof: 6 }], { rng: rng(5) });
    expect(run.u).toBeCloseTo(Math.sqrt(6 / 4), 1);
    // t(6) at 0.975: 2.4469 (computed).
    expect(Math.abs(run.symmetric.high - 2.4469)).toBeLessThan(5 * run.standardErrors.high);
  });

  test.each<[string, number | undefined]>([
    ["normal", undefined],
    ["t", 8],
  ])("correlated %s inputs come out so correlated", (_, dof) => {
    const shape = dof === undefined ? {} : { dof };
    const inputs: UncertainInput[] = [
      { name: "a", value: 1, u: 1, ...shape },
      { name: "b", value: 2, u: 3, ...shape },
    ];
    const correlation = [
      [1, -0.6],
      [-0.6, 1],
    ];
    const sum = propagate((x) => x[0]! + x[1]!, inputs, { rng: rng(4), correlation });
    const wide = dof === undefined ? 1 : dof / (dof - 2);
    // u² = 1 + 9 − 2·0.6·3 = 6.4, times the variance of t; five standard errors of a standard deviation (kurtosis 4.5).
    const u = Math.sqrt(6.4 * wide);
    expect(Math.abs(sum.u - u)).toBeLessThan(5 * u * Math.sqrt(3.5 / (4 * sum.trials)));
    expect(Math.abs(sum.mean - 3)).toBeLessThan((5 * u) / Math.sqrt(sum.trials));
  });

  test("correlated inputs of other shapes are refused, not guessed at", () => {
    const inputs: UncertainInput[] = [
      { name: "a", value: 1, u: 1 },
      { name: "b", value: 2, u: 3, distribution: "rectangular" },
    ];
    const correlation = [
      [1, 0.5],
      [0.5, 1],
    ];
    expect(() => propagate(one, inputs, { rng: rng(1), correlation })).toThrow(
      "b: correlated; correlated inputs are expected to be all normal, or all t with the same degrees of freedom",
    );
  });
});

describe("Monte Carlo", () => {
  const square = (x: ArrayLike<number>): number => x[0]! ** 2;
  const inputs: UncertainInput[] = [{ name: "x", value: 0, u: 1 }];

  test("the square of a normal is chi-squared: mean 1, u √2, symmetric and shortest intervals its own", () => {
    const run = propagate(square, inputs, { rng: rng(2), digits: 2 });
    expect(Math.abs(run.mean - 1)).toBeLessThan(5 * run.standardErrors.mean);
    expect(Math.abs(run.u - Math.SQRT2)).toBeLessThan(5 * run.standardErrors.u);
    // Chi-squared with one degree of freedom: 0.000982 and 5.023886 at 0.025 and 0.975, 3.841459 at 0.95 (tables).
    expect(Math.abs(run.symmetric.low - 0.000982)).toBeLessThan(5 * run.standardErrors.low);
    expect(Math.abs(run.symmetric.high - 5.023886)).toBeLessThan(5 * run.standardErrors.high);
    expect(run.shortest.low).toBeLessThan(1e-6);
    expect(Math.abs(run.shortest.high - 3.841459)).toBeLessThan(5 * run.standardErrors.high);
    // First order says u = 0 here; the comparison does not let that pass.
    const first = budget(square, inputs);
    expect(first.u).toBeLessThan(1e-6);
    expect(compareBudget(first, run).agrees).toBe(false);
  });

  test("the same seed gives the same answer", () => {
    const [a, b] = [
      propagate(square, inputs, { rng: rng(2), digits: 1 }),
      propagate(square, inputs, { rng: rng(2), digits: 1 }),
    ];
    expect(a.interval).toEqual(b.interval);
    expect(a.trials).toBe(b.trials);
  });

  test("stated standard errors are what other seeds differ by", () => {
    const runs = Array.from({ length: 20 }, (_, k) => propagate(square, inputs, { rng: rng(k), digits: 1 }));
    const scatter = standardDeviation(runs.map((run) => run.interval.high));
    const stated = Math.sqrt(mean(runs.map((run) => run.standardErrors.high ** 2)));
    // A standard deviation of 20 is known to 16 %; four of those.
    expect(Math.abs(scatter / stated - 1)).toBeLessThan(0.64);
  });

  test("a run that may not go on says that it was cut short, and how sure it is", () => {
    const run = propagate(square, inputs, { rng: rng(2), digits: 4, mostTrials: 150_000 });
    expect(run.outcome).toEqual({ kind: "cutShort" });
    expect(run.trials).toBe(150_000);
    expect(2 * run.standardErrors.high).toBeGreaterThan(run.tolerance);
    const brief = propagate(square, inputs, { rng: rng(2), mostTrials: 40_000 });
    expect(brief.outcome).toEqual({ kind: "cutShort" });
    expect(brief.standardErrors.mean).toBeGreaterThan(0);
  });

  test("draws without a result are counted, and the answer is of the others", () => {
    const run = propagate((x) => Math.sqrt(x[0]!), inputs, { rng: rng(6), digits: 1 });
    expect(run.undefinedTrials / run.trials).toBeCloseTo(0.5, 1);
    expect(run.sorted.length).toBe(run.trials - run.undefinedTrials);
    expect(run.interval.low).toBeGreaterThan(0);
    expect(() => propagate(() => Number.NaN, inputs, { rng: rng(6) })).toThrow(
      "model: no value; a model with a value for most draws of its inputs is expected",
    );
  });

  test("a result that is certain stands still at once", () => {
    const run = propagate(one, [{ name: "x", value: 3, u: 0 }], { rng: rng(1) });
    expect(run.outcome.kind).toBe("stable");
    expect(run.interval).toEqual({ low: 3, high: 3 });
    expect(run.u).toBe(0);
  });
});
