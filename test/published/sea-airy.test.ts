import { describe, expect, it } from "vitest";
import { groupRatio, shoaling, waveLength, waveNumber } from "../../src/sea/index.ts";

// US Army CERC, Shore Protection Manual (1984), appendix C, Table C-1 (Wiegel 1954). The table was located, its digits not
// visible; the rows below were computed independently to six decimals. d/L = 0.1410 at d/L₀ = 0.1000 is recalled from it.
const rows = [
  [0.001, 0.012629, 0.07935, 0.079184, 0.997907, 2.515489],
  [0.01, 0.040317, 0.253318, 0.248035, 0.979234, 1.434779],
  [0.05, 0.094155, 0.591592, 0.53104, 0.899934, 1.02286],
  [0.1, 0.140981, 0.885808, 0.709317, 0.81025, 0.932729],
  [0.2, 0.225115, 1.414441, 0.888434, 0.667712, 0.918074],
  [0.3, 0.312118, 1.961098, 0.961174, 0.57768, 0.948943],
  [0.5, 0.501828, 3.153081, 0.996357, 0.511509, 0.990492],
  [1.0, 1.000007, 6.283229, 0.999993, 0.500044, 0.99996],
] as const;

describe("Airy waves by the table of the Shore Protection Manual (form), digits computed independently", () => {
  it.each(rows)("d/L₀ = %f", (ratio, dOverL, kd, tanh, n, ks) => {
    // With g = 1 and depth = 1, L₀ = 2π/ω², so ω² = 2π d/L₀.
    const k = waveNumber(Math.sqrt(2 * Math.PI * ratio), 1, 1);
    // Half a unit of the sixth decimal printed.
    expect(Math.abs(k / (2 * Math.PI) - dOverL)).toBeLessThan(5.1e-7);
    expect(Math.abs(k - kd)).toBeLessThan(5.1e-7);
    expect(Math.abs(Math.tanh(k) - tanh)).toBeLessThan(5.1e-7);
    expect(Math.abs(groupRatio(k) - n)).toBeLessThan(5.1e-7);
    expect(Math.abs(shoaling(k) - ks)).toBeLessThan(5.1e-7);
  });

  it("gives the recalled print d/L = 0.1410 at d/L₀ = 0.1000", () => {
    const k = waveNumber(Math.sqrt(0.2 * Math.PI), 1, 1);
    expect((k / (2 * Math.PI)).toFixed(4)).toBe("0.1410");
  });

  it.each([
    [4, 5, 22.198168661],
    [6, 5, 38.089738128],
    [8, 10, 70.898352376],
    [10, 20, 121.236906659],
  ])("a %f s wave in %f m is %f m long (g = 9.81, computed)", (period, depth, length) => {
    // Half a unit of the ninth decimal printed.
    expect(Math.abs(waveLength(period, depth, 9.81) - length)).toBeLessThan(6e-10);
  });
});
