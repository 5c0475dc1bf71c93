/** A root and a minimum are as near as was asked, and no more work is done for it than that takes. */
import { describe, expect, it } from "vitest";
import { brent, minimise } from "../../src/numeric/index.ts";

describe("how near is asked", () => {
  const bowls: [f: (x: number) => number, at: number][] = [0.3, 1.7, 4.1, 7.9, 9.2].flatMap((at) => [
    [(x: number) => (x - at) ** 2, at],
    [(x: number) => Math.cosh(x - at) + 0.3 * Math.abs(x - at), at],
    [(x: number) => Math.abs(x - at) ** 1.5, at],
  ]);
  it.each([0.3, 0.03, 1e-4])(
    "a minimum is found within %d, and no later than golden section takes and a few",
    (tolerance) => {
      for (const [f, at] of bowls) {
        let calls = 0;
        const found = minimise(
          (x) => {
            calls++;
            return f(x);
          },
          0,
          10,
          tolerance,
        );
        expect(Math.abs(found - at)).toBeLessThanOrEqual(tolerance);
        expect(calls).toBeLessThan(Math.log(10 / tolerance) / Math.log(1.618) + 16);
      }
    },
  );
  it.each([0.3, 1e-3, 1e-9])("a root is found within %d", (tolerance) => {
    for (const root of [0.7, 2.2, 5.9, 9.6])
      for (const f of [
        (x: number) => x - root,
        (x: number) => (x - root) ** 3,
        (x: number) => Math.atan(4 * (x - root)),
      ])
        expect(Math.abs(brent(f, 0, 10, tolerance) - root)).toBeLessThanOrEqual(tolerance);
  });
});
