import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Boat,
  CALM_SURROUNDINGS,
  type Conditions,
  currentForce,
  designLoadTables,
  jonswap,
  profiles,
  steadyLoad,
  USUAL_AIR,
  weather,
  windForce,
  windForLoadByWindage,
  windLoadCurve,
  windsForLoad,
} from "../../src/sea/index.ts";
import { kn, plain, tern } from "./demo.ts";

const speed = fc.double({ min: 1, max: 50, noNaN: true });
const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });

describe("wind force", () => {
  it("goes with the square of the speed, at any angle and profile", () => {
    fc.assert(
      fc.property(speed, angle, fc.constantFrom(...Object.values(profiles)), (v, yaw, profile) => {
        const air = { ...USUAL_AIR, profile };
        const [once, twice] = [windForce(tern, v, yaw, air), windForce(tern, 2 * v, yaw, air)];
        expect(Math.abs(twice.resultant - 4 * once.resultant)).toBeLessThan(1e-12 * twice.resultant);
      }),
      { seed: 5 },
    );
  });

  it("is the same to port and starboard, mirrored across", () => {
    fc.assert(
      fc.property(speed, angle, (v, yaw) => {
        const [one, other] = [windForce(tern, v, yaw), windForce(tern, v, -yaw)];
        expect(other.along).toBeCloseTo(one.along, 9);
        expect(other.across).toBeCloseTo(-one.across, 9);
      }),
      { seed: 5 },
    );
  });

  it("adds up over its parts", () => {
    const force = windForce(tern, 10, 0.4);
    expect(force.bySurface).toHaveLength(8);
    expect(force.bySurface.reduce((sum, part) => sum + part.along, 0)).toBeCloseTo(force.along, 9);
    expect(Math.hypot(force.along, force.across)).toBe(force.resultant);
  });

  it("of a plain area is ½ ρ C A V², and of a boat's own headings what they state", () => {
    const areas: Boat = {
      ...plain,
      windage: {
        kind: "areas",
        front: { area: 8, drag: 0.9, height: 10 },
        side: { area: 25, drag: 1.1, height: 10 },
        byHeading: [
          { angle: 0, along: 1, across: 0 },
          { angle: 0.5, along: 1.2, across: 0.3 },
          { angle: Math.PI, along: -1, across: 0 },
        ],
      },
    };
    // At 10 m every profile is 1: ½ · 1.225 · 100 · 0.9 · 8.
    expect(windForce(areas, 10, 0).along).toBeCloseTo(441, 10);
    const half = windForce(areas, 10, -0.25);
    expect(half.along).toBeCloseTo(441 * 1.1, 10);
    expect(half.across).toBeCloseTo(-61.25 * 1.1 * 25 * 0.15, 10);
    expect(windForce(areas, 10, Math.PI).along).toBeCloseTo(-441, 10);
  });
});

const around = (current?: Conditions["current"], yaw = 0): Conditions => ({
  ...CALM_SURROUNDINGS,
  yaw,
  ...(current === undefined ? {} : { current }),
});

describe("load and back", () => {
  it("a wind's load is worth that wind, with a current from anywhere forward of the beam", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 40, noNaN: true }),
        fc.double({ min: -1.5, max: 1.5, noNaN: true }),
        fc.double({ min: 0, max: 1.5, noNaN: true }),
        fc.double({ min: -1.2, max: 1.2, noNaN: true }),
        (v, yaw, flow, from) => {
          const conditions = around(flow < 0.01 ? undefined : { speed: { value: flow, u: 0 }, angle: from }, yaw);
          const load = steadyLoad(tern, { value: v, u: 0 }, conditions);
          const worth = windForLoadByWindage(tern, { value: load.value, u: 0 }, conditions);
          // A current can pull against the wind across the hull; then the load may be less than the current's alone.
          if (worth.kind === "currentAlone") {
            expect(worth.load).toBeGreaterThanOrEqual(load.value);
            return;
          }
          expect(worth.kind).toBe("wind");
          if (worth.kind !== "wind") return;
          // The larger root can be another wind only where wind and current pull apart.
          const again = steadyLoad(tern, { value: worth.wind.value, u: 0 }, conditions);
          expect(Math.abs(again.value - load.value)).toBeLessThan(1e-10 * load.value);
        },
      ),
      { seed: 9, numRuns: 200 },
    );
  });

  it("has uncertainties that agree forward and back: u(V) = u(F) / (dF/dV)", () => {
    const conditions = around({ speed: { value: 0.8, u: 0.1 }, angle: 0.3 });
    const load = steadyLoad(tern, { value: 12, u: 0 }, conditions);
    const worth = windForLoadByWindage(tern, { value: load.value, u: 0 }, conditions);
    if (worth.kind !== "wind") throw new Error("a wind was expected");
    const slope =
      (steadyLoad(tern, { value: 12.001, u: 0 }, conditions).value -
        steadyLoad(tern, { value: 11.999, u: 0 }, conditions).value) /
      0.002;
    // The difference quotient's own error is about 1e-8.
    expect(Math.abs(worth.wind.u - load.u / slope)).toBeLessThan(1e-6 * worth.wind.u);
  });

  it("gives back relative uncertainties by hand: without current u(F)/F² = 4 u(V)²/V² + areas, drag and air", () => {
    const { value, u, shares } = steadyLoad(tern, { value: 10, u: 0.5 }, CALM_SURROUNDINGS);
    expect(u / value).toBeCloseTo(Math.sqrt((2 * 0.05) ** 2 + 0.05 ** 2 + 0.2 ** 2 + 0.02 ** 2), 10);
    expect(shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  it("says when the current alone is more than the load", () => {
    const conditions = around({ speed: { value: 2, u: 0 }, angle: 0 });
    const alone = currentForce(tern, 2, 0).resultant;
    expect(windForLoadByWindage(tern, { value: 0.9 * alone, u: 0 }, conditions)).toEqual({
      kind: "currentAlone",
      load: alone,
    });
  });

  it("says when the windage stated meets no wind", () => {
    const bare: Boat = {
      ...plain,
      windage: { kind: "areas", front: { area: 0, drag: 1, height: 2 }, side: { area: 5, drag: 1, height: 2 } },
    };
    expect(windForLoadByWindage(bare, { value: 500, u: 0 }, CALM_SURROUNDINGS)).toEqual({ kind: "noWindage" });
  });

  it("finds the mean wind whose gust pulls as much", () => {
    const conditions: Conditions = {
      ...CALM_SURROUNDINGS,
      gust: { model: { kind: "froya" }, averaging: 600, duration: 3 },
    };
    const answer = weather(tern, { value: 12, u: 0 }, conditions);
    const worth = windForLoadByWindage(tern, { value: answer.windage!.gust!.value, u: 0 }, conditions, "gust");
    if (worth.kind !== "wind") throw new Error("a wind was expected");
    expect(worth.wind.value).toBeCloseTo(12, 8);
  });
});

describe("the whole answer", () => {
  const conditions: Conditions = {
    ...CALM_SURROUNDINGS,
    gust: { model: { kind: "froya" }, averaging: 600, duration: 3 },
    current: { speed: { value: kn, u: 0.1 * kn }, angle: 0 },
    water: { ...CALM_SURROUNDINGS.water, depth: 6 },
    veering: tern.veering!,
    sea: jonswap(0.6, 3),
  };
  const answer = weather(tern, { value: 20 * kn, u: kn }, conditions, designLoadTables);

  it("keeps windage, measured points and tables apart", () => {
    expect(answer.windage!.steady.value).not.toBe(answer.measured[0]!.mean.value);
    expect(answer.tables.map(({ table }) => table.name)).toEqual([
      "storm article, sailing boats",
      "trade table by length",
    ]);
    const without = weather(tern, { value: 20 * kn, u: kn }, conditions, []);
    expect(without.windage).toEqual(answer.windage);
    expect(without.measured).toEqual(answer.measured);
  });

  it("pulls more in the gust than in the mean, and more swinging than head on", () => {
    const { steady, gust, veered } = answer.windage!;
    expect(gust!.value).toBeGreaterThan(steady.value);
    expect(veered!.largest).toBeGreaterThan(veered!.mean);
    expect(veered!.mean).toBeGreaterThan(windForce(tern, answer.gust!.speed, 0).resultant);
    expect(Math.abs(veered!.at)).toBeCloseTo(tern.veering!.amplitude, 12);
  });

  it("swings at the rate of its amplitude and period: A 2π/P, the bow at half the length", () => {
    const { turnRate, bowSpeed } = answer.windage!.veered!;
    expect(turnRate).toBeCloseTo((tern.veering!.amplitude * 2 * Math.PI) / 45, 12);
    expect(bowSpeed).toBeCloseTo((turnRate * 11.6) / 2, 12);
  });

  it("is worth the wind it came from, by measured points too", () => {
    const back = windsForLoad(tern, { value: answer.measured[0]!.mean.value, u: 0 });
    expect(back.measured[0]!.mean.value).toBeCloseTo(20 * kn, 9);
  });
});

describe("load over wind for drawing", () => {
  const winds = [4, 8, 12, 16, 20];
  const curve = windLoadCurve(tern, winds, CALM_SURROUNDINGS, designLoadTables);

  it("has a row a wind, rising, each with its band, and the points and tables beside", () => {
    expect(curve.rows.map(({ wind }) => wind)).toEqual(winds);
    for (const [i, row] of curve.rows.entries()) {
      expect(row.windage!.low).toBeLessThan(row.windage!.value);
      expect(row.windage!.high).toBeGreaterThan(row.windage!.value);
      expect(row.measured[0]!.peak!.value).toBeGreaterThan(row.measured[0]!.mean.value);
      if (i > 0) expect(row.windage!.value).toBeGreaterThan(curve.rows[i - 1]!.windage!.value);
    }
    expect(curve.points).toHaveLength(5);
    expect(curve.tablePoints).toHaveLength(8);
  });

  it("agrees with the answer at one wind", () => {
    const single = weather(tern, { value: 12, u: 0 });
    expect(curve.rows[2]!.windage!.value).toBe(single.windage!.steady.value);
    expect(curve.rows[2]!.measured[0]!.mean.value).toBe(single.measured[0]!.mean.value);
  });

  it("is empty where a boat states neither windage nor points", () => {
    const empty = windLoadCurve(plain, [10]);
    expect(empty.rows[0]).toEqual({ wind: 10, measured: [] });
  });
});
