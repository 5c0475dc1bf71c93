/**
 * What carry has to give where a closed form says so. The catenary itself is textbook matter (Irvine, Cable Structures,
 * 1981, ch. 1); the sensitivities are derived here by hand from it.
 */
import { describe, expect, it } from "vitest";
import { carry } from "../../src/pull/index.ts";
import { isUneven, type Rig } from "../../src/rode/index.ts";
import { loads } from "../pull/run/demo.ts";

const LENGTH = 30;
const RISE = 9;
const WEIGHT = 2.3 * 9.80665;
const STEEL = 7850;
const SEA = 1025;

const read = [1500, 2000, 3000, 5000];
const afloat = (more: Partial<Rig> = {}): Rig => ({
  ...loads({ loads: [1], setting: "{ medium: water, depth: 9 m, rollerHeight: 0 m }" }).rig,
  ...more,
});

/** Shape of a lifted catenary whose anchor end stands at tan t: H/w, solved from its rise by bisection. */
function parameter(t: number, length = LENGTH, rise = RISE): number {
  const over = (a: number) => a * (Math.sqrt(1 + (t + length / a) ** 2) - Math.sqrt(1 + t * t)) - rise;
  let [low, high] = [1e-3, 1e7];
  for (let i = 0; i < 200; i++) {
    const middle = Math.sqrt(low * high);
    if (over(middle) > 0) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}

describe("carry: one rigid rode, in air and wholly under water, one geometry", () => {
  it("scales every load by the buoyancy factor 1 − ρ/ρ at the same anchor angle", () => {
    const { run, rig } = loads({ loads: read });
    const factor = 1 - SEA / STEEL;
    for (const row of carry(run, rig, afloat()).rows) {
      expect(row.says).toBe("equal");
      // Both sides are solved to 1e-13; the angle goes between them through an arctangent.
      expect(Math.abs(row.bow / (factor * row.read) - 1)).toBeLessThan(1e-10);
      const tension = row.anchor / factor;
      expect(Math.abs(row.read - tension - WEIGHT * RISE)).toBeLessThan(1e-8 * row.read);
    }
  });

  it("steel loses 13 % of its weight in sea water (common practice, no source)", () => {
    // Half of the last digit said.
    expect(Math.abs(SEA / STEEL - 0.13)).toBeLessThan(0.005);
  });

  it("agrees with the closed form of the catenary for every angle and load", () => {
    const { run, rig } = loads({ loads: read });
    for (const row of carry(run, rig, afloat()).rows) {
      const t = Math.tan(row.anchorAngle);
      const a = parameter(t);
      const bow = WEIGHT * a * Math.sqrt(1 + (t + LENGTH / a) ** 2);
      expect(Math.abs(bow / row.read - 1)).toBeLessThan(1e-9);
    }
  });
});

describe("carry: there and back", () => {
  it("returns the reading, from either end, with stretch and a part above the water", () => {
    const line = "{ name: chain, length: 32 m, massPerLength: 2.3 kg/m, density: 7850 kg/m3, stiffness: 5 MN }";
    const water: Rig = loads({ loads: [1], line, setting: "{ medium: water, depth: 7 m, rollerHeight: 1.4 m }" }).rig;
    for (const at of ["anchor", "bow"] as const) {
      const there = loads({ at, loads: read });
      const carried = carry(there.run, there.rig, water).rows;
      expect(carried.length).toBe(read.length);
      const back = carry(
        { ...there.run, readings: carried.map((row) => ({ load: row[at], liftoff: false })) },
        water,
        there.rig,
      ).rows;
      back.forEach((row, i) => {
        // The angle between the two is flat in the load near straight: a relative 1e-13 of it is 1e-11 of the load.
        expect(Math.abs(row[at] / read[i]! - 1)).toBeLessThan(1e-9);
      });
    }
  });
});

describe("carry: the budget against sensitivities by hand", () => {
  // Two loads: each row brings its Monte Carlo run.
  const few = [1500, 3000];
  const uLoad = 20;
  const uMass = 0.03;
  const uRise = 0.1;
  const factor = 1 - SEA / STEEL;

  it("load alone: u is that of the reading times the buoyancy factor", () => {
    const { run, rig } = loads({ loads: few, u: `{ load: ${uLoad} N }` });
    // Central differences at u: the relation is straight, so only rounding is left.
    for (const row of carry(run, rig, afloat()).rows)
      expect(Math.abs(row.u!.bow / (factor * uLoad) - 1)).toBeLessThan(1e-6);
  });

  it("two different lines: their masses count apart, P = f · read · m_there / m_here", () => {
    const { run, rig } = loads({
      loads: read,
      u: `{ load: ${uLoad} N }`,
      rigUncertainty: `{ massPerLength: ${uMass} }`,
    });
    const to = afloat({ uncertainty: { massPerLength: uMass } });
    const other: Rig = { ...to, rode: to.rode.map((part) => ({ ...part, name: "another chain" })) };
    for (const row of carry(run, rig, other).rows) {
      const byHand = Math.hypot(factor * uLoad, row.bow * uMass, row.bow * uMass);
      // The mass here stands in the denominator: its curvature over 3 % enters the difference at 1e-3 at most.
      expect(Math.abs(row.u!.bow / byHand - 1)).toBeLessThan(2e-3);
    }
  });

  it("one line in both: what is not known of its mass cancels", () => {
    const { run, rig } = loads({
      loads: read,
      u: `{ load: ${uLoad} N }`,
      rigUncertainty: `{ massPerLength: ${uMass} }`,
    });
    const to = afloat({ uncertainty: { massPerLength: uMass } });
    // Either alone is 3 % of the load, twice the reading's 1.3 %: their difference has to vanish to a few 1e-3 of them.
    for (const row of carry(run, rig, to).rows) expect(Math.abs(row.u!.bow / (factor * uLoad) - 1)).toBeLessThan(5e-3);
  });

  it("rise of the rig carried to: by implicit differentiation of the catenary at constant angle", () => {
    const { run, rig } = loads({ loads: few });
    const to = afloat({ uncertainty: { rise: uRise } });
    for (const row of carry(run, rig, to).rows) {
      const t = Math.tan(row.anchorAngle);
      const a = parameter(t);
      const [p, q] = [Math.sqrt(1 + (t + LENGTH / a) ** 2), Math.sqrt(1 + t * t)];
      // z = a (p − q): dz/da = p − q − (t + L/a)(L/a)/p; the bow's load w f a p; da/dz = 1/(dz/da) at constant t.
      const dz = p - q - ((t + LENGTH / a) * (LENGTH / a)) / p;
      const dBow = p - ((t + LENGTH / a) * (LENGTH / a)) / p;
      const byHand = Math.abs((WEIGHT * factor * dBow) / dz) * uRise;
      const source = row.sources.find(({ name }) => name === "rise, carried to")!;
      // Differences over a sixty-fourth of 0.1 m, of a curve that bends by a few parts in a hundred over the whole of it.
      expect(Math.abs(Math.abs(source.bow) / byHand - 1)).toBeLessThan(1e-4);
      // The run states no uncertainty of its loads: 1 % of each is taken, as in reduce.
      const read = row.sources.find(({ name }) => name === "load read")!;
      expect(Math.abs(read.bow / (0.01 * factor * row.read) - 1)).toBeLessThan(1e-6);
      expect(Math.abs(row.u!.bow / Math.hypot(source.bow, read.bow) - 1)).toBeLessThan(1e-9);
    }
  });

  it("shares add up to one, and combine to u", () => {
    const { run, rig } = loads({
      loads: read,
      u: `{ load: ${uLoad} N }`,
      rigUncertainty: `{ massPerLength: ${uMass}, rise: ${uRise} m }`,
    });
    const to = afloat({ uncertainty: { massPerLength: uMass, rise: uRise } });
    for (const row of carry(run, rig, to).rows) {
      const sum = row.sources.reduce((total, source) => total + source.share, 0);
      expect(sum).toBeCloseTo(1, 9);
    }
  });

  it("says so where first order does not hold, and by Monte Carlo where it does", () => {
    const { run, rig } = loads({ loads: [1500, 5000], u: `{ load: ${uLoad} N }`, rigUncertainty: "{ rise: 0.3 m }" });
    const [low, high] = carry(run, rig, afloat({ uncertainty: { rise: 0.3 } })).rows;
    // Near straight the load at an angle runs off: a rise known to 0.3 m of 9 tells it badly, and unevenly.
    const ends = (row: typeof low) => [row!.bow - row!.spread!.bow.low!, row!.spread!.bow.high! - row!.bow] as const;
    const [below, above] = ends(low);
    expect(above / below).toBeLessThan(1.5);
    const [belowHigh, aboveHigh] = ends(high);
    expect(aboveHigh / belowHigh).toBeGreaterThan(1.5);
    expect(isUneven(high!.bow, high!.u!.bow, high!.spread!.bow)).toBe(true);
    expect(high!.u!.bow / high!.bow).toBeGreaterThan(low!.u!.bow / low!.bow);
  });
});

describe("carry: what cannot be carried is said, not made up", () => {
  it("gives the lift-off loads as the most where the stand-in's anchor is not lifted", () => {
    const { run, rig } = loads({ loads: [600] });
    const [row] = carry(run, rig, afloat()).rows;
    expect(row!.says).toBe("atMost");
    expect(row!.anchorAngle).toBe(0);
    // Lift-off of a lifted-to-the-end catenary: H = w (L² − h²) / 2h, bow load H + w h.
    const H = (WEIGHT * (1 - SEA / STEEL) * (LENGTH ** 2 - RISE ** 2)) / (2 * RISE);
    expect(Math.abs(row!.anchor / H - 1)).toBeLessThan(1e-9);
    expect(Math.abs(row!.bow / (H + WEIGHT * (1 - SEA / STEEL) * RISE) - 1)).toBeLessThan(1e-9);
  });

  it("says so when no load of the other rig pulls at that angle", () => {
    const { run, rig } = loads({ loads: [20_000] });
    const long = loads({
      loads: [1],
      line: "{ name: chain, length: 90 m, massPerLength: 2.3 kg/m, density: 7850 kg/m3 }",
    }).rig;
    const outcome = carry(run, rig, long);
    expect(outcome.rows).toEqual([]);
    expect(outcome.notCarried[0]!.cause).toEqual({ kind: "noSuchAngle" });
  });

  it("says so when the stand-in itself has no equilibrium", () => {
    const { run, rig } = loads({ loads: [100] });
    expect(carry(run, rig, afloat()).notCarried[0]!.cause).toMatchObject({
      kind: "noEquilibrium",
      none: { cause: "lighterThanHanging" },
    });
  });
});
