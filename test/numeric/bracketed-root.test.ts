import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bracketedRoot,
  broydenUpdate,
  type Differentiable,
  inverseJacobian,
  product,
} from "../../src/numeric/index.ts";

/** f with its derivative; counts its calls. */
function counted(f: (x: number) => readonly [number, number]): Differentiable & { calls: number } {
  const own = Object.assign(
    (x: number): number => {
      own.calls++;
      const [value, slope] = f(x);
      own.slope = slope;
      return value;
    },
    { slope: Number.NaN, calls: 0 },
  );
  return own;
}

describe("a bracketed root of a function that tells its derivative", () => {
  it("is found to rounding in a handful of calls", () => {
    const f = counted((x) => [x * x - 2, 2 * x]);
    expect(bracketedRoot(f, 1, 2, 0)).toBeCloseTo(Math.SQRT2, 15);
    expect(f.calls).toBeLessThan(10);
  });

  it("is asked for no more closely than wished", () => {
    // Without a derivative it halves, and every digit costs.
    const calls = (tolerance: number): number => {
      const f = counted((x) => [Math.cbrt(x - 1), Number.NaN]);
      expect(Math.abs(bracketedRoot(f, 0, 3, tolerance) - 1)).toBeLessThanOrEqual(tolerance);
      return f.calls;
    };
    expect(calls(1e-3)).toBeLessThan(0.5 * calls(1e-12));
  });

  it("is found over twenty decades, and where the derivative is a lie or not known", () => {
    const decades = (x: number) => Math.log(x) - Math.log(3e-7);
    expect(
      bracketedRoot(
        counted((x) => [decades(x), 1 / x]),
        1e-12,
        1e8,
        0,
      ) / 3e-7,
    ).toBeCloseTo(1, 12);
    for (const slope of [Number.NaN, 0, -1, 1e300])
      expect(
        bracketedRoot(
          counted((x) => [x ** 3 - 5, slope]),
          0,
          9,
          1e-12,
        ),
      ).toBeCloseTo(Math.cbrt(5), 11);
  });

  it("of a falling or rising cubic lies within the bracket, always", () => {
    const within = fc.double({ min: -10, max: 10, noNaN: true });
    fc.assert(
      fc.property(within, within, fc.boolean(), (root, bend, rising) => {
        const sign = rising ? 1 : -1;
        const f = counted((x) => [
          sign * (x - root) * (1 + (x - bend) ** 2),
          sign * (1 + (x - bend) ** 2 + 2 * (x - root) * (x - bend)),
        ]);
        expect(Math.abs(bracketedRoot(f, -11, 11, 1e-13) - root)).toBeLessThan(1e-10);
      }),
    );
  });

  it("of a bracket without a change of sign is refused, and of no value on the way is none", () => {
    expect(() =>
      bracketedRoot(
        counted((x) => [x * x + 1, 2 * x]),
        -1,
        1,
        0,
      ),
    ).toThrow(/different sign/);
    expect(
      bracketedRoot(
        counted((x) => [Math.abs(x) < 0.9 ? Number.NaN : x, 1]),
        -1,
        1.5,
        0,
      ),
    ).toBeNaN();
  });
});

describe("an inverse Jacobian that steps bend", () => {
  it("finds where a circle meets a parabola, looking once a step after the first", () => {
    let looks = 0;
    const f = (x: Float64Array, out: Float64Array): boolean => {
      looks++;
      out[0] = x[0]! ** 2 + x[1]! ** 2 - 4;
      out[1] = x[1]! - x[0]! ** 2;
      return true;
    };
    const x = Float64Array.of(1.3, 1.4);
    const at = new Float64Array(2);
    f(x, at);
    const inverse = inverseJacobian(f, x, at, Float64Array.of(1e-6, 1e-6))!;
    for (let step = 0; step < 12 && Math.hypot(...at) > 1e-14; step++) {
      const s = product(inverse, at).map((one) => -one);
      const before = Float64Array.from(at);
      x.forEach((value, i) => {
        x[i] = value + s[i]!;
      });
      f(x, at);
      broydenUpdate(
        inverse,
        s,
        at.map((value, i) => value - before[i]!),
      );
    }
    // By hand: y² + y − 4 = 0.
    expect(x[1]!).toBeCloseTo((Math.sqrt(17) - 1) / 2, 12);
    expect(looks).toBeLessThan(14);
  });

  it("of unknowns that cannot be told apart is none", () => {
    const f = (x: Float64Array, out: Float64Array): boolean => {
      out[0] = x[0]! + x[1]!;
      out[1] = 2 * (x[0]! + x[1]!);
      return true;
    };
    expect(inverseJacobian(f, new Float64Array(2), new Float64Array(2), Float64Array.of(1, 1))).toBeNull();
  });
});
