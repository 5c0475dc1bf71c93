/** Derivatives by extrapolated differences, normal quadrature, Cholesky and Brent's two methods, at what they promise. */
import { describe, expect, it } from "vitest";
import {
  brent,
  choleskyInPlace,
  choleskyInverse,
  choleskySolve,
  gaussHermite,
  integrateAdaptively,
  minimise,
  slope,
} from "../../src/numeric/index.ts";

describe("a derivative by extrapolated differences", () => {
  const of = (f: (x: number) => number[], x: number, width: number, levels: number) => {
    const out = new Float64Array(f(x).length);
    let calls = 0;
    const error = slope(
      (shift, into) => {
        calls++;
        into.set(f(x + shift));
      },
      out.length,
      width,
      levels,
      out,
    );
    return { out, error, calls };
  };

  it("of several smooth functions at once comes to rounding in six levels, and says how near it is", () => {
    const { out, error, calls } = of((x) => [Math.sin(x), Math.exp(x), x ** 3], 0.7, 0.3, 6);
    const exact = [Math.cos(0.7), Math.exp(0.7), 3 * 0.49];
    out.forEach((value, i) => {
      expect(Math.abs(value / exact[i]! - 1)).toBeLessThan(1e-10);
    });
    expect(error).toBeLessThan(1e-9);
    expect(calls).toBeLessThanOrEqual(12);
  });
  it("of one level is the plain central difference, of two the five-point rule", () => {
    const f = (x: number) => [Math.exp(x)];
    const h = 0.1;
    expect(of(f, 0, h, 1).out[0]).toBeCloseTo(Math.sinh(h) / h, 13);
    // (4 D(h/2) − D(h))/3, error −h⁴/480 of eˣ.
    expect(of(f, 0, h, 2).out[0]).toBeCloseTo((4 * (Math.sinh(h / 2) / (h / 2)) - Math.sinh(h) / h) / 3, 13);
  });
  it("of a straight line is its slope, without error", () => {
    const { out, error } = of((x) => [3 * x - 1, -2 * x], 5, 1, 6);
    expect([...out]).toEqual([3, -2]);
    expect(error).toBe(0);
  });
  it("steps nearer where the function ends close by, and says Infinity where it is nowhere", () => {
    const near = of((x) => [Math.sqrt(x)], 1e-3, 1, 6);
    expect(Math.abs(near.out[0]! / (0.5 / Math.sqrt(1e-3)) - 1)).toBeLessThan(1e-4);
    expect(of(() => [Number.NaN], 0, 1, 6).error).toBe(Number.POSITIVE_INFINITY);
  });
});

describe("quadrature of the normal", () => {
  it.each([1, 2, 3, 5, 10, 25])("with %i places has the moments of a standard normal up to 2n − 1", (n) => {
    const { nodes, weights } = gaussHermite(n);
    const moment = (k: number): number => nodes.reduce((sum, z, i) => sum + weights[i]! * z ** k, 0);
    let exact = 1;
    for (let k = 0; k < Math.min(2 * n, 12); k++) {
      // E z^k = (k − 1)!! for even k, none for odd.
      if (k % 2 === 0 && k > 0) exact *= k - 1;
      expect(Math.abs(moment(k) - (k % 2 === 0 ? exact : 0))).toBeLessThan(1e-10 * Math.max(1, exact));
    }
    expect([...nodes]).toEqual([...nodes].sort((a, b) => a - b));
  });
  it("of three places is at 0 and ±√3 with weights 2/3 and 1/6 (closed form)", () => {
    const { nodes, weights } = gaussHermite(3);
    [-Math.sqrt(3), 0, Math.sqrt(3)].forEach((z, i) => {
      expect(nodes[i]).toBeCloseTo(z, 14);
    });
    [1 / 6, 2 / 3, 1 / 6].forEach((w, i) => {
      expect(weights[i]).toBeCloseTo(w, 14);
    });
  });
});

describe("Cholesky's factor", () => {
  // 4×4 of Hilbert with a shift: positive definite, nothing symmetric about its entries' places.
  const n = 4;
  const A = Float64Array.from(
    { length: 16 },
    (_, k) => 1 / (1 + Math.floor(k / n) + (k % n)) + (k % 5 === 0 ? 0.3 : 0),
  );
  it("gives A back as L Lᵀ, and solves with it", () => {
    const l = A.slice();
    expect(choleskyInPlace(l, n)).toBe(true);
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++) {
        let sum = 0;
        for (let k = 0; k <= j; k++) sum += l[i * n + k]! * l[j * n + k]!;
        expect(sum).toBeCloseTo(A[i * n + j]!, 14);
      }
    const x = [1, -2, 3, 0.5];
    const b = Float64Array.from({ length: n }, (_, i) => x.reduce((sum, v, j) => sum + A[i * n + j]! * v, 0));
    choleskySolve(l, n, b);
    b.forEach((value, i) => {
      expect(value).toBeCloseTo(x[i]!, 12);
    });
    const inverse = choleskyInverse(l, n);
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        let sum = 0;
        for (let k = 0; k < n; k++) sum += A[i * n + k]! * inverse[k * n + j]!;
        expect(sum).toBeCloseTo(i === j ? 1 : 0, 12);
      }
  });
  it("refuses what is not positive definite, and what is as good as singular where a floor is asked", () => {
    expect(choleskyInPlace(Float64Array.of(1, 2, 2, 1), 2)).toBe(false);
    expect(choleskyInPlace(Float64Array.of(0, 0, 0, 1), 2)).toBe(false);
    expect(choleskyInPlace(Float64Array.of(Number.POSITIVE_INFINITY), 1)).toBe(false);
    const near = Float64Array.of(1, 1, 1, 1 + 1e-9);
    expect(choleskyInPlace(near.slice(), 2)).toBe(true);
    expect(choleskyInPlace(near.slice(), 2, 1e-6)).toBe(false);
  });
});

describe("Brent's root and minimum", () => {
  const counted = (f: (x: number) => number) => {
    let calls = 0;
    const g = (x: number): number => {
      calls++;
      return f(x);
    };
    return { g, calls: () => calls };
  };
  it.each([
    ["a cubic", (x: number) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265, 10],
    ["a cosine", (x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607, 9],
    ["a logarithm", (x: number) => Math.log(x), 0.1, 7, 1, 13],
  ] as const)("%s takes no more steps than the secant gains (roots recalled)", (_, f, low, high, root, most) => {
    const { g, calls } = counted(f);
    expect(Math.abs(brent(g, low, high, 1e-14) - root)).toBeLessThan(2e-14);
    expect(calls()).toBeLessThanOrEqual(most);
  });
  it("a step, which no secant helps, takes little more than bisection", () => {
    const { g, calls } = counted((x) => (x < 1 / 3 ? -1 : 1));
    expect(Math.abs(brent(g, 0, 1, 1e-12) - 1 / 3)).toBeLessThan(2e-12);
    expect(calls()).toBeLessThan(90);
  });
  it("a parabola's minimum is met at once, a quartic's within the root of rounding", () => {
    const parabola = counted((x) => (x - 1.3) ** 2 + 2);
    expect(minimise(parabola.g, -4, 5, 1e-9)).toBeCloseTo(1.3, 7);
    expect(parabola.calls()).toBeLessThan(16);
    const bent = counted((x) => x - Math.log(x));
    expect(minimise(bent.g, 0.01, 20, 1e-9)).toBeCloseTo(1, 6);
    expect(bent.calls()).toBeLessThan(40);
    expect(minimise((x) => Math.abs(x - 0.2), 3, -1, 1e-9)).toBeCloseTo(0.2, 6);
  });
});

describe("adaptive halves", () => {
  it("sum a cubic at the first look, and ask no more than they need", () => {
    let calls = 0;
    const f = (x: number): number => {
      calls++;
      return x ** 3;
    };
    expect(integrateAdaptively(f, 0, 2, 1e-12, 20)).toBeCloseTo(4, 13);
    expect(calls).toBe(5);
    // Ends known already are not asked again.
    calls = 0;
    expect(integrateAdaptively(f, 0, 2, 1e-12, 20, 0, 8)).toBeCloseTo(4, 13);
    expect(calls).toBe(3);
  });
  it("correct by Richardson's fifteenth: e^x over [0, 1] without a halving to 1e-7", () => {
    expect(Math.abs(integrateAdaptively(Math.exp, 0, 1, 1, 20) - (Math.E - 1))).toBeLessThan(1e-6);
    expect(Math.abs(integrateAdaptively(Math.exp, 0, 1, 1e-13, 0) - (Math.E - 1))).toBeLessThan(1e-6);
    expect(Math.abs(integrateAdaptively(Math.exp, 0, 1, 1e-13, 30) - (Math.E - 1))).toBeLessThan(1e-12);
  });
});
