import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type FitProblem, levenbergMarquardt, mean, rng, standardDeviation } from "../../src/statistics/index.ts";

const x = Array.from({ length: 12 }, (_, i) => 0.5 + i);

function problem(
  observed: number[],
  model: (b: ArrayLike<number>, x: number) => number,
  more: Partial<FitProblem> = {},
): FitProblem {
  return {
    observed,
    predict: (b, out) => {
      for (let i = 0; i < observed.length; i++) out[i] = model(b, x[i]!);
    },
    ...more,
  };
}
const line = (b: ArrayLike<number>, at: number): number => b[0]! + b[1]! * at;
const decay = (b: ArrayLike<number>, at: number): number => b[0]! * Math.exp(-b[1]! * at);
const noise = rng(21);
const noisy = x.map((at) => decay([5, 0.3], at) + 0.05 * noise.normal());

describe("least squares", () => {
  test("a straight line has its closed-form answer, deviations and leverages", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 12, maxLength: 12 }), (y) => {
        fc.pre(standardDeviation(y) > 1e-3);
        const fit = levenbergMarquardt(problem(y, line), [0, 0]);
        const [mx, my] = [mean(x), mean(y)];
        const sxx = x.reduce((sum, at) => sum + (at - mx) ** 2, 0);
        const b = x.reduce((sum, at, i) => sum + (at - mx) * (y[i]! - my), 0) / sxx;
        const a = my - b * mx;
        const rest = x.reduce((sum, at, i) => sum + (y[i]! - a - b * at) ** 2, 0);
        const s2 = rest / 10;
        // 1e-9: rounding of sums of a dozen numbers, many times over; the fit's own tolerance is 1e-8 of a deviation.
        expect(fit.outcome.kind).toBe("converged");
        expect(Math.abs(fit.parameters[0]! - a)).toBeLessThan(1e-8);
        expect(Math.abs(fit.parameters[1]! - b)).toBeLessThan(1e-8);
        expect(fit.standardDeviations[1]! / Math.sqrt(s2 / sxx)).toBeCloseTo(1, 8);
        expect(fit.standardDeviations[0]! / Math.sqrt(s2 * (1 / 12 + mx ** 2 / sxx))).toBeCloseTo(1, 8);
        expect(fit.covariance[0]![1]! / ((-mx * s2) / sxx)).toBeCloseTo(1, 8);
        x.forEach((at, i) => {
          expect(fit.leverages[i]).toBeCloseTo(1 / 12 + (at - mx) ** 2 / sxx, 8);
        });
      }),
      { seed: 3, numRuns: 50 },
    );
  });

  test("an analytic Jacobian and the numeric one give the same answer", () => {
    const numeric = levenbergMarquardt(problem(noisy, decay), [1, 1]);
    const analytic = levenbergMarquardt(
      problem(noisy, decay, {
        jacobian: (b, out) => {
          x.forEach((at, i) => {
            out[2 * i] = Math.exp(-b[1]! * at);
            out[2 * i + 1] = -at * decay(b, at);
          });
        },
      }),
      [1, 1],
    );
    for (const j of [0, 1]) {
      expect(numeric.parameters[j]! / analytic.parameters[j]!).toBeCloseTo(1, 11);
      expect(numeric.standardDeviations[j]! / analytic.standardDeviations[j]!).toBeCloseTo(1, 9);
    }
  });

  test("units of parameters and of observations change nothing but the units", () => {
    const plain = levenbergMarquardt(problem(noisy, decay), [1, 1]);
    const scaled = levenbergMarquardt(
      problem(
        noisy.map((y) => 1e6 * y),
        (b, at) => 1e6 * decay([b[0]! * 1e-4, b[1]! * 1e5], at),
      ),
      [1e4, 1e-5],
    );
    expect(scaled.parameters[0]! / plain.parameters[0]! / 1e4).toBeCloseTo(1, 10);
    expect((scaled.parameters[1]! / plain.parameters[1]!) * 1e5).toBeCloseTo(1, 10);
    expect((scaled.standardDeviations[1]! / plain.standardDeviations[1]!) * 1e5).toBeCloseTo(1, 8);
  });

  test("a weight of two is the observation twice", () => {
    const weights = x.map((_, i) => (i === 3 ? 2 : 1));
    const weighted = levenbergMarquardt(problem(noisy, decay), [1, 1], { weights });
    const twice = levenbergMarquardt(
      {
        observed: [...noisy, noisy[3]!],
        predict: (b, out) => {
          [...x, x[3]!].forEach((at, i) => {
            out[i] = decay(b, at);
          });
        },
      },
      [1, 1],
    );
    expect(weighted.parameters[0]! / twice.parameters[0]!).toBeCloseTo(1, 10);
    expect(weighted.residualSumOfSquares / twice.residualSumOfSquares).toBeCloseTo(1, 10);
  });

  test("stated deviations are what repeated experiments scatter by", () => {
    const stream = rng(77);
    const runs = Array.from({ length: 400 }, () => {
      const y = x.map((at) => decay([5, 0.3], at) + 0.02 * stream.normal());
      return levenbergMarquardt(problem(y, decay, { uncertainty: x.map(() => 0.02) }), [4, 0.2]);
    });
    for (const j of [0, 1]) {
      const scatter = standardDeviation(runs.map((run) => run.parameters[j]!));
      const stated = mean(runs.map((run) => run.standardDeviations[j]!));
      // A standard deviation from 400 runs is known to 3.5 %; four of those.
      expect(Math.abs(scatter / stated - 1)).toBeLessThan(0.14);
    }
    // Sums of squares are chi-squared with 10 degrees of freedom: mean 10 ± √20/20.
    expect(Math.abs(mean(runs.map((run) => run.residualSumOfSquares)) - 10)).toBeLessThan(4 * (Math.sqrt(20) / 20));
  });
});

describe("priors", () => {
  test("a prior and readings of one quantity combine by inverse variance", () => {
    const fit = levenbergMarquardt(
      problem([10.2, 9.9, 10.4, 10.1], (b) => b[0]!, {
        uncertainty: [0.2, 0.2, 0.2, 0.2],
        priors: [{ parameter: 0, value: 9, u: 0.3 }],
      }),
      [5],
    );
    const weight = 4 / 0.04 + 1 / 0.09;
    expect(fit.parameters[0]).toBeCloseTo((40.6 / 0.04 + 9 / 0.09) / weight, 12);
    expect(fit.standardDeviations[0]).toBeCloseTo(1 / Math.sqrt(weight), 12);
    expect(fit.dof).toBe(4);
    expect(fit.priorResiduals[0]).toBeCloseTo((9 - fit.parameters[0]!) / 0.3, 12);
  });

  test("a tight prior holds a parameter, a wide one lets it go", () => {
    const uncertainty = x.map(() => 0.05);
    const free = levenbergMarquardt(problem(noisy, decay, { uncertainty }), [1, 1]);
    const wide = levenbergMarquardt(
      problem(noisy, decay, { uncertainty, priors: [{ parameter: 1, value: 0.9, u: 1e6 }] }),
      [1, 1],
    );
    const tight = levenbergMarquardt(
      problem(noisy, decay, { uncertainty, priors: [{ parameter: 1, value: 0.25, u: 1e-9 }] }),
      [1, 1],
    );
    expect(wide.parameters[1]! / free.parameters[1]!).toBeCloseTo(1, 8);
    expect(tight.parameters[1]).toBeCloseTo(0.25, 9);
    expect(tight.standardDeviations[1]).toBeCloseTo(1e-9, 15);
  });

  test("a prior settles what the readings leave open", () => {
    const product = (b: ArrayLike<number>, at: number): number => b[0]! * b[1]! * at;
    const y = x.map((at) => 6 * at);
    const fit = levenbergMarquardt(
      problem(y, product, { uncertainty: x.map(() => 0.1), priors: [{ parameter: 0, value: 2, u: 0.1 }] }),
      [1, 1],
    );
    expect(fit.outcome.kind).toBe("converged");
    expect(fit.parameters[0]).toBeCloseTo(2, 8);
    expect(fit.parameters[1]).toBeCloseTo(3, 8);
    expect(fit.standardDeviations[1]).toBeCloseTo(0.15, 2);
  });
});

describe("what can honestly happen", () => {
  test("parameters that the observations cannot tell apart are named, their deviation endless", () => {
    const fit = levenbergMarquardt(
      problem(noisy, (b, at) => b[0]! * b[1]! * Math.exp(-b[2]! * at)),
      [1, 1, 1],
    );
    expect(fit.outcome.kind).toBe("undetermined");
    if (fit.outcome.kind === "undetermined") expect(fit.outcome.parameters).toHaveLength(1);
    expect(fit.standardDeviations.filter((u) => u === Number.POSITIVE_INFINITY)).toHaveLength(1);
    expect(fit.standardDeviations.every((u) => !Number.isNaN(u))).toBe(true);
  });

  test("an exact fit is one", () => {
    const fit = levenbergMarquardt(
      problem(
        x.map((at) => 2 * at + 1),
        line,
      ),
      [0, 0],
    );
    expect(fit.outcome.kind).toBe("converged");
    expect(fit.parameters[0]).toBeCloseTo(1, 12);
    expect(fit.parameters[1]).toBeCloseTo(2, 12);
    expect(fit.residualSumOfSquares).toBeLessThan(1e-24);
  });

  test("steps into places where the model does not exist are turned down", () => {
    const y = x.map((at) => Math.sqrt(at - 0.45));
    const fit = levenbergMarquardt(
      problem(y, (b, at) => (at < b[0]! ? Number.NaN : b[1]! * Math.sqrt(at - b[0]!))),
      [-30, 5],
    );
    expect(fit.outcome.kind).toBe("converged");
    expect(fit.parameters[0]).toBeCloseTo(0.45, 6);
    expect(fit.parameters[1]).toBeCloseTo(1, 6);
  });

  test("too few turns are said to be so, with the best met", () => {
    const fit = levenbergMarquardt(problem(noisy, decay), [1, 1], { turns: 2, firstRadius: 0.1 });
    expect(fit.outcome).toEqual({ kind: "stalled", why: "tooFewTurns" });
    expect(Number.isFinite(fit.residualSumOfSquares)).toBe(true);
  });

  test.each<[string, () => unknown, string]>([
    [
      "no parameter",
      () => levenbergMarquardt(problem(noisy, line), []),
      "start: nothing given; at least one parameter is expected",
    ],
    [
      "a start that is no number",
      () => levenbergMarquardt(problem(noisy, line), [0, Number.NaN]),
      "start[1]: NaN; a finite number is expected",
    ],
    [
      "an endless observation",
      () => levenbergMarquardt(problem([1, Number.POSITIVE_INFINITY], line), [0, 0]),
      "observed[1]: Infinity; a finite number is expected",
    ],
    [
      "fewer observations than parameters",
      () => levenbergMarquardt(problem([1], line), [0, 0]),
      "observed: 1 observations, 0 priors; at least 2 for 2 parameters",
    ],
    [
      "uncertainties that do not match",
      () => levenbergMarquardt(problem([1, 2], line, { uncertainty: [1] }), [0, 0]),
      "uncertainty: 1 values; one an observation, 2, is expected",
    ],
    [
      "an uncertainty of zero",
      () => levenbergMarquardt(problem([1, 2], line, { uncertainty: [1, 0] }), [0, 0]),
      "uncertainty[1]: 0; a number above zero is expected",
    ],
    [
      "a prior without uncertainties",
      () => levenbergMarquardt(problem([1, 2], line, { priors: [{ parameter: 0, value: 1, u: 1 }] }), [0, 0]),
      "priors: nothing given; with priors the uncertainty of the observations is expected, to weigh them by",
    ],
    [
      "a prior on no parameter",
      () =>
        levenbergMarquardt(
          problem([1, 2], line, { uncertainty: [1, 1], priors: [{ parameter: 2, value: 1, u: 1 }] }),
          [0, 0],
        ),
      "priors[0].parameter: 2; a number from 0 to 1 is expected",
    ],
    [
      "a start outside the model",
      () =>
        levenbergMarquardt(
          problem(noisy, (b, at) => Math.sqrt(b[0]! - at)),
          [1],
        ),
      "start: [1]; a start at which the model exists is expected",
    ],
  ])("%s is refused in one line", (_, run, message) => {
    expect(run).toThrow(message);
  });
});
