/** The inverse of a Jacobian by differences and by what steps show, against matrices whose inverses are worked out by hand. */
import { describe, expect, it } from "vitest";
import { broydenUpdate, inverseJacobian, product } from "../../src/numeric/broyden.ts";
import { slope } from "../../src/numeric/slope.ts";

const of = (...rows: number[]): Float64Array => Float64Array.from(rows);
/** f(x) = A x, which has A as its Jacobian everywhere. */
const linear = (matrix: Float64Array) => (x: Float64Array, out: Float64Array) => {
  out.set(product(matrix, x));
  return true;
};
const inverted = (matrix: Float64Array) => {
  const n = Math.sqrt(matrix.length);
  const x = Float64Array.from({ length: n }, (_, i) => i + 1);
  return inverseJacobian(linear(matrix), x, product(matrix, x), new Float64Array(n).fill(0.5));
};
const near = (found: Float64Array | null, expected: Float64Array) => {
  expect(found).not.toBeNull();
  // In shares of what is large, in itself where it is small.
  for (const [i, one] of expected.entries()) expect((found![i]! - one) / Math.max(1, Math.abs(one))).toBeCloseTo(0, 10);
};

describe("the inverse of a Jacobian by differences", () => {
  it("is that of the matrix where the functions are linear, whatever their scales and the order of their rows", () => {
    // [[a, b], [c, d]] has [[d, −b], [−c, a]] / (ad − bc).
    near(inverted(of(3, 1, 4, 2)), of(1, -0.5, -2, 1.5));
    near(inverted(of(0, 5, 2, 7)), of(-0.7, 0.5, 0.2, 0));
    near(inverted(of(3e8, 1e8, 4e-6, 2e-6)), of(1e-8, -0.5e6, -2e-8, 1.5e6));
    // Of three: the rows turned about, each with a factor; adjugate over determinant by hand, det = 24.
    near(inverted(of(0, 0, 4, 2, 0, 0, 0, 3, 0)), of(0, 1 / 2, 0, 0, 0, 1 / 3, 1 / 4, 0, 0));
    near(
      inverted(of(2, 1, 0, 1, 3, 1, 0, 1, 4)),
      of(11 / 18, -4 / 18, 1 / 18, -4 / 18, 8 / 18, -2 / 18, 1 / 18, -2 / 18, 5 / 18),
    );
  });
  it("is none where two unknowns do the same, a function does nothing, or it has no values beside", () => {
    expect(inverted(of(1, 2, 2, 4))).toBeNull();
    expect(inverted(of(0, 0, 1, 2))).toBeNull();
    expect(inverseJacobian(() => false, of(1), of(1), of(0.1))).toBeNull();
  });
});

describe("an inverse bent by a step", () => {
  it("takes the change it was shown for the step that made it, and leaves what is square to it", () => {
    const before = of(1, 0.2, -0.3, 0.8);
    const [s, y] = [of(0.4, -0.1), of(0.7, 0.3)];
    const bent = Float64Array.from(before);
    broydenUpdate(bent, s, y);
    near(product(bent, y), s);
    // Broyden's good update keeps the Jacobian's effect on what is square to s: J' v = J v, so v = H' (J v).
    const v = of(0.1, 0.4);
    const det = before[0]! * before[3]! - before[1]! * before[2]!;
    const jv = product(of(before[3]! / det, -before[1]! / det, -before[2]! / det, before[0]! / det), v);
    near(product(bent, jv), v);
  });
  it("stays as it is where the step tells nothing", () => {
    const before = of(1, 0, 0, 1);
    const bent = Float64Array.from(before);
    broydenUpdate(bent, of(1, 0), of(0, 1));
    expect(bent).toEqual(before);
  });
});

describe("a derivative of what is known in a narrow place alone", () => {
  it("is found though thirty quarters of the first width lead there, and not beyond", () => {
    const within = (quarters: number) => (shift: number, out: Float64Array) => {
      out[0] = Math.abs(shift) <= 1.5 * 4 ** -quarters ? 3 * shift : Number.NaN;
    };
    for (const quarters of [1, 14, 16, 20, 29, 30]) {
      const out = new Float64Array(1);
      expect(slope(within(quarters), 1, 1, 4, out)).toBeLessThan(1e-9);
      expect(out[0]).toBeCloseTo(3, 9);
    }
    expect(slope(within(31), 1, 1, 4, new Float64Array(1))).toBe(Number.POSITIVE_INFINITY);
  });
});
