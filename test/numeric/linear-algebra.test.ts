import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { factorise, norm, solveUpper, solveUpperTransposed } from "../../src/numeric/householder.ts";
import { slope } from "../../src/numeric/slope.ts";
import { solveNormal, trustStep } from "../../src/statistics/trust-step.ts";

const matrix = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 28, maxLength: 28 });

describe("QR", () => {
  test("RᵀR is AᵀA in the order of the pivots, and lengths of the right side are kept", () => {
    fc.assert(
      fc.property(matrix, (numbers) => {
        const [rows, columns] = [7, 3];
        const a = Float64Array.from(numbers.slice(0, 21));
        const rhs = Float64Array.from(numbers.slice(21));
        const before = norm(rhs);
        const { r, order } = factorise(a.slice(), rows, columns, rhs);
        expect(Math.abs(norm(rhs) - before)).toBeLessThan(1e-12 * (1 + before));
        for (let i = 0; i < columns; i++) {
          for (let j = 0; j < columns; j++) {
            let [ata, rtr] = [0, 0];
            for (let k = 0; k < rows; k++) ata += a[k * columns + order[i]!]! * a[k * columns + order[j]!]!;
            for (let k = 0; k < columns; k++) rtr += r[k * columns + i]! * r[k * columns + j]!;
            // Rounding of sums of products up to 700.
            expect(Math.abs(ata - rtr)).toBeLessThan(1e-11);
          }
          if (i > 0)
            expect(Math.abs(r[i * columns + i]!)).toBeLessThanOrEqual(
              Math.abs(r[(i - 1) * columns + i - 1]!) * (1 + 1e-12),
            );
        }
      }),
      { seed: 1 },
    );
  });

  test("a column that is the sum of others is seen", () => {
    const a = Float64Array.from([1, 2, 3, 4, 5, 9, 7, 9, 16, 3, 1, 4]);
    expect(factorise(a, 4, 3, new Float64Array(4)).rank).toBe(2);
    expect(factorise(new Float64Array(12), 4, 3, new Float64Array(4)).rank).toBe(0);
  });

  test("triangles are solved both ways", () => {
    const r = Float64Array.from([2, -1, 3, 0, 4, 1, 0, 0, 5]);
    const x = new Float64Array(3);
    solveUpper(r, 3, 3, Float64Array.from([9, 11, 15]), x);
    expect(Array.from(x)).toEqual([1, 2, 3]);
    solveUpperTransposed(r, 3, 3, Float64Array.from([2, 7, 20]), x);
    expect(Array.from(x)).toEqual([1, 2, 3]);
  });

  test("lengths neither overflow nor vanish", () => {
    expect(norm(Float64Array.from([3e200, 4e200]))).toBeCloseTo(5e200, -186);
    expect(norm(Float64Array.from([3e-200, 4e-200])) / 5e-200).toBeCloseTo(1, 14);
  });
});

describe("steps within a radius", () => {
  test("no longer than the radius, promising what they bring, and no other step of that length brings more", () => {
    fc.assert(
      fc.property(matrix, fc.double({ min: 1e-3, max: 10, noNaN: true }), (numbers, radius) => {
        const [rows, columns] = [7, 3];
        const a = Float64Array.from(numbers.slice(0, 21));
        const residual = Float64Array.from(numbers.slice(21));
        fc.pre(norm(residual) > 1e-3);
        const turned = residual.slice();
        const factored = factorise(a.slice(), rows, columns, turned);
        fc.pre(factored.rank === 3 && Math.abs(factored.r[8]! / factored.r[0]!) > 1e-3);
        const { step, length, promised, lambda } = trustStep(factored, turned.subarray(0, 3), radius);
        const left = (s: ArrayLike<number>): number => {
          const rest = new Float64Array(rows);
          for (let i = 0; i < rows; i++) {
            rest[i] = residual[i]!;
            for (let j = 0; j < columns; j++) rest[i]! -= a[i * columns + j]! * s[j]!;
          }
          return norm(rest) ** 2;
        };
        expect(length).toBeLessThanOrEqual(1.1 * radius * (1 + 1e-9));
        expect(Math.abs(norm(step) - length)).toBeLessThan(1e-9 * (1 + length));
        expect(Math.abs(norm(residual) ** 2 - left(step) - promised)).toBeLessThan(1e-9 * norm(residual) ** 2);
        // Turn the step a little about each axis, at the same length: nothing gains.
        if (lambda > 0) {
          for (let j = 0; j < columns; j++) {
            for (const nudge of [-1e-3, 1e-3]) {
              const other = step.map((value, k) => (k === j ? value + nudge * length : value));
              const back = length / norm(other);
              expect(left(other.map((value) => value * back))).toBeGreaterThanOrEqual(left(step) * (1 - 1e-9));
            }
          }
        }
      }),
      { seed: 2 },
    );
  });

  test("the normal equations are solved with and without damping", () => {
    const a = Float64Array.from([3, 1, 1, 2, 0, 1]);
    const factored = factorise(a.slice(), 3, 2, new Float64Array(3));
    // AᵀA = [[10, 5], [5, 6]]; with 2 added to the diagonal [[12, 5], [5, 8]].
    expect(Array.from(solveNormal(factored, 0, Float64Array.from([20, 17])))).toEqual([
      expect.closeTo(1, 12),
      expect.closeTo(2, 12),
    ]);
    expect(Array.from(solveNormal(factored, 2, Float64Array.from([22, 21])))).toEqual([
      expect.closeTo(1, 12),
      expect.closeTo(2, 12),
    ]);
  });
});

describe("slopes", () => {
  test.each<[string, (x: number) => number, number, number, number]>([
    ["sine", Math.sin, 1, 0.5, Math.cos(1)],
    ["exponential", Math.exp, 2, 0.5, Math.exp(2)],
    ["a tenth power", (x) => x ** 10, 1, 0.1, 10],
    ["a quotient", (x) => 1 / x, 1e-3, 2e-4, -1e6],
  ])("%s to 1e-9 or better, and to the error stated", (_, f, at, width, exact) => {
    const out = new Float64Array(1);
    const stated = slope(
      (shift, values) => {
        values[0] = f(at + shift);
      },
      1,
      width,
      8,
      out,
    );
    const error = Math.abs(out[0]! / exact - 1);
    expect(error).toBeLessThan(1e-9);
    // The stated error is of the entry before the best: never far below the true one.
    expect(error).toBeLessThan(100 * stated + 1e-12);
  });

  test("next to the edge of its domain a function still has a slope; beyond it none", () => {
    const out = new Float64Array(1);
    const root = (shift: number, values: Float64Array): void => {
      values[0] = Math.sqrt(1e-3 + shift);
    };
    expect(slope(root, 1, 1, 8, out)).toBeLessThan(1e-6);
    expect(out[0]! / (0.5 / Math.sqrt(1e-3))).toBeCloseTo(1, 6);
    expect(
      slope(
        (_, values) => {
          values[0] = Number.NaN;
        },
        1,
        1,
        8,
        out,
      ),
    ).toBe(Number.POSITIVE_INFINITY);
  });
});
