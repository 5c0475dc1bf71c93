/**
 * The likelihood with a random intercept beside an integral of its own: each group's is summed over the intercept by the
 * trapezoid rule on a fine even grid, without knowing where the integrand lies, from densities and shares written out here.
 */
import { describe, expect, it } from "vitest";
import { AftFitter, fitAft, type Hold, type Law, observations } from "../../src/holding/index.ts";
import { normalBelow, rng } from "../../src/statistics/index.ts";

const GROUPS = 6;
const stream = rng(21);
/** Groups of 1 to 12 pulls, every kind of ending, one covariate. */
const pulls = Array.from({ length: GROUPS }, (_, group) => {
  const own = [0.9, -0.8, 0.1, 0.7, -1, 0.2][group]!;
  return Array.from({ length: [1, 12, 3, 7, 5, 9][group]! }, (_, k) => {
    const x = stream.normal();
    const load = Math.exp(8 + 0.2 * x + own + 0.4 * stream.normal());
    const hold: Hold =
      k % 4 === 0
        ? { kind: "gaveWay", newtons: load }
        : k % 4 === 1
          ? { kind: "heldTo", newtons: 0.8 * load }
          : k % 4 === 2
            ? { kind: "between", heldTo: 0.8 * load, gaveWayBy: 1.3 * load }
            : { kind: "neverHeld", newtons: 1.2 * load };
    return { group, x, hold };
  });
}).flat();
const problemOf = (law: Law) => ({
  law,
  observations: observations(pulls.map(({ hold }) => hold)),
  terms: { names: ["intercept", "x"], rows: Float64Array.from(pulls.flatMap(({ x }) => [1, x])) },
  random: { groups: GROUPS, of: Int32Array.from(pulls, ({ group }) => group) },
});

const SHARE: Record<Law, (w: number) => number> = {
  lognormal: normalBelow,
  weibull: (w) => -Math.expm1(-Math.exp(w)),
  loglogistic: (w) => 1 / (1 + Math.exp(-w)),
};
const DENSITY: Record<Law, (w: number) => number> = {
  lognormal: (w) => Math.exp(-0.5 * w * w) / Math.sqrt(2 * Math.PI),
  weibull: (w) => Math.exp(w - Math.exp(w)),
  loglogistic: (w) => Math.exp(-w) / (1 + Math.exp(-w)) ** 2,
};

function likelihoodOf(law: Law, hold: Hold, centre: number, scale: number): number {
  const at = (load: number): number => (Math.log(load) - centre) / scale;
  switch (hold.kind) {
    case "gaveWay":
      return DENSITY[law](at(hold.newtons)) / (scale * hold.newtons);
    case "heldTo":
      return law === "lognormal" ? normalBelow(-at(hold.newtons)) : 1 - SHARE[law](at(hold.newtons));
    case "neverHeld":
      return SHARE[law](at(hold.newtons));
    case "between":
      return SHARE[law](at(hold.gaveWayBy)) - SHARE[law](at(hold.heldTo));
  }
}

/** From terms, ln σ and ln ω: twenty deviations either side, a fiftieth a step. */
function summed(law: Law, [intercept, slope, logScale, logRandom]: readonly number[]): number {
  const STEP = 0.02;
  let total = 0;
  for (let group = 0; group < GROUPS; group++) {
    let sum = 0;
    for (let z = -20; z <= 20 + 1e-9; z += STEP) {
      let product = (STEP * Math.exp(-0.5 * z * z)) / Math.sqrt(2 * Math.PI);
      for (const pull of pulls) {
        if (pull.group !== group) continue;
        const centre = intercept! + slope! * pull.x + Math.exp(logRandom!) * z;
        product *= likelihoodOf(law, pull.hold, centre, Math.exp(logScale!));
      }
      sum += product;
    }
    total += Math.log(sum);
  }
  return total;
}

describe("a random intercept", () => {
  for (const law of ["lognormal", "weibull", "loglogistic"] as const) {
    it(`has the likelihood of the sum over it, wherever it is asked, and its highest value where the sum has (${law})`, () => {
      const fitter = new AftFitter(problemOf(law));
      const gradient = new Float64Array(4);
      const hessian = new Float64Array(16);
      for (const at of [
        [8, 0.2, -0.9, -0.7],
        [7.6, -0.1, -0.4, 0.3],
        [8.3, 0.5, -1.2, -2.5],
      ]) {
        const value = fitter.logLikelihood(Float64Array.from(at), gradient, hessian);
        // Smooth and gone at both ends, so the trapezoid is exact to rounding; quadrature is held to 1e-8 of the whole.
        expect(Math.abs(value - summed(law, at))).toBeLessThan(1e-8 * Math.abs(value));
        for (let k = 0; k < 4; k++) {
          const moved = (by: number): number =>
            summed(
              law,
              at.map((x, j) => (j === k ? x + by : x)),
            );
          expect(Math.abs((moved(1e-4) - moved(-1e-4)) / 2e-4 - gradient[k]!)).toBeLessThan(
            1e-5 * Math.max(1, Math.abs(gradient[k]!)),
          );
        }
      }
      const fit = fitAft(problemOf(law));
      if (fit.kind !== "fitted") throw new Error(fit.kind);
      const best = [...fit.terms.map(({ value }) => value), fit.logScale.value, fit.logRandom!.value];
      const top = summed(law, best);
      expect(Math.abs(top - fit.logLikelihood)).toBeLessThan(1e-8 * Math.abs(top));
      for (let k = 0; k < 4; k++)
        for (const by of [-0.02, 0.02])
          expect(
            summed(
              law,
              best.map((x, j) => (j === k ? x + by : x)),
            ),
          ).toBeLessThan(top);
    });
  }
});
