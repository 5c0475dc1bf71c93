import { describe, expect, it } from "vitest";
import {
  froyaDensity,
  froyaIntensity,
  froyaWind,
  kaimalDensity,
  kaimalDeviation,
  kaimalLength,
  ochiShinDensity,
  ochiShinDrag,
  windVariance,
} from "../../src/sea/index.ts";

const near = (value: number, printed: number, unit: number): void => {
  // Half a unit of the last printed digit (and a hair for binary rounding).
  expect(Math.abs(value - printed)).toBeLessThan(0.501 * unit);
};

describe("NPD / Frøya (profile and gust seen in public code; spectrum recalled; values computed independently)", () => {
  // U₀, z | U(z) over 1 h, I_u, U over 60 s, over 3 s, S(0.01), S(0.1), standard deviation over 1/3600 … 0.5 Hz
  it.each([
    [10, 10, 10, 0.0858, 11.440309, 12.494147, 16.765305, 1.21189, 0.943525],
    [20, 10, 20, 0.1116, 23.746817, 26.488271, 106.417855, 9.446547, 2.420877],
    [20, 5, 18.411307, 0.12998427, 22.428693, 25.368118, 112.367711, 12.104641, 2.564856],
    [30, 20, 32.794362, 0.11796689, 39.288591, 44.04026, 285.838969, 23.800424, 3.938474],
  ])("U₀ = %f m/s at z = %f m", (wind, z, mean, intensity, minute, threeSeconds, slow, fast, deviation) => {
    near(froyaWind(wind, z, 3600), mean, 1e-6);
    near(froyaIntensity(wind, z), intensity, 1e-8);
    near(froyaWind(wind, z, 60), minute, 1e-6);
    near(froyaWind(wind, z, 3), threeSeconds, 1e-6);
    near(froyaDensity(wind, z, 0.01), slow, 1e-6);
    near(froyaDensity(wind, z, 0.1), fast, 1e-6);
    near(Math.sqrt(windVariance({ kind: "froya", wind, height: z }, 1 / 3600, 0.5)), deviation, 1e-6);
  });
});

describe("Kaimal, IEC 61400-1 ed. 3 (σ₁ seen; length and spectrum recalled; values computed independently)", () => {
  it.each([
    [15, "A", 60, 2.696, 340.2, 157.535157, 7.553674],
    [20, "C", 30, 2.472, 170.1, 104.566492, 10.199815],
  ] as const)("V = %f m/s, class %s, z = %f m", (wind, turbulence, z, deviation, length, slow, fast) => {
    near(kaimalDeviation(wind, turbulence), deviation, 1e-9);
    near(kaimalLength(z), length, 1e-9);
    near(kaimalDensity(wind, z, turbulence, 0.01), slow, 1e-6);
    near(kaimalDensity(wind, z, turbulence, 0.1), fast, 1e-6);
  });

  it("holds 0.991860624 of its variance below 10 Hz in the first case, by quadrature as by the closed form", () => {
    const { wind, height, turbulence } = { wind: 15, height: 60, turbulence: "A" } as const;
    // Below 1e-6 Hz lies a share of (4 L/V)·1e-6 = 9e-5 of the variance: counted by the flat start of the spectrum.
    const below = 1e-9 * kaimalDensity(wind, height, turbulence, 0);
    const variance = below + windVariance({ kind: "kaimal", wind, height, turbulence }, 1e-9, 10);
    near(variance / 2.696 ** 2, 0.991860624, 1e-9);
  });
});

describe("Ochi & Shin (1988), OTC 5736 (seen in public code; values computed independently)", () => {
  it("has the spectrum of V = 20 m/s", () => {
    near(ochiShinDrag(20), 0.00213, 1e-9);
    near(ochiShinDensity(20, 0.001), 248.358, 1e-3);
    near(ochiShinDensity(20, 0.01), 164.663849, 1e-6);
    near(ochiShinDensity(20, 0.1), 13.881134, 1e-6);
    near(ochiShinDensity(20, 0.2), 5.109319, 1e-6);
  });

  it("joins its branches as computed: 1.749000 to 1.748983 at 0.003, 1.199371 to 1.199356 at 0.1", () => {
    const wind = 20;
    const reduced = (f: number): number => (f * ochiShinDensity(wind, f)) / (ochiShinDrag(wind) * wind * wind);
    const just = 1 + 1e-12;
    near(reduced(0.003 * 2), 1.749, 1e-6);
    near(reduced(0.003 * 2 * just), 1.748983, 1e-6);
    near(reduced(0.1 * 2), 1.199371, 1e-6);
    near(reduced(0.1 * 2 * just), 1.199356, 1e-6);
  });
});
