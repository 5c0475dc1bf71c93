// Source: JCGM 101:2008, Supplement 1 to the Guide to the expression of uncertainty in measurement - Propagation of
// distributions using a Monte Carlo method, clause 9. Each run is compared to within four of its own standard errors
// (one run in 16 000 would miss by chance; the seeds are fixed) and half a unit of the last printed digit.
import { describe, expect, test } from "vitest";
import {
  betweenLimits,
  budget,
  compareBudget,
  type Propagation,
  propagate,
  rng,
  type UncertainInput,
} from "../../src/statistics/index.ts";

const sum = (x: ArrayLike<number>): number => x[0]! + x[1]! + x[2]! + x[3]!;

function four(distribution: "normal" | "rectangular", last: number): UncertainInput[] {
  return [1, 1, 1, last].map((u, i) => ({ name: `X${i + 1}`, value: 0, u, distribution }));
}

function near(
  run: Propagation,
  key: keyof Propagation["standardErrors"],
  found: number,
  published: number,
  half: number,
) {
  expect(run.standardErrors[key]).toBeGreaterThan(0);
  expect(Math.abs(found - published)).toBeLessThan(half + 4 * run.standardErrors[key]);
}

describe("JCGM 101 9.2, additive model", () => {
  test("9.2.2 four normal inputs: u 2.00, 95 % from -3.92 to 3.92 (seen)", () => {
    const run = propagate(sum, four("normal", 1), { rng: rng(922) });
    expect(run.outcome).toEqual({ kind: "stable" });
    near(run, "mean", run.mean, 0, 0);
    near(run, "u", run.u, 2, 0);
    near(run, "low", run.symmetric.low, -3.92, 0.005);
    near(run, "high", run.symmetric.high, 3.92, 0.005);
    const found = budget(sum, four("normal", 1));
    expect(found.expanded).toBeCloseTo(3.92, 2);
    expect(compareBudget(found, run, 2).agrees).toBe(true);
  });

  test("9.2.3 four rectangular inputs: budget 3.92, Monte Carlo 3.88 (seen), exactly 3.879406742 (computed)", () => {
    const inputs = four("rectangular", 1);
    const run = propagate(sum, inputs, { rng: rng(923) });
    near(run, "u", run.u, 2, 0);
    const exact = 2 * Math.sqrt(3) * (2 - (3 / 5) ** 0.25);
    near(run, "low", run.symmetric.low, -exact, 0);
    near(run, "high", run.symmetric.high, exact, 0);
    expect(Math.round(exact * 100)).toBe(388);
    expect(budget(sum, inputs).expanded).toBeCloseTo(3.92, 2);
  });

  test("9.2.4 one input ten times as wide: u 10.1, budget 19.8 (recalled), Monte Carlo 17.0 (recalled)", () => {
    const inputs = four("rectangular", 10);
    const run = propagate(sum, inputs, { rng: rng(924), part: 0.5 });
    near(run, "u", run.u, Math.sqrt(103), 0);
    // 17.0158140999: quadrature of the exact density (computed independently).
    near(run, "low", run.symmetric.low, -17.0158140999, 0);
    near(run, "high", run.symmetric.high, 17.0158140999, 0);
    const found = budget(sum, inputs);
    expect(found.u.toFixed(1)).toBe("10.1");
    // Published 19.8 is 1.96 · 10.1, rounded on the way; 1.96 · √103 is 19.89.
    expect(Math.abs(found.expanded - 19.8)).toBeLessThan(0.1);
    const compared = compareBudget(found, run, 2);
    expect(compared.agrees).toBe(false);
    expect(compared.low.gap).toBeLessThan(0);
    expect(compared.high.gap).toBeGreaterThan(0);
  });
});

// 9.3: masses in mg, densities in kg/m³. Published values recalled; a run of 2·10⁷ trials in another language gave the
// mean 1.23398, u 0.07548 and symmetric interval from 1.0844 to 1.3835 (computed).
describe("JCGM 101 9.3, mass calibration", () => {
  const deviation = (x: ArrayLike<number>): number =>
    (x[0]! + x[1]!) * (1 + (x[2]! - 1.2) * (1 / x[3]! - 1 / x[4]!)) - 100_000;
  const inputs: UncertainInput[] = [
    { name: "conventional mass", value: 100_000, u: 0.05 },
    { name: "small weight", value: 1.234, u: 0.02 },
    betweenLimits("density of air", 1.1, 1.3),
    betweenLimits("density of the weight", 7000, 9000),
    betweenLimits("density of the standard", 7950, 8050),
  ];
  const run = propagate(deviation, inputs, { rng: rng(93), digits: 2 });
  const first = budget(deviation, inputs, { secondOrder: true });

  test("Monte Carlo: 1.2341, u 0.0754, shortest interval from 1.0834 to 1.3825", () => {
    expect(run.outcome).toEqual({ kind: "stable" });
    near(run, "mean", run.mean, 1.2341, 0.00005);
    near(run, "mean", run.mean, 1.23398, 0.000005);
    near(run, "u", run.u, 0.0754, 0.00005);
    near(run, "u", run.u, 0.07548, 0.000005);
    near(run, "low", run.symmetric.low, 1.0844, 0.00005);
    near(run, "high", run.symmetric.high, 1.3835, 0.00005);
    // The length of a shortest interval is well determined, its ends slide along together: 40 independent runs of the
    // published 720 000 trials scattered them by 0.0010 about 1.0843 and 1.3834 (computed), the published run included.
    const ends = 4 * Math.SQRT2 * 0.001;
    expect(Math.abs(run.shortest.low - 1.0834)).toBeLessThan(ends);
    expect(Math.abs(run.shortest.high - 1.3825)).toBeLessThan(ends);
    const length = run.shortest.high - run.shortest.low;
    expect(Math.abs(length - (1.3825 - 1.0834))).toBeLessThan(
      0.0001 + 4 * Math.hypot(run.standardErrors.low, run.standardErrors.high),
    );
  });

  test("first order: 1.2340, u 0.0539, from 1.1285 to 1.3395; with second order u 0.0750, from 1.0870 to 1.3810", () => {
    expect(first.value).toBeCloseTo(1.234, 8);
    expect(first.u.toFixed(4)).toBe("0.0539");
    expect((first.value - first.expanded).toFixed(4)).toBe("1.1285");
    expect((first.value + first.expanded).toFixed(4)).toBe("1.3395");
    expect(first.withSecondOrder!.toFixed(4)).toBe("0.0750");
    // 1.96 · 0.07497 = 0.14693; the published ends come from 1.96 · 0.0750 = 0.1470.
    const expanded = first.coverageFactor * first.withSecondOrder!;
    expect(Math.abs(first.value - expanded - 1.087)).toBeLessThan(0.00015);
    expect(Math.abs(first.value + expanded - 1.381)).toBeLessThan(0.00015);
  });

  test("the first-order interval is found out by the Monte Carlo run, too narrow at both ends by about 0.044", () => {
    const compared = compareBudget(first, run);
    expect(compared.agrees).toBe(false);
    expect(compared.tolerance).toBe(0.005);
    expect(compared.low.gap).toBeCloseTo(1.1285 - 1.0844, 2);
    expect(compared.high.gap).toBeCloseTo(1.3395 - 1.3835, 2);
    expect(compared.ratioOfU).toBeCloseTo(1.4, 1);
  });
});

// Source: NPL report DEM-ES-011, Uncertainty evaluation, 9.2 (values seen as quoted in a public test): y = ln x with x
// rectangular from 0.1 to 1.1. Exact values by quadrature: mean -0.664900, u 0.606227, shortest interval from
// ln 0.15 = -1.897120 to ln 1.1 = 0.095310 (computed); the printed -1.895 is itself a Monte Carlo value.
test("NPL DEM-ES-011 9.2, a logarithm: -0.665, u 0.606, shortest interval from -1.895 to 0.095; budget -0.511, 0.481", () => {
  const log = (x: ArrayLike<number>): number => Math.log(x[0]!);
  const inputs = [betweenLimits("x", 0.1, 1.1)];
  const run = propagate(log, inputs, { rng: rng(11), intervalKind: "shortest", digits: 1, part: 0.2 });
  near(run, "mean", run.mean, -0.6649003, 0);
  near(run, "u", run.u, 0.6062267, 0);
  near(run, "low", run.interval.low, Math.log(0.15), 0);
  near(run, "low", run.interval.low, -1.895, 0.0005);
  near(run, "high", run.interval.high, Math.log(1.1), 0);
  const found = budget(log, inputs);
  expect(found.value).toBeCloseTo(-0.511, 3);
  expect(found.u).toBeCloseTo(0.481, 3);
  expect(compareBudget(found, run).agrees).toBe(false);
});
