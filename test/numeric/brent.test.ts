import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brent, minimise } from "../../src/numeric/index.ts";

describe("roots", () => {
  test.each<[string, (x: number) => number, number, number, number]>([
    ["cos x = x", (x) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
    ["x³ = 2x + 5 (Wallis)", (x) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265],
    ["a ninth power, flat at its root", (x) => (x - 1) ** 9, 0, 3, 1],
    ["a steep exponential", (x) => Math.exp(50 * x) - 2, -10, 10, Math.log(2) / 50],
    ["a pole without a root", (x) => 1 / (x - 0.3), 0, 1, 0.3],
    ["a step", (x) => (x < 0.7 ? -1 : 1), 0, 1, 0.7],
    ["limits the wrong way round", (x) => x - 0.25, 1, 0, 0.25],
  ])("%s", (_, f, low, high, root) => {
    // The ninth power is zero in doubles within 1e-35 of its root only; its root is met to the tolerance all the same.
    expect(Math.abs(brent(f, low, high, 1e-12) - root)).toBeLessThan(2e-12);
  });

  test("a limit that is the root is given back", () => {
    expect(brent((x) => x - 2, 2, 5, 1e-9)).toBe(2);
    expect(brent((x) => x - 5, 2, 5, 1e-9)).toBe(5);
  });

  test("any cubic with a root between is solved in few turns", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: 0.01, max: 10, noNaN: true }),
        (root, bend) => {
          let asked = 0;
          const found = brent(
            (x) => {
              asked++;
              return (x - root) * (1 + bend * (x - root) ** 2);
            },
            -10,
            10,
            1e-10,
          );
          expect(Math.abs(found - root)).toBeLessThan(1.1e-10);
          expect(asked).toBeLessThan(60);
        },
      ),
      { seed: 4 },
    );
  });

  test("three places in hand, the next is where x as a quadratic of the value has its zero", () => {
    // √x − 1 is such a one, so that the zero is exact. On 0.25 to 9 the values are −1/2 and 2: the secant meets zero at
    // 0.25 + (1/2) (8.75/2.5) = 2; from 0.25 and 2 at 0.25 + (1/2) (1.75/(√2 − 1/2)); and of the last three places the
    // quadratic at 1.
    for (const sign of [1, -1]) {
      const asked: number[] = [];
      const f = (x: number) => {
        asked.push(x);
        return sign * (Math.sqrt(x) - 1);
      };
      expect(brent(f, 0.25, 9, 1e-9)).toBeCloseTo(1, 9);
      const places = [0.25, 9, 2, 0.25 + (0.5 * 1.75) / (Math.SQRT2 - 0.5), 1];
      expect(asked.slice(0, 5)).toEqual(places.map((x) => expect.closeTo(x, 12)));
      // What is known already is not asked for, and a change of sign on both sides of the root ends it.
      expect(asked.length).toBeLessThan(8);
      asked.length = 0;
      brent(f, 0.25, 9, 1e-9, sign * -0.5, sign * 2);
      expect(asked.slice(0, 3)).toEqual(places.slice(2).map((x) => expect.closeTo(x, 12)));
    }
  });

  test("limits of the same sign, or no value at one, are refused in one line", () => {
    expect(() => brent((x) => x * x + 1, -1, 1, 1e-9)).toThrow(
      "bracket: 2 at -1, 2 at 1; values of different sign are expected",
    );
    expect(() => brent((x) => Math.log(x), -1, 2, 1e-9)).toThrow("NaN at -1");
  });
});

describe("minima", () => {
  // Near a smooth minimum the values are flat to rounding over about the root of it, a fourth power over the fourth root.
  test.each<[string, (x: number) => number, number, number, number, number]>([
    ["a parabola", (x) => (x - 1.7) ** 2, -10, 10, 1.7, 1e-7],
    ["a fourth power", (x) => (x - 0.4) ** 4 + 2, 0, 3, 0.4, 2e-4],
    ["a corner", (x) => Math.abs(x - 0.123), -1, 5, 0.123, 1e-7],
    ["x ln x", (x) => x * Math.log(x), 0.01, 2, Math.exp(-1), 1e-7],
    ["rising: the lower limit", (x) => x, 2, 3, 2, 2e-7],
  ])("%s", (_, f, low, high, place, within) => {
    expect(Math.abs(minimise(f, low, high, 1e-9) - place)).toBeLessThan(within);
  });

  test("a parabola is met at once when three places of it are known; before that by the golden section", () => {
    const golden = (3 - Math.sqrt(5)) / 2;
    for (const lowest of [1.7, -2.3]) {
      const asked: number[] = [];
      const place = minimise(
        (x) => {
          asked.push(x);
          return 4 + 3 * (x - lowest) ** 2;
        },
        -10,
        10,
        1e-9,
      );
      expect(Math.abs(place - lowest)).toBeLessThan(1e-7);
      const first = -10 + golden * 20;
      expect(asked.slice(0, 2)).toEqual([first, first + golden * (10 - first)].map((x) => expect.closeTo(x, 12)));
      // Two more places by the section, then the parabola through the three best.
      const met = asked.findIndex((x) => Math.abs(x - lowest) < 1e-9);
      expect(met).toBeLessThan(5);
      expect(asked.length).toBeLessThan(met + 8);
    }
  });
});
