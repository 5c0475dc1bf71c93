/**
 * What is concluded from draws that are known: few of them, set by hand, so that every answer can be worked out beside it
 * from the model's own definition, ln H = m + α + β_θ (θ − 5°) + β_M ln(M/M₀) + γ + s z + σ w.
 */
import { describe, expect, it } from "vitest";
import { anchorsInWind } from "../../src/holding/anchors-in-wind.ts";
import { angleCurves, anglesPulledAt } from "../../src/holding/angle-curve.ts";
import { comparedFields } from "../../src/holding/compared-json.ts";
import { conclude } from "../../src/holding/conclude.ts";
import { compare, gather, type Inquired, type Pull, USUAL_PRIORS } from "../../src/holding/index.ts";
import type { ModelInput } from "../../src/holding/model.ts";
import type { Chain } from "../../src/statistics/index.ts";
import { rng } from "../../src/statistics/index.ts";

const DEGREE = Math.PI / 180;

/** Two anchors, two seabeds, two sites; angles of 3° to 10°. */
const pulls: readonly Pull[] = [
  {
    anchor: "A",
    mass: 10,
    flukeArea: 0.05,
    seabed: "mud",
    site: "x",
    anchorAngle: 3 * DEGREE,
    hold: { kind: "gaveWay", newtons: 3000 },
  },
  {
    anchor: "A",
    mass: 10,
    flukeArea: 0.2,
    seabed: "sand",
    site: "y",
    anchorAngle: 10 * DEGREE,
    hold: { kind: "heldTo", newtons: 2500 },
  },
  {
    anchor: "B",
    mass: 40,
    seabed: "sand",
    site: "x",
    anchorAngle: 6 * DEGREE,
    hold: { kind: "between", heldTo: 4000, gaveWayBy: 5000 },
    loadError: 0,
  },
  {
    anchor: "B",
    mass: 40,
    seabed: "sand",
    site: "y",
    anchorAngle: 7 * DEGREE,
    hold: { kind: "neverHeld", newtons: 900 },
    loadError: 0.1,
  },
];
const input: ModelInput = {
  pulls,
  law: "lognormal",
  terms: ["anchor", "angle", "mass", "seabed"],
  random: ["site"],
  priors: USUAL_PRIORS,
};
/** M₀, the geometric mean of the masses: 20 kg. */
const LN_M0 = Math.log(20);

interface Drawn {
  readonly m: number;
  readonly angle: number;
  readonly mass: number;
  readonly scatter: number;
  /** Effects on ln H. */
  readonly A: number;
  readonly B: number;
  readonly mud: number;
  readonly sand: number;
  readonly siteSpread: number;
}
const drawn: readonly Drawn[] = Array.from({ length: 40 }, (_, s) => ({
  m: 8 + 0.01 * s,
  angle: -0.03 - 0.001 * (s % 7),
  mass: 0.9 + 0.01 * (s % 5),
  scatter: 0.2 + 0.002 * s,
  // A is ahead of B in 30 of 40 draws.
  A: s < 30 ? 0.2 : -0.3,
  B: 0.05,
  mud: -0.1,
  sand: 0.15 + 0.001 * s,
  siteSpread: 0.1 + 0.001 * s,
}));
const SEABED_SCALE = USUAL_PRIORS.seabed;

const posterior = (() => {
  const { model } = gather(input, []);
  const draws = new Float64Array(drawn.length * model.parameters);
  drawn.forEach((d, s) => {
    const put = (name: string, value: number): void => {
      const k = model.names.indexOf(name);
      if (k < 0) throw new Error(`${name} is none of ${model.names.join(", ")}`);
      draws[s * model.parameters + k] = value;
    };
    put("m", d.m);
    put("angle", d.angle);
    put("mass", d.mass);
    put("lnScatter", Math.log(d.scatter));
    put("ln spread of anchor", Math.log(0.5));
    // So few pulls: effects are drawn in units of their spread.
    put("anchor:A", d.A / 0.5);
    put("anchor:B", d.B / 0.5);
    put("seabed:mud", d.mud / SEABED_SCALE);
    put("seabed:sand", d.sand / SEABED_SCALE);
    put("ln spread of site", Math.log(d.siteSpread));
  });
  const chain = { draws, parameters: model.parameters, length: drawn.length, divergent: 2, energyMixing: 0.7 };
  return gather(input, [chain as unknown as Chain]);
})();

/** Quantile of sorted numbers, straight between them. */
function quantile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const at = p * (sorted.length - 1);
  const low = Math.floor(at);
  return sorted[low]! + (at - low) * ((sorted[low + 1] ?? sorted[low]!) - sorted[low]!);
}
const between = (values: readonly number[]) => ({
  middle: expect.closeTo(quantile(values, 0.5), 6),
  low: expect.closeTo(quantile(values, 0.025), 6),
  high: expect.closeTo(quantile(values, 0.975), 6),
});
const centre = (d: Drawn, anchor: "A" | "B", degrees: number, mass: number, bed: "mud" | "sand"): number =>
  d.m + d[anchor] + d.angle * (degrees - 5) + d.mass * (Math.log(mass) - LN_M0) + d[bed];
/** Of the normal law (recalled): below it lie 5 %. */
const Z05 = -1.6448536269514722;

describe("the draws themselves", () => {
  it("are read back under the names of their terms", () => {
    expect(posterior.length).toBe(40);
    const mean = (of: (d: Drawn) => number) => drawn.reduce((sum, d) => sum + of(d), 0) / drawn.length;
    const of = (name: string) => posterior.summaries.find((one) => one.name === name)!;
    expect(of("m").mean).toBeCloseTo(
      mean((d) => d.m),
      12,
    );
    expect(of("angle").mean).toBeCloseTo(
      mean((d) => d.angle),
      12,
    );
    const m = drawn.map((d) => d.m);
    const sd = Math.sqrt(m.reduce((sum, x) => sum + (x - mean((d) => d.m)) ** 2, 0) / 39);
    expect(of("m")).toMatchObject({
      sd: expect.closeTo(sd, 12),
      low: expect.closeTo(quantile(m, 0.025), 12),
      high: expect.closeTo(quantile(m, 0.975), 12),
    });
    expect(posterior.divergent).toBe(2);
    expect(posterior.energyMixingLeast).toBe(0.7);
    // Two runaways of 40 are one in twenty; drifting draws are no chain at rest.
    expect(posterior.soundness.kind).toBe("unsound");
  });

  it("know their pulls: mass, errors of loads, whose angle it is", () => {
    const { model } = posterior;
    expect(model.lnMassMiddle).toBeCloseTo(LN_M0, 12);
    // 0 is no error.
    expect(model.loadsWithError).toBe(1);
    expect(model.angleIs).toBe("asStated");
    const at = posterior.draws.subarray(0, model.parameters);
    expect(model.scatter(at)).toBeCloseTo(0.2, 12);
    expect(model.newSpread(at)).toBeCloseTo(0.1, 12);
  });
});

describe("what is concluded from them", () => {
  const wanted = { conditions: { anchorAngle: 8 * DEGREE, seabed: "mud" }, chances: [0.95, 0.5], load: 3500 };
  const conclusion = conclude(posterior, pulls, wanted);
  const [a, b] = conclusion.holds;

  it("is each anchor's load at a new site, under the conditions, with each chance", () => {
    for (const [name, held, mass] of [
      ["A", a!, 10],
      ["B", b!, 40],
    ] as const) {
      const centres = drawn.map((d) => centre(d, name, 8, mass, "mud"));
      expect(held.anchor).toBe(name);
      expect(held).toMatchObject({ mass: expect.closeTo(mass, 9), seabed: "mud", anchorAngle: 8 * DEGREE });
      expect(held.median).toEqual(between(centres.map(Math.exp)));
      const at95 = drawn.map((d, s) => Math.exp(centres[s]! + Z05 * Math.hypot(d.siteSpread, d.scatter)));
      expect(held.chances[0]).toEqual({ chance: 0.95, ...between(at95) });
      expect(held.chances[1]).toEqual({ chance: 0.5, ...between(centres.map(Math.exp)) });
      expect(held.perKilogram).toEqual(between(centres.map((eta) => Math.exp(eta) / mass)));
      // H ∝ M^β: what mass holds 3500 N with the first chance.
      const sizes = drawn.map((d, s) => mass * (3500 / at95[s]!) ** (1 / d.mass));
      expect(held.sizeFor).toEqual(between(sizes));
    }
  });

  it("by area where an area is stated, its geometric mean", () => {
    const centres = drawn.map((d) => Math.exp(centre(d, "A", 8, 10, "mud")));
    expect(a!.perFlukeArea).toEqual(between(centres.map((load) => load / 0.1)));
    expect(b).not.toHaveProperty("perFlukeArea");
  });

  it("is how often each is ahead, of what both weigh and by shape alone", () => {
    // 40 kg against 10: B is ahead in every draw; at one mass A is, in 30 of 40.
    expect([a!.ranks, b!.ranks]).toEqual([
      [0, 1],
      [1, 0],
    ]);
    const alike = conclude(posterior, pulls, { conditions: { mass: 15 }, chances: [] });
    expect(alike.holds.map(({ ranks }) => ranks)).toEqual([
      [0.75, 0.25],
      [0.25, 0.75],
    ]);
    const [pair] = alike.pairs;
    expect(pair).toMatchObject({ first: "A", second: "B", moreInTheMean: 0.75 });
    expect(pair!.ratio).toEqual(between(drawn.map((d) => Math.exp(d.A - d.B))));
    // One pull of each: the difference of two normals of deviation σ, by Φ as 0.5 (1 + erf(x/√2)), summed numerically.
    const phi = (x: number): number => {
      let sum = 0;
      const n = 4000;
      for (let k = 0; k < n; k++) sum += Math.exp(-0.5 * (((k + 0.5) * x) / n) ** 2) * (x / n);
      return 0.5 + sum / Math.sqrt(2 * Math.PI);
    };
    const one = drawn.reduce((sum, d) => sum + phi((d.A - d.B) / (d.scatter * Math.SQRT2)), 0) / 40;
    expect(pair!.moreInOnePull).toBeCloseTo(one, 6);
    expect(alike.holds[0]!.mass).toBe(15);
  });

  it("takes the middle angle and the seabed most pulls were on where nobody chose", () => {
    const usual = conclude(posterior, pulls, { conditions: {}, chances: [] });
    // 3, 6, 7 and 10 degrees; three of four on sand.
    expect(usual.conditions.anchorAngle).toBeCloseTo(6.5 * DEGREE, 12);
    expect(usual.conditions.seabed).toBe("sand");
    expect(usual.holds[0]!.median).toEqual(between(drawn.map((d) => Math.exp(centre(d, "A", 6.5, 10, "sand")))));
    expect(usual.holds[0]).not.toHaveProperty("sizeFor");
    expect(usual.angle!.mean).toBeCloseTo(drawn.reduce((sum, d) => sum + d.angle, 0) / 40, 12);
    expect(usual.massExponent!.mean).toBeCloseTo(0.92, 12);
    expect(usual).not.toHaveProperty("testers");
  });

  it("of two seabeds as often pulled on takes the first by name", () => {
    const even = pulls.map((pull, i) => ({ ...pull, seabed: i < 2 ? "sand" : "mud" }));
    expect(conclude(posterior, even, { conditions: {}, chances: [] }).conditions.seabed).toBe("mud");
  });

  it("is a curve over the angle, of every anchor", () => {
    const curves = angleCurves(posterior, conclusion, [2 * DEGREE, 12 * DEGREE]);
    expect(curves.map(({ anchor }) => anchor)).toEqual(["A", "B"]);
    for (const [k, degrees] of [2, 12].entries())
      expect(curves[1]!.points[k]).toEqual({
        angle: degrees * DEGREE,
        ...between(drawn.map((d) => Math.exp(centre(d, "B", degrees, 40, "mud")))),
      });
    expect(anglesPulledAt(pulls)).toEqual([3 * DEGREE, 10 * DEGREE]);
    expect(anglesPulledAt([{ anchor: "A", hold: { kind: "heldTo", newtons: 1 } }])).toBeUndefined();
  });

  it("is written for other programs under its units", () => {
    const compared = compare(pulls, { laws: ["lognormal"], permutations: 0 }, rng(1));
    const inquired = {
      kind: "concluded",
      pulls,
      law: "lognormal",
      posterior,
      conclusion: {
        ...conclusion,
        influential: [{ pull: 2, k: 0.4, first: "A", second: "B", with: 0.1, without: 0.3 }],
      },
      laws: [{ law: "lognormal", elpd: -3, se: 1, badK: 0 }],
      sensitivity: [{ times: 2, sound: true, pairs: conclusion.pairs, holds: conclusion.holds }],
      more: [{ first: "A", second: "B", answer: { kind: "enough", each: 8, share: 0.83 } }],
    } as const satisfies Inquired;
    const read = { rows: [2, 4, 5, 9], leftOut: [{ row: 3, why: "why" }] };
    // biome-ignore lint/suspicious/noExplicitAny: a document, as another program gets it
    const json: any = comparedFields(read, compared, inquired, [], [], []);
    expect(json).toMatchObject({ format: "rodebench/compared@1", pulls: 4, leftOut: read.leftOut });
    expect(json.posterior).toMatchObject({
      law: "lognormal",
      draws: 40,
      divergent: 2,
      sound: true,
      loadsWithError: 1,
      angle: "asStated",
    });
    expect(json.posterior.terms.map(({ name }: { name: string }) => name)).toEqual(posterior.model.names);
    expect(json.holds[0]).toMatchObject({
      anchor: "A",
      anchorAngle_deg: expect.closeTo(8, 9),
      mass_kg: expect.closeTo(10, 9),
      seabed: "mud",
      median_N: a!.median.middle,
      low_N: a!.median.low,
      high_N: a!.median.high,
      perMass_N_per_kg: a!.perKilogram,
      perFlukeArea_N_per_m2: a!.perFlukeArea,
      sizeFor_kg: a!.sizeFor,
      ranks: [0, 1],
    });
    expect(json.holds[0].chances[0]).toEqual({
      chance: 0.95,
      load_N: a!.chances[0]!.middle,
      low_N: a!.chances[0]!.low,
      high_N: a!.chances[0]!.high,
    });
    expect(json.pairs).toEqual([conclusion.pairs[0]]);
    expect(json.testers).toBeNull();
    expect(json.priors[0].holds[1]).toEqual({
      anchor: "B",
      median_N: b!.median.middle,
      low_N: b!.median.low,
      high_N: b!.median.high,
    });
    expect(json.morePulls).toEqual([{ first: "A", second: "B", kind: "enough", each: 8, share: 0.83 }]);
    // The third pull of the model stands in row 5 of the table.
    expect(json.influential).toEqual([{ row: 5, k: 0.4, first: "A", second: "B", with: 0.1, without: 0.3 }]);
    const unsound: Inquired = { kind: "unsound", posterior, law: "lognormal" };
    // biome-ignore lint/suspicious/noExplicitAny: the same
    const doubted: any = comparedFields(read, compared, unsound, [], [], []);
    expect(doubted.posterior.sound).toBe(false);
    expect([doubted.holds, doubted.pairs, doubted.laws, doubted.morePulls]).toEqual([[], [], [], []]);
    // biome-ignore lint/suspicious/noExplicitAny: the same
    const none: any = comparedFields(read, compared, undefined, [], [], []);
    expect(none.posterior).toBeNull();
  });

  it("is asked of a boat's winds only where something was concluded", () => {
    expect(anchorsInWind({} as Parameters<typeof anchorsInWind>[0], { kind: "noPulls" }, 1)).toEqual([]);
    expect(anchorsInWind({} as Parameters<typeof anchorsInWind>[0], undefined, 1)).toEqual([]);
  });
});

describe("priors", () => {
  it("are those of the documented model", () => {
    // docs/method-holding.md, the line of the priors.
    expect(USUAL_PRIORS).toEqual({
      timesWeight: 30,
      m: 1.5,
      anchors: 0.7,
      angle: { mean: -0.03, sd: 0.05 },
      mass: { mean: 0.93, sd: 0.2 },
      seabed: 0.7,
      sites: 0.4,
      days: 0.2,
      testers: 0.2,
      scatter: 0.5,
    });
  });
});
