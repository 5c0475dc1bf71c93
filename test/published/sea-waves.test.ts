import { describe, expect, it } from "vitest";
import {
  elevationDensity,
  exactNormalisation,
  fittedNormalisation,
  fullyDevelopedSea,
  jonswap,
  meanPeriods,
  moment,
  piersonMoskowitz,
} from "../../src/sea/index.ts";

const near = (value: number, printed: number, unit: number): void => {
  // Half a unit of the last printed digit (and a hair for binary rounding).
  expect(Math.abs(value - printed)).toBeLessThan(0.501 * unit);
};

// T_m02 at γ = 5 was first computed as 0.805285; quadrature in 25 digits by an arbitrary-precision library gives
// 0.80528578613, so the last digit here is 6.
describe("JONSWAP, H_s = 4 m, T_p = 8 s (forms seen; values computed independently)", () => {
  it.each([
    [1, 1, 1, 4, 0.771771, 0.710371, 0.857223, 1.823946],
    [2, 0.801067, 0.80281, 3.995654, 0.806296, 0.746436, 0.883539, 2.922205],
    [3.3, 0.657344, 0.65576, 4.004829, 0.834328, 0.777399, 0.903296, 3.95657],
    [5, 0.538091, 0.53809, 4.000005, 0.858344, 0.805286, 0.919193, 4.907248],
    [7, 0.441524, 0.449404, 3.964775, 0.877475, 0.828498, 0.931234, 5.637209],
  ])("γ = %f", (gamma, fitted, exact, height, tm01, tm02, tm10, peakDensity) => {
    const sea = jonswap(4, 8, gamma);
    near(fittedNormalisation(gamma), fitted, 1e-6);
    near(exactNormalisation(gamma), exact, 1e-6);
    const periods = meanPeriods(sea);
    near(periods.tm01 / 8, tm01, 1e-6);
    near(periods.tm02 / 8, tm02, 1e-6);
    near(periods.tm10 / 8, tm10, 1e-6);
    // Height and density as the fitted A has them.
    const ratio = fittedNormalisation(gamma) / sea.normalisation;
    near(4 * Math.sqrt(moment(sea, 0) * ratio), height, 1e-6);
    near(elevationDensity(sea, (2 * Math.PI) / 8) * ratio, peakDensity, 1e-6);
    // Our own A returns the height asked for: to 1e-9, the accuracy of the quadrature.
    expect(Math.abs(4 * Math.sqrt(moment(sea, 0)) - 4)).toBeLessThan(4e-9);
  });

  it("has T_m01 = 0.8345 T_p and T_m02 = 0.777 T_p at γ = 3.3 (DNV-RP-C205, recalled)", () => {
    const { tm01, tm02 } = meanPeriods(jonswap(1, 1, 3.3));
    // Recalled to three and four figures; T_m01 prints 0.8343 computed, so two units of the fourth.
    expect(Math.abs(tm01 - 0.8345)).toBeLessThan(2e-4);
    expect(Math.abs(tm02 - 0.777)).toBeLessThan(5e-4);
  });
});

describe("Pierson-Moskowitz", () => {
  it("has the closed-form mean periods: (1.25π)^-¼, 1.25^-¼/Γ(¾), 1.25^-¼ Γ(5/4)", () => {
    const { tm01, tm02, tm10 } = meanPeriods(piersonMoskowitz(2, 6));
    // To 1e-9, the accuracy of the quadrature; the closed forms as printed to ten digits.
    expect(Math.abs(tm02 / 6 - 0.710370681)).toBeLessThan(1e-9);
    expect(Math.abs(tm01 / 6 - 0.7717714367)).toBeLessThan(1e-9);
    expect(Math.abs(tm10 / 6 - 0.8572225371)).toBeLessThan(1e-9);
    expect(Math.abs(tm02 / 6 - (1.25 * Math.PI) ** -0.25)).toBeLessThan(1e-9);
  });

  it("makes a wind of 20 m/s at 19.5 m a sea of 8.531937 m, 14.603617 s with g = 9.81 (recalled formula, computed)", () => {
    const sea = fullyDevelopedSea(20, 9.81);
    near(sea.significantHeight, 8.531937, 1e-6);
    near(sea.peakPeriod, 14.603617, 1e-6);
    near((sea.significantHeight * 9.81) / 400, 0.2092457497, 1e-10);
  });
});
