import { describe, expect, it } from "vitest";
import { Newton } from "../../src/numeric/index.ts";

const newton = new Newton(2);

/**
 * Rosenbrock's valley turned over: largest at (1, 1). Its second derivatives there, by hand, are −802, 400 and −200;
 * the inverse of what they leave is (1/2, 1, 401/200).
 */
function valley(at: Float64Array, gradient: Float64Array, hessian: Float64Array): number {
  const [x, y] = [at[0]!, at[1]!];
  const off = y - x * x;
  gradient[0] = 2 * (1 - x) + 400 * x * off;
  gradient[1] = -200 * off;
  hessian[0] = -2 + 400 * off - 800 * x * x;
  hessian[1] = hessian[2] = 400 * x;
  hessian[3] = -200;
  return -((1 - x) ** 2) - 100 * off * off;
}

describe("the largest value of a likelihood", () => {
  it("is found along a bent ridge from where it bends the wrong way, with the inverse of the information there", () => {
    for (const start of [
      [-1.2, 1],
      [0, 3],
      [3, -2],
    ]) {
      const found = newton.maximise(valley, start);
      if (found.kind !== "maximum") throw new Error("a maximum is expected");
      // As promised: a ten-millionth of the deviations, √½ and √2.005.
      expect(Math.abs(found.at[0]! - 1)).toBeLessThan(1e-7 * Math.SQRT1_2);
      expect(Math.abs(found.at[1]! - 1)).toBeLessThan(1e-7 * Math.sqrt(2.005));
      expect(found.value).toBeCloseTo(0, 13);
      expect(found.steps).toBeLessThan(60);
      [0.5, 1, 1, 2.005].forEach((value, k) => {
        expect(found.covariance[k]).toBeCloseTo(value, 6);
      });
    }
  });

  it("of counts is the logarithm of their mean, its variance one over their sum (closed form)", () => {
    const counts = [3, 7, 0, 4, 6];
    const found = new Newton(1).maximise(
      (at, gradient, hessian) => {
        const rate = Math.exp(at[0]!);
        gradient[0] = counts.reduce((sum, n) => sum + n - rate, 0);
        hessian[0] = -counts.length * rate;
        return counts.reduce((sum, n) => sum + n * at[0]! - rate, 0);
      },
      [-3],
    );
    if (found.kind !== "maximum") throw new Error("a maximum is expected");
    expect(Math.abs(found.at[0]! - Math.log(4))).toBeLessThan(1e-7 * Math.sqrt(1 / 20));
    expect(found.covariance[0]).toBeCloseTo(1 / 20, 8);
  });

  it("of a parabola is one step away", () => {
    const found = new Newton(1).maximise(
      (at, gradient, hessian) => {
        gradient[0] = -6 * (at[0]! - 2);
        hessian[0] = -6;
        return -3 * (at[0]! - 2) ** 2;
      },
      [50],
    );
    expect(found).toMatchObject({ kind: "maximum", steps: 1 });
    expect(found.at[0]).toBeCloseTo(2, 12);
  });

  it("is none where it rises for ever, where nothing holds it, and where it begins at no number", () => {
    const rising = (at: Float64Array, gradient: Float64Array, hessian: Float64Array): number => {
      gradient[0] = 1;
      hessian[0] = 0;
      return at[0]!;
    };
    expect(new Newton(1).maximise(rising, [0]).kind).toBe("none");
    const flat = (_: Float64Array, gradient: Float64Array, hessian: Float64Array): number => {
      gradient.fill(0);
      hessian.fill(0);
      return 1;
    };
    expect(newton.maximise(flat, [1, 2])).toMatchObject({ kind: "none", value: 1 });
    expect(new Newton(1).maximise(() => Number.NaN, [0]).kind).toBe("none");
  });
});
