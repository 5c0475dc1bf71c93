import { describe, expect, it } from "vitest";
import { extrapolatedStep } from "../../src/numeric/index.ts";

/** A turn of the harmonic oscillator, in so many steps: how far it ends from where it began. */
function oneTurn(columns: number, steps: number): number {
  const march = extrapolatedStep(
    2,
    (y, out) => {
      out[0] = y[1]!;
      out[1] = -y[0]!;
    },
    columns,
  );
  const y = Float64Array.of(1, 0);
  for (let i = 0; i < steps; i++) march.step(y, (2 * Math.PI) / steps, y);
  return Math.hypot(y[0]! - 1, y[1]!);
}

describe("a step of the extrapolated midpoint rule", () => {
  it.each([2, 3, 4])("of %d columns has twice that order: half the step, so many times less error", (columns) => {
    const order = Math.log2(oneTurn(columns, 24) / oneTurn(columns, 48));
    // The next term of the error, of order two higher, still shows at these steps.
    expect(order).toBeGreaterThan(2 * columns - 0.3);
    expect(order).toBeLessThan(2 * columns + 0.5);
  });

  it("of six columns goes round a circle in twelve steps to 1e-12", () => {
    // Closed form: cos and sin. seen: 4e-13.
    expect(oneTurn(6, 12)).toBeLessThan(1e-12);
  });

  it("tells more error than it makes, and reads its start from where it writes its end", () => {
    const march = extrapolatedStep(
      1,
      (y, out) => {
        out[0] = y[0]!;
      },
      4,
    );
    const y = Float64Array.of(1);
    march.step(y, 0.5, y);
    const off = Math.abs(y[0]! - Math.exp(0.5));
    expect(off).toBeLessThan(march.error[0]!);
    // The first term left: h to the ninth over the squares of 2, 4, 6 and 8 parts.
    expect(off).toBeLessThan(0.5 ** 9 / (2 * 4 * 6 * 8) ** 2);
  });
});
