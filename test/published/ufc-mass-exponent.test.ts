/**
 * UFC 4-159-03 (2005), eq. 26: H = H_R (W / W_R)^b, the holding capacity of an anchor from that of a reference weight, with b
 * of 0.92 to 0.94 (exponents alone; recalled). Loads simulated by it are given to the fits, which have to find b again.
 */
import { describe, expect, it } from "vitest";
import { fitAft, type Hold, observations } from "../../src/holding/index.ts";
import { rng } from "../../src/statistics/index.ts";

describe.each([0.92, 0.94])("loads that grow as mass to the power %d", (b) => {
  it.each(["lognormal", "weibull", "loglogistic"] as const)(
    "are seen to, by the %s fit, within four standard errors",
    (law) => {
      const draw = rng(Math.round(1000 * b));
      const holds: Hold[] = [];
      const rows: number[] = [];
      for (let i = 0; i < 600; i++) {
        const mass = 10 * 10 ** (2.5 * draw.uniform());
        const load = 4000 * (mass / 15) ** b * Math.exp(0.2 * draw.normal());
        const limit = load * Math.exp(0.1 + 0.3 * draw.normal());
        holds.push(load <= limit ? { kind: "gaveWay", newtons: load } : { kind: "heldTo", newtons: limit });
        rows.push(1, Math.log(mass));
      }
      const fit = fitAft({
        law,
        observations: observations(holds),
        terms: { names: ["intercept", "lnMass"], rows: Float64Array.from(rows) },
      });
      if (fit.kind !== "fitted") throw new Error(fit.kind);
      const exponent = fit.terms[1]!;
      expect(Math.abs(exponent.value - b)).toBeLessThan(4 * exponent.u);
      expect(exponent.u).toBeLessThan(0.03);
    },
  );
});
