import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { betweenLimits, budget, fromReadings, tQuantile, type UncertainInput } from "../../src/statistics/index.ts";

const input = (name: string, value: number, u: number, dof?: number): UncertainInput =>
  dof === undefined ? { name, value, u } : { name, value, u, dof };

describe("budget", () => {
  test("independent parts add by squares, and their shares say whose u it is", () => {
    const found = budget((x) => 2 * x[0]! - 3 * x[1]!, [input("a", 5, 0.4), input("b", 1, 0.2)]);
    expect(found.value).toBeCloseTo(7, 12);
    expect(found.u).toBeCloseTo(1, 10);
    expect(found.sources.map((source) => source.share)).toEqual([expect.closeTo(0.64, 10), expect.closeTo(0.36, 10)]);
    expect(found.sources[1]!.contribution).toBeCloseTo(-0.6, 10);
    expect(found.dof).toBe(Number.POSITIVE_INFINITY);
    expect(found.expanded / found.u).toBeCloseTo(1.959964, 6);
  });

  test("correlated parts: what two bring together is halved between them, and may undo one another", () => {
    const inputs = [input("a", 0, 3), input("b", 0, 4)];
    const difference = (x: ArrayLike<number>): number => x[0]! - x[1]!;
    const whole = budget(difference, inputs, {
      correlation: [
        [1, 1],
        [1, 1],
      ],
    });
    expect(whole.u).toBeCloseTo(1, 9);
    // 3·3 − 3·4 = −3 and 4·4 − 3·4 = 4: shares −3 and 4 of u² = 1.
    expect(whole.sources.map((source) => source.share)).toEqual([expect.closeTo(-3, 8), expect.closeTo(4, 8)]);
    const opposed = budget(difference, inputs, {
      correlation: [
        [1, -1],
        [-1, 1],
      ],
    });
    expect(opposed.u).toBeCloseTo(7, 9);
  });

  test("shares add up to one and u follows the formula for any linear model and correlation", () => {
    const number = fc.double({ min: -5, max: 5, noNaN: true });
    const angle = fc.double({ min: 0, max: Math.PI, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(number, number, number), fc.tuple(angle, angle), (c, [p, q]) => {
        // Rows of a triangular factor with unit length: always a correlation matrix.
        const l = [
          [1, 0, 0],
          [Math.cos(p), Math.sin(p), 0],
          [Math.cos(q) * Math.sin(p), Math.cos(p) * Math.cos(q), Math.sin(q)],
        ];
        const unit = (i: number, j: number): number =>
          i === j
            ? 1
            : Math.max(
                -1,
                Math.min(
                  1,
                  l[i]!.reduce((sum, value, k) => sum + value * l[j]![k]!, 0),
                ),
              );
        const correlation = [0, 1, 2].map((i) => [0, 1, 2].map((j) => unit(i, j)));
        const u = [0.5, 1, 2];
        const inputs = u.map((value, i) => input(`x${i}`, i - 1, value));
        const found = budget((x) => c[0] * x[0]! + c[1] * x[1]! + c[2] * x[2]!, inputs, { correlation });
        let variance = 0;
        for (const i of [0, 1, 2])
          for (const j of [0, 1, 2]) variance += c[i]! * u[i]! * correlation[i]![j]! * c[j]! * u[j]!;
        // Rounding of the nine products, up to 100 each.
        expect(Math.abs(found.u ** 2 - Math.max(0, variance))).toBeLessThan(1e-9);
        if (found.u > 1e-3) expect(found.sources.reduce((sum, source) => sum + source.share, 0)).toBeCloseTo(1, 6);
      }),
      { seed: 9 },
    );
  });

  test("numeric sensitivities are the analytic ones, for steep, flat, large and tiny inputs alike", () => {
    const model = (x: ArrayLike<number>): number => Math.exp(x[0]!) * Math.sin(x[1]!) + Math.sqrt(x[2]!) / x[3]!;
    const at = [3, 0.7, 2e6, 4e-7];
    const inputs = at.map((value, i) => input(`x${i}`, value, [0.5, 1e-9, 10, 1e-8][i]!));
    const exact = [
      Math.exp(3) * Math.sin(0.7),
      Math.exp(3) * Math.cos(0.7),
      0.5 / Math.sqrt(2e6) / 4e-7,
      -Math.sqrt(2e6) / 4e-7 ** 2,
    ];
    const numeric = budget(model, inputs);
    exact.forEach((slope, i) => {
      // The first two are small beside the value 3.5e9, whose rounding, over their steps, leaves 1e-5.
      expect(Math.abs(numeric.sources[i]!.sensitivity / slope - 1)).toBeLessThan(i < 2 ? 1e-4 : 1e-9);
    });
    const given = budget(model, inputs, { sensitivities: (_, out) => out.set(exact) });
    expect(given.sources[0]!.sensitivityError).toBe(0);
    expect(given.u / numeric.u).toBeCloseTo(1, 8);
  });

  test("degrees of freedom: n equal sources of dof 5 have 5 n; inputs that hang together count as one", () => {
    const inputs = [input("a", 0, 1, 5), input("b", 0, 1, 5), input("c", 0, 1, 9)];
    const sum = (x: ArrayLike<number>): number => x[0]! + x[1]!;
    expect(budget(sum, inputs.slice(0, 2)).dof).toBeCloseTo(10, 8);
    const together = budget((x) => x[0]! + x[1]! + x[2]!, inputs, {
      correlation: [
        [1, 0.5, 0],
        [0.5, 1, 0],
        [0, 0, 1],
      ],
    });
    // u² = 3 + 1; 16 / (3²/5 + 1²/9).
    expect(together.dof).toBeCloseTo(16 / (9 / 5 + 1 / 9), 8);
    expect(together.coverageFactor).toBe(tQuantile(0.975, 8));
  });

  test("the second-order terms are exact for a square: var(x²) = 4 x² u² + 2 u⁴ for a normal x", () => {
    const found = budget((x) => x[0]! ** 2, [input("x", 1.5, 0.8)], { secondOrder: true });
    expect(found.u).toBeCloseTo(2.4, 10);
    expect(found.withSecondOrder).toBeCloseTo(Math.sqrt(4 * 1.5 ** 2 * 0.8 ** 2 + 2 * 0.8 ** 4), 8);
  });

  test("limits and readings become inputs as the guide has it", () => {
    expect(betweenLimits("x", 2, 8)).toEqual({
      name: "x",
      value: 5,
      u: expect.closeTo(Math.sqrt(3), 14),
      distribution: "rectangular",
    });
    // 4.4.3: twenty temperatures would do; here 1, 2, 3, 4: mean 2.5, u = √(5/3) / 2.
    const read = fromReadings("t", [1, 2, 3, 4]);
    expect(read.value).toBe(2.5);
    expect(read.u).toBeCloseTo(Math.sqrt(5 / 3) / 2, 14);
    expect(read.dof).toBe(3);
  });

  test.each<[string, () => unknown, string]>([
    ["no input", () => budget(() => 1, []), "inputs: nothing given; at least one uncertain input is expected"],
    [
      "a value that is no number",
      () => budget((x) => x[0]!, [input("depth", Number.NaN, 1)]),
      "depth.value: NaN; a finite number is expected",
    ],
    [
      "a negative uncertainty",
      () => budget((x) => x[0]!, [input("depth", 1, -1)]),
      "depth.u: -1; zero or a number above it is expected",
    ],
    [
      "degrees of freedom of zero",
      () => budget((x) => x[0]!, [input("depth", 1, 1, 0)]),
      "depth.dof: 0; a number above zero is expected",
    ],
    [
      "t without degrees of freedom",
      () => budget((x) => x[0]!, [{ name: "depth", value: 1, u: 1, distribution: "t" }]),
      "depth.dof: nothing given; Student's t asks for its degrees of freedom",
    ],
    [
      "a flat top beyond the base",
      () => budget((x) => x[0]!, [{ name: "depth", value: 1, u: 1, distribution: { trapezoidal: 1.5 } }]),
      "depth.trapezoidal: 1.5; a share from 0 to 1 is expected",
    ],
    [
      "estimates without a result",
      () => budget((x) => Math.sqrt(x[0]!), [input("depth", -1, 0.1)]),
      "model: [-1]; estimates at which the result exists are expected",
    ],
    [
      "an estimate at the edge of the model",
      () => budget((x) => (x[0]! > 0 ? Number.NaN : x[0]!), [input("depth", 0, 0.1)]),
      "depth: 0; an estimate around which the result exists is expected",
    ],
    [
      "a coverage of one",
      () => budget((x) => x[0]!, [input("depth", 1, 1)], { coverage: 1 }),
      "coverage: 1; a share between 0 and 1 is expected",
    ],
    [
      "a correlation that is not square",
      () => budget((x) => x[0]!, [input("depth", 1, 1)], { correlation: [[1, 0]] }),
      "correlation: 1 rows; a square of 1 by 1 is expected",
    ],
    [
      "a correlation beyond one",
      () =>
        budget((x) => x[0]!, [input("a", 1, 1), input("b", 1, 1)], {
          correlation: [
            [1, 2],
            [2, 1],
          ],
        }),
      "correlation[1][0]: 2; a number from -1 to 1 is expected",
    ],
    [
      "a lopsided correlation",
      () =>
        budget((x) => x[0]!, [input("a", 1, 1), input("b", 1, 1)], {
          correlation: [
            [1, 0.2],
            [0.3, 1],
          ],
        }),
      "correlation[1][0]: 0.3; the same as across the diagonal is expected",
    ],
    [
      "correlations that contradict each other",
      () =>
        budget((x) => x[0]!, [input("a", 1, 1), input("b", 1, 1), input("c", 1, 1)], {
          correlation: [
            [1, 0.9, 0.9],
            [0.9, 1, -0.9],
            [0.9, -0.9, 1],
          ],
        }),
      "correlation: nothing given; coefficients that can all hold at once are expected",
    ],
    [
      "second order of correlated inputs",
      () =>
        budget((x) => x[0]!, [input("a", 1, 1), input("b", 1, 1)], {
          correlation: [
            [1, 0.2],
            [0.2, 1],
          ],
          secondOrder: true,
        }),
      "secondOrder: correlated inputs; the second-order terms are known for independent inputs only",
    ],
    [
      "limits the wrong way round",
      () => betweenLimits("x", 2, 1),
      "x: 2 to 1; limits with the lower one first are expected",
    ],
    ["a single reading", () => fromReadings("x", [1]), "x: 1 readings; at least 2 are expected"],
  ])("%s is refused in one line", (_, run, message) => {
    expect(run).toThrow(message);
  });
});
