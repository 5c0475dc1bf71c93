import { describe, expect, it } from "vitest";
import { type Hold, type Law, Model, type Pull, USUAL_PRIORS } from "../../src/holding/index.ts";
import { normalBelow, rng } from "../../src/statistics/index.ts";

const stream = rng(3);

/** Forty pulls of every kind; `read`: with errors and angles of their own loads. */
function pullsOf(read: boolean): Pull[] {
  return Array.from({ length: 40 }, (_, i): Pull => {
    const load = 2000 * Math.exp(0.5 * stream.normal());
    const kind = i % 4;
    const hold =
      kind === 3
        ? ({ kind: "between", heldTo: load, gaveWayBy: 1.4 * load } as const)
        : ({ kind: (["gaveWay", "heldTo", "neverHeld"] as const)[kind]!, newtons: load } as const);
    return {
      anchor: `A${i % 3}`,
      site: `S${i % 4}`,
      mass: 12 + (i % 5),
      anchorAngle: 0.1 * stream.uniform(),
      hold,
      ...(read ? { angleRise: 0.05 * stream.uniform(), loadError: 0.2 * stream.uniform() } : {}),
      ...(read && kind === 3 ? { angleHeld: 0.01 } : {}),
    };
  });
}

function scaled(hold: Hold, by: number): Hold {
  return hold.kind === "between"
    ? { kind: "between", heldTo: by * hold.heldTo, gaveWayBy: by * hold.gaveWayBy }
    : { kind: hold.kind, newtons: by * hold.newtons };
}

const modelOf = (pulls: readonly Pull[], law: Law): Model =>
  new Model({ pulls, law, terms: ["anchor", "angle", "mass"], random: ["site"], priors: USUAL_PRIORS });

describe("the model's likelihood", () => {
  for (const law of ["lognormal", "weibull"] as const) {
    for (const read of [false, true]) {
      it(`has the gradient of its value, and the value of its pulls one by one (${law}${read ? ", errors and angles of the loads" : ""})`, () => {
        const pulls = pullsOf(read);
        const model = modelOf(pulls, law);
        const at = model.start(stream);
        const gradient = new Float64Array(model.parameters);
        const other = new Float64Array(model.parameters);
        model.logDensity(at, gradient);
        for (let k = 0; k < model.parameters; k++) {
          const moved = (by: number): number =>
            model.logDensity(
              at.map((x, j) => (j === k ? x + by : x)),
              other,
            );
          // Central differences of 1e-5: rounding and the third derivative leave some 1e-8 of the largest slopes.
          const slope = (moved(1e-5) - moved(-1e-5)) / 2e-5;
          expect(Math.abs(slope - gradient[k]!)).toBeLessThan(1e-6 * Math.max(1, Math.abs(gradient[k]!)));
        }
        // The prior is the same whatever the loads: what differs between two sets of loads is the likelihood's.
        const heavier = pulls.map((pull): Pull => ({ ...pull, hold: scaled(pull.hold, 1.1) }));
        const own = (of: readonly Pull[]): number => {
          const each = new Float64Array(of.length);
          modelOf(of, law).logLikelihoods(at, each, 0);
          // Of the load, not of its logarithm: an exact one brings 1 / T.
          return of.reduce(
            (sum, { hold }, i) => sum + each[i]! + (hold.kind === "gaveWay" ? Math.log(hold.newtons) : 0),
            0,
          );
        };
        const difference = modelOf(heavier, law).logDensity(at, other) - model.logDensity(at, other);
        expect(difference).toBeCloseTo(own(heavier) - own(pulls), 9);
      });
    }
  }

  it("of an exact lognormal load read with an error is the convolution of both, found here by summing over the error", () => {
    for (const law of ["lognormal", "weibull"] as const) {
      for (const kind of ["gaveWay", "heldTo"] as const) {
        const pull: Pull = { anchor: "A", hold: { kind, newtons: 3000 }, loadError: 0.12 };
        const model = new Model({ pulls: [pull], law, terms: [], random: [], priors: USUAL_PRIORS });
        const at = Float64Array.from([7.8, Math.log(0.35)]);
        const out = new Float64Array(1);
        model.logLikelihoods(at, out, 0);
        // Trapezoid over nine deviations: of a smooth integrand that vanishes at both ends, to rounding.
        let sum = 0;
        const step = 0.01;
        for (let z = -9; z <= 9; z += step) {
          const w = (Math.log(3000) + 0.12 * z - 7.8) / 0.35;
          const above = law === "lognormal" ? 1 - normalBelow(w) : Math.exp(-Math.exp(w));
          const density =
            law === "lognormal" ? Math.exp(-0.5 * w * w) / Math.sqrt(2 * Math.PI) : Math.exp(w - Math.exp(w));
          const weight = (step * Math.exp(-0.5 * z * z)) / Math.sqrt(2 * Math.PI);
          sum += weight * (kind === "gaveWay" ? density / (0.35 * 3000) : above);
        }
        // Weibull by seven nodes: 1e-6 while the error is below half the scatter.
        expect(Math.abs(out[0]! - Math.log(sum))).toBeLessThan(law === "lognormal" ? 1e-9 : 1e-6);
      }
    }
  });

  it("has no likelihood where a load would not meet its threshold once", () => {
    const pull: Pull = { anchor: "A", anchorAngle: 0.1, angleRise: 0.2, hold: { kind: "gaveWay", newtons: 3000 } };
    const model = new Model({
      pulls: [pull, { ...pull, anchorAngle: 0.2 }],
      law: "lognormal",
      terms: ["angle"],
      random: [],
      priors: USUAL_PRIORS,
    });
    const gradient = new Float64Array(model.parameters);
    const at = Float64Array.from([8, 0.2, -1]);
    // 0.2 a degree by 11.5 degrees a unit of ln load: holding would rise faster than the load.
    expect(model.logDensity(at, gradient)).toBe(Number.NEGATIVE_INFINITY);
    at[1] = -0.2;
    expect(Number.isFinite(model.logDensity(at, gradient))).toBe(true);
  });
});
