/**
 * The model's density beside the same written out here from its definition in docs/method-holding.md: priors, effects and
 * the likelihood of each pull, one by one. Differences between two places are held, since a density is only known up to
 * a constant.
 */
import { describe, expect, it } from "vitest";
import { Model, type ModelInput, type Pull, USUAL_PRIORS, widened } from "../../src/holding/index.ts";
import { PRIOR_FIELDS, PRIOR_RANGE } from "../../src/holding/priors.ts";
import { anglesFollowLoads, boundsOf, loadError, tally } from "../../src/holding/pull.ts";
import { turnbull } from "../../src/holding/turnbull.ts";
import { normalBelow, type Rng, rng } from "../../src/statistics/index.ts";

const DEGREE = Math.PI / 180;
const G0 = 9.80665;

/** Of each kind of ending one, over and over: two anchors, three seabeds, two sites, two days, two testers. */
function pullsOf(n: number): Pull[] {
  return Array.from({ length: n }, (_, i): Pull => {
    const load = 1500 + 137 * i;
    return {
      anchor: i % 2 === 0 ? "A" : "B",
      mass: i % 2 === 0 ? 10 : 25,
      anchorAngle: (2 + (i % 7)) * DEGREE,
      seabed: ["clay", "mud", "sand"][i % 3]!,
      site: i % 4 < 2 ? "x" : "y",
      day: i % 8 < 4 ? "1" : "2",
      tester: i % 5 < 2 ? "p" : "q",
      hold:
        i % 8 === 1
          ? { kind: "heldTo", newtons: load }
          : i % 8 === 3
            ? { kind: "neverHeld", newtons: load }
            : i % 8 === 5
              ? { kind: "between", heldTo: load, gaveWayBy: 1.3 * load }
              : { kind: "gaveWay", newtons: load },
    };
  });
}
const inputOf = (pulls: readonly Pull[]): ModelInput => ({
  pulls,
  law: "lognormal",
  terms: ["anchor", "angle", "mass", "seabed"],
  random: ["site", "day", "tester"],
  priors: USUAL_PRIORS,
});
const P = USUAL_PRIORS;
/** Grouped terms: how a pull names its level, the scale of the prior, whether the spread is asked for. */
const GROUPS = {
  anchor: { of: (pull: Pull) => pull.anchor, scale: P.anchors },
  seabed: { of: (pull: Pull) => pull.seabed!, scale: P.seabed },
  site: { of: (pull: Pull) => pull.site!, scale: P.sites },
  day: { of: (pull: Pull) => pull.day!, scale: P.days },
  tester: { of: (pull: Pull) => pull.tester!, scale: P.testers },
} as const;
const hasSpread = (label: string): boolean => label !== "seabed";

/** ln of the density up to a constant; `centred` names the groups whose parameters are the effects themselves. */
function density(pulls: readonly Pull[], centred: readonly string[], of: (name: string) => number): number {
  const lnM0 = pulls.reduce((sum, { mass }) => sum + Math.log(mass!), 0) / pulls.length;
  const normal = (x: number, mean: number, sd: number): number => -0.5 * ((x - mean) / sd) ** 2;
  // A half-normal of the spread, asked as a density of its logarithm: the spread itself comes in as a factor.
  const half = (ln: number, scale: number): number => ln - 0.5 * (Math.exp(ln) / scale) ** 2;
  let value =
    normal(of("m"), Math.log(P.timesWeight * G0) + lnM0, P.m) +
    normal(of("angle"), P.angle.mean, P.angle.sd) +
    normal(of("mass"), P.mass.mean, P.mass.sd) +
    half(of("lnScatter"), P.scatter);
  const effects = new Map<string, number>();
  for (const [label, { of: level, scale }] of Object.entries(GROUPS)) {
    const spread = hasSpread(label) ? Math.exp(of(`ln spread of ${label}`)) : scale;
    if (hasSpread(label)) value += half(of(`ln spread of ${label}`), scale);
    for (const name of new Set(pulls.map(level))) {
      const x = of(`${label}:${name}`);
      const own = centred.includes(label);
      effects.set(`${label}:${name}`, own ? x : spread * x);
      value += own ? normal(x, 0, spread) - Math.log(spread) : normal(x, 0, 1);
    }
  }
  const sigma = Math.exp(of("lnScatter"));
  for (const pull of pulls) {
    let eta = of("m") + of("angle") * (pull.anchorAngle! / DEGREE - 5) + of("mass") * (Math.log(pull.mass!) - lnM0);
    for (const [label, { of: level }] of Object.entries(GROUPS)) eta += effects.get(`${label}:${level(pull)}`)!;
    const { low, high } = boundsOf(pull.hold);
    const below = (load: number): number => normalBelow((Math.log(load) - eta) / sigma);
    if (low === high) value += normal(Math.log(low), eta, sigma) - Math.log(sigma);
    else value += Math.log((high === Number.POSITIVE_INFINITY ? 1 : below(high)) - (low === 0 ? 0 : below(low)));
  }
  return value;
}

/** A place near where loads of this size are made, and the value of each name there. */
function placeOf(model: Model, own: Rng): Float64Array {
  return Float64Array.from(model.names, (name) =>
    name === "m"
      ? 7.6 + 0.2 * own.normal()
      : name === "angle"
        ? -0.02 + 0.02 * own.normal()
        : name === "mass"
          ? 0.9 + 0.1 * own.normal()
          : name === "lnScatter"
            ? -0.6 + 0.2 * own.normal()
            : name.startsWith("ln spread")
              ? -1 + 0.3 * own.normal()
              : 0.3 * own.normal(),
  );
}

describe("the density of the model", () => {
  it.each([
    // 20 pulls, 15 of them with a load or two bounds: fewer than twelve a level of any group of two.
    ["few pulls, effects in units of their spreads", 20, []],
    // 32, of which 24 have: twelve a level of each group of two; the seabeds' spread is given.
    ["many pulls, effects themselves", 32, ["anchor", "site", "day", "tester"]],
  ] as const)("is priors times likelihood: %s", (_, n, centred) => {
    const pulls = pullsOf(n);
    const model = new Model(inputOf(pulls));
    const own = rng(5);
    const gradient = new Float64Array(model.parameters);
    const at = (place: Float64Array) => (name: string) => {
      const k = model.names.indexOf(name);
      if (k < 0) throw new Error(`${name} is none of ${model.names.join(", ")}`);
      return place[k]!;
    };
    const first = placeOf(model, own);
    const [theirs, ours] = [model.logDensity(first, gradient), density(pulls, centred, at(first))];
    for (let turn = 0; turn < 6; turn++) {
      const other = placeOf(model, own);
      expect(model.logDensity(other, gradient) - theirs).toBeCloseTo(density(pulls, centred, at(other)) - ours, 8);
    }
    // Each parameter alone, too, so that none makes up for another.
    for (let k = 0; k < model.parameters; k++) {
      const other = first.slice();
      other[k] = other[k]! + 0.07;
      expect(model.logDensity(other, gradient) - theirs, model.names[k]).toBeCloseTo(
        density(pulls, centred, at(other)) - ours,
        9,
      );
    }
    expect(model.parameters).toBe(4 + (1 + 2) + 3 + 3 * (1 + 2));
  });

  it("counts only loads and pairs of bounds as telling where a level's effect lies: one fewer is too few", () => {
    const pulls = pullsOf(32);
    const isCentred = (list: readonly Pull[]) => new Model(inputOf(list)).sites!.centred;
    expect(isCentred(pulls)).toBe(true);
    const lacking = pulls.map(
      (pull, i): Pull => (i === 5 ? { ...pull, hold: { kind: "heldTo", newtons: 2000 } } : pull),
    );
    expect(isCentred(lacking)).toBe(false);
  });

  it("leans on the loads' own middle where no pull states a mass", () => {
    const pulls = [1000, 4000].map((newtons): Pull => ({ anchor: "A", hold: { kind: "gaveWay", newtons } }));
    pulls.push({ anchor: "A", hold: { kind: "neverHeld", newtons: 2000 } });
    const model = new Model({ ...inputOf(pulls), terms: [], random: ["site"] });
    expect(model.names).toEqual(["m", "lnScatter"]);
    expect(model.lnMassMiddle).toBe(0);
    const own = { normal: () => 0, uniform: () => 0.5 } as unknown as Rng;
    // ln 1000, ln 4000, ln 2000: their mean is ln 2000.
    expect(model.drawPrior({ ...own, normal: () => 2 } as unknown as Rng)[0]).toBeCloseTo(Math.log(2000) + 2 * P.m, 12);
    expect(model.start(own)[0]).toBeCloseTo(Math.log(2000), 12);
  });
});

describe("what is drawn of the model", () => {
  const pulls = pullsOf(20);
  const model = new Model(inputOf(pulls));
  const steady = (normal: number, uniform = 0.5): Rng =>
    ({ normal: () => normal, uniform: () => uniform }) as unknown as Rng;
  const named = (at: Float64Array, name: string): number => at[model.names.indexOf(name)]!;

  it("from the priors: each mean and so many of its deviations, spreads on the one side", () => {
    const at = model.drawPrior(steady(-1.5));
    expect(named(at, "m")).toBeCloseTo(Math.log(30 * G0) + model.lnMassMiddle - 1.5 * 1.5, 12);
    expect(named(at, "angle")).toBeCloseTo(-0.03 - 1.5 * 0.05, 12);
    expect(named(at, "mass")).toBeCloseTo(0.93 - 1.5 * 0.2, 12);
    expect(named(at, "lnScatter")).toBeCloseTo(Math.log(1.5 * 0.5), 12);
    expect(named(at, "ln spread of anchor")).toBeCloseTo(Math.log(1.5 * 0.7), 12);
    expect(named(at, "ln spread of site")).toBeCloseTo(Math.log(1.5 * 0.4), 12);
    expect(named(at, "ln spread of day")).toBeCloseTo(Math.log(1.5 * 0.2), 12);
    expect(named(at, "site:y")).toBe(-1.5);
    expect(named(at, "seabed:mud")).toBe(-1.5);
    const many = new Model(inputOf(pullsOf(32)));
    const own = many.drawPrior(steady(-1.5));
    // Sampled itself, the effect is so many of the spread just drawn.
    expect(own[many.names.indexOf("site:x")]).toBeCloseTo(-1.5 * 1.5 * 0.4, 12);
  });

  it("where a chain begins: at the loads, within the priors, another place each time", () => {
    const own = rng(3);
    const [one, other] = [model.start(own), model.start(own)];
    const middle =
      pulls.reduce((sum, { hold }) => {
        const { low, high } = boundsOf(hold);
        return sum + Math.log(low === 0 ? high : low);
      }, 0) / pulls.length;
    for (const at of [one, other]) {
      expect(Math.abs(named(at, "m") - middle)).toBeLessThan(0.6);
      expect(Math.abs(named(at, "angle") - P.angle.mean)).toBeLessThan(P.angle.sd);
      expect(Math.abs(named(at, "mass") - P.mass.mean)).toBeLessThan(P.mass.sd);
      expect(Math.abs(named(at, "lnScatter") - Math.log(P.scatter))).toBeLessThan(1);
      expect(Math.abs(named(at, "ln spread of day") - Math.log(P.days))).toBeLessThan(1.5);
      expect(Number.isFinite(model.logDensity(at, new Float64Array(model.parameters)))).toBe(true);
    }
    expect(one.every((x, k) => x !== other[k])).toBe(true);
  });

  it("loads of a pull: its centre and one scatter above at the share below which 84.1 % lie", () => {
    const at = placeOf(model, rng(9));
    const centre = model.centre(at, 3);
    const sigma = model.scatter(at);
    // By hand: pull 3 is B on clay, 5°, site y, day 1, tester q, 25 kg.
    const of = (name: string): number => named(at, name);
    const effect = (group: string, level: string): number =>
      Math.exp(of(`ln spread of ${group}`)) * of(`${group}:${level}`);
    expect(centre).toBeCloseTo(
      of("m") +
        of("mass") * (Math.log(25) - Math.log(Math.sqrt(250))) +
        effect("anchor", "B") +
        0.7 * of("seabed:clay") +
        effect("site", "y") +
        effect("day", "1") +
        effect("tester", "q"),
      10,
    );
    // Uniform numbers are taken from the top: 1 − 0.158655 (Φ(1) = 0.841345, recalled).
    expect(Math.log(model.simulate(at, 3, steady(0, 0.158655)))).toBeCloseTo(centre + sigma, 5);
    expect(Math.log(model.simulate(at, 3, steady(0, 0.5)))).toBeCloseTo(centre, 9);
    expect(model.newSpread(at)).toBeCloseTo(
      Math.sqrt(["site", "day", "tester"].reduce((sum, group) => sum + Math.exp(2 * of(`ln spread of ${group}`)), 0)),
      12,
    );
    const weibull = new Model({ ...inputOf(pulls), law: "weibull" });
    // ln(−ln e^−2) = ln 2.
    expect(Math.log(weibull.simulate(at, 3, steady(0, 1 - Math.exp(-2))))).toBeCloseTo(centre + sigma * Math.log(2), 9);
  });
});

describe("priors", () => {
  it("widened have every deviation as many times as large, and what is believed itself unmoved", () => {
    const wide = widened(USUAL_PRIORS, 3);
    expect(wide).toEqual({
      timesWeight: 30,
      m: expect.closeTo(4.5, 12),
      anchors: expect.closeTo(2.1, 12),
      angle: { mean: -0.03, sd: expect.closeTo(0.15, 12) },
      mass: { mean: 0.93, sd: expect.closeTo(0.6, 12) },
      seabed: expect.closeTo(2.1, 12),
      sites: expect.closeTo(1.2, 12),
      days: expect.closeTo(0.6, 12),
      testers: expect.closeTo(0.6, 12),
      scatter: expect.closeTo(1.5, 12),
    });
  });

  it("are each read and put by their names, the others left alone", () => {
    const of = (name: string) => PRIOR_FIELDS.find((field) => field.name === name)!;
    expect(PRIOR_FIELDS.map(({ name }) => name)).toEqual([
      "timesWeight",
      "m",
      "anchors",
      "angleMean",
      "angle",
      "massMean",
      "mass",
      "seabed",
      "sites",
      "days",
      "testers",
      "scatter",
    ]);
    expect(PRIOR_FIELDS.map((field) => field.of(USUAL_PRIORS))).toEqual([
      30, 1.5, 0.7, -0.03, 0.05, 0.93, 0.2, 0.7, 0.4, 0.2, 0.2, 0.5,
    ]);
    for (const field of PRIOR_FIELDS) {
      const put = field.put(USUAL_PRIORS, 0.123);
      for (const other of PRIOR_FIELDS)
        expect(other.of(put), `${field.name}, ${other.name}`).toBe(other === field ? 0.123 : other.of(USUAL_PRIORS));
    }
    expect(PRIOR_FIELDS.filter(({ isMiddle }) => isMiddle).map(({ name }) => name)).toEqual(["angleMean", "massMean"]);
    expect(of("mass").put(USUAL_PRIORS, 9).mass).toEqual({ mean: 0.93, sd: 9 });
    expect(PRIOR_RANGE.least).toBeLessThan(PRIOR_RANGE.most);
  });
});

describe("what one pull tells", () => {
  it("are bounds, a share of error of the load it gave way by, and a count by kind", () => {
    const holds = [
      { kind: "gaveWay", newtons: 800 },
      { kind: "heldTo", newtons: 500 },
      { kind: "neverHeld", newtons: 400 },
      { kind: "between", heldTo: 600, gaveWayBy: 1000 },
      { kind: "heldTo", newtons: 700 },
    ] as const;
    expect(holds.map(boundsOf)).toEqual([
      { low: 800, high: 800 },
      { low: 500, high: Number.POSITIVE_INFINITY },
      { low: 0, high: 400 },
      { low: 600, high: 1000 },
      { low: 700, high: Number.POSITIVE_INFINITY },
    ]);
    expect(holds.map((hold) => loadError(40, hold))).toEqual([0.05, 0.08, 0.1, 0.04, 40 / 700]);
    expect(loadError(900, holds[1])).toBe(1);
    expect(tally(holds)).toEqual({ pulls: 5, gaveWay: 1, heldOn: 2, between: 1, neverHeld: 1 });
    const pull: Pull = { anchor: "A", hold: holds[0], anchorAngle: 0.1 };
    expect(anglesFollowLoads([pull, { ...pull, angleRise: 0 }])).toBe(false);
    expect(anglesFollowLoads([pull, { ...pull, angleRise: 0.1 }])).toBe(true);
  });
});

describe("the curve of loads known between bounds, by hand", () => {
  it("has mass where bounds overlap most, in whatever order the pulls come", () => {
    const holds = [
      { kind: "between", heldTo: 200, gaveWayBy: 400 },
      { kind: "neverHeld", newtons: 100 },
      { kind: "between", heldTo: 100, gaveWayBy: 300 },
    ] as const;
    for (const order of [
      [0, 1, 2],
      [2, 0, 1],
      [1, 2, 0],
    ]) {
      const { intervals, logLikelihood, steps } = turnbull(order.map((i) => holds[i]!));
      // (0, 100] alone, and (200, 300] that the other two share: a third and two thirds.
      expect(intervals).toEqual([
        { from: 0, to: 100, mass: expect.closeTo(1 / 3, 8) },
        { from: 200, to: 300, mass: expect.closeTo(2 / 3, 8) },
      ]);
      expect(logLikelihood).toBeCloseTo(Math.log(1 / 3) + 2 * Math.log(2 / 3), 8);
      expect(steps.map(({ load, from, atRisk, gaveWay }) => [load, from, atRisk, gaveWay])).toEqual([
        [100, 0, 3, expect.closeTo(1, 8)],
        [300, 200, expect.closeTo(2, 8), expect.closeTo(2, 8)],
      ]);
      expect(steps[0]!.chance).toBeCloseTo(2 / 3, 8);
    }
  });

  it("puts an exact load in the interval that ends with it, not in one that begins there", () => {
    const { intervals } = turnbull([
      { kind: "heldTo", newtons: 300 },
      { kind: "gaveWay", newtons: 300 },
      { kind: "between", heldTo: 100, gaveWayBy: 300 },
    ]);
    // Exactly 300 belongs to (100, 300] and to the exact pull; what held 300 lies above.
    expect(intervals).toEqual([
      { from: 300, to: 300, mass: expect.closeTo(2 / 3, 8) },
      { from: 300, to: Number.POSITIVE_INFINITY, mass: expect.closeTo(1 / 3, 8) },
    ]);
  });
});
