import { describe, expect, it } from "vitest";
import {
  CALM_SURROUNDINGS,
  type Conditions,
  calibrate,
  predictLoad,
  steadyLoad,
  windForLoadByWindage,
} from "../../src/sea/index.ts";
import { loadModel, otherInputs } from "../../src/sea/windage-load.ts";
import { propagate, rng, type UncertainInput } from "../../src/statistics/index.ts";
import { kn, tern } from "./demo.ts";

const conditions: Conditions = { ...CALM_SURROUNDINGS, current: { speed: { value: 1 * kn, u: 0.2 * kn }, angle: 0.4 } };
const wind = { value: 20 * kn, u: 1.5 * kn };

describe("first order against Monte Carlo (JCGM 101)", () => {
  it("load by windage in a wind known exactly: the ends of the band are those of the draws", () => {
    const exact = { value: wind.value, u: 0 };
    const first = steadyLoad(tern, exact, CALM_SURROUNDINGS);
    const inputs: UncertainInput[] = [{ name: "wind", ...exact }, ...otherInputs(tern, CALM_SURROUNDINGS)];
    const drawn = propagate(loadModel(tern, CALM_SURROUNDINGS), inputs, { rng: rng(17), part: 0.2 });
    expect(drawn.outcome.kind).toBe("stable");
    // All three factors are normal in logarithms and so is their product: four standard errors of the draws.
    expect(Math.abs(drawn.symmetric.low - first.low)).toBeLessThan(4 * drawn.standardErrors.low);
    expect(Math.abs(drawn.symmetric.high - first.high)).toBeLessThan(4 * drawn.standardErrors.high);
    // The standard deviation of a logarithmic spread s is √(e^(s²) − 1) e^(s²/2): first order leaves out the rest.
    const s = first.u / first.value;
    const whole = first.value * Math.sqrt(Math.expm1(s * s)) * Math.exp((s * s) / 2);
    expect(Math.abs(drawn.u - whole)).toBeLessThan(4 * drawn.standardErrors.u);
  });

  it("load by windage, wind and current uncertain too: the ends within a fifth of u", () => {
    const first = steadyLoad(tern, wind, conditions);
    const inputs: UncertainInput[] = [{ name: "wind", ...wind }, ...otherInputs(tern, conditions)];
    const drawn = propagate(loadModel(tern, conditions), inputs, { rng: rng(17), part: 0.2 });
    // Wind and current are drawn normal, not normal in logarithms: 2 ln(1 + x) lacks x², at 1.96 × 7.5 % some 0.1 u.
    expect(Math.abs(drawn.symmetric.low - first.low)).toBeLessThan(0.2 * first.u);
    expect(Math.abs(drawn.symmetric.high - first.high)).toBeLessThan(0.2 * first.u);
  });

  it("wind by windage: the ends within a fifth of u", () => {
    const load = { value: 900, u: 60 };
    const worth = windForLoadByWindage(tern, load, conditions);
    if (worth.kind !== "wind") throw new Error("a wind was expected");
    const model = loadModel(tern, conditions);
    // Solved anew for every draw by bisection, which shares nothing with the square equation.
    const drawn = propagate(
      (x) => {
        let [low, high] = [0, 60];
        for (let i = 0; i < 26; i++) {
          const middle = (low + high) / 2;
          if (model([middle, x[0]!, x[1]!, x[2]!, x[3]!, x[4]!]) < x[5]!) low = middle;
          else high = middle;
        }
        return low;
      },
      [...otherInputs(tern, conditions), { name: "load", ...load }],
      { rng: rng(18) },
    );
    // The load is drawn normal, as above the wind.
    expect(Math.abs(drawn.symmetric.low - worth.wind.low)).toBeLessThan(0.2 * worth.wind.u);
    expect(Math.abs(drawn.symmetric.high - worth.wind.high)).toBeLessThan(0.2 * worth.wind.u);
    expect(Math.abs(drawn.u / worth.wind.u - 1)).toBeLessThan(0.05);
  });

  it("load by measured points: u within 5 %, the band in logarithms within a tenth of u's double", () => {
    const law = calibrate(tern)[0]!.mean;
    const first = predictLoad(law, wind);
    const x = Math.log(wind.value / law.wind);
    const drawn = propagate(
      (draw) => law.load * Math.exp(draw[0]!) * (draw[2]! / law.wind) ** draw[1]!,
      [
        { name: "level", value: 0, u: Math.sqrt(law.variance.level) },
        { name: "exponent", value: law.exponent.value, u: law.exponent.u },
        { name: "wind", ...wind },
      ],
      { rng: rng(19) },
    );
    // The draws above leave out the covariance of level and exponent: at the middle of the points it is next to nothing.
    expect(Math.abs(2 * law.variance.both * x)).toBeLessThan(0.02 * law.variance.level);
    expect(Math.abs(drawn.u / first.u - 1)).toBeLessThan(0.05);
    expect(Math.abs(drawn.symmetric.low - first.low)).toBeLessThan(0.2 * first.u);
    expect(Math.abs(drawn.symmetric.high - first.high)).toBeLessThan(0.2 * first.u);
  });
});
