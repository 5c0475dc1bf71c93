import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { drawMatchMap, loadAt } from "../../src/figure/match/match-map.ts";
import { match, type Rig, riseOf, settle, withValue } from "../../src/rode/index.ts";
import { matchCodec } from "../../src/web/match/address.ts";
import { linesOf, type MatchState, paidOut, usualMatch, withRig } from "../../src/web/match/state.ts";
import { refusalOf, stateOf } from "../support/address.ts";

const DEGREE = Math.PI / 180;
const { one, other, paid, load } = usualMatch;

/** Every curve of the map, as its attributes: nothing else is drawn as wide. */
const lines = (svg: string): string[] =>
  [...svg.matchAll(/<path[^>]*>/g)].map(([tag]) => tag).filter((tag) => tag.includes('stroke-width="2"'));

describe("the map of two setups", () => {
  const svg = drawMatchMap({ kind: "load", one, other, paid, load, units: "metric", width: 680 }).svg;

  it("has a line of each setup for lift-off and three angles, the second's dashed, each with its name on it", () => {
    const dashed = lines(svg).filter((tag) => tag.includes("stroke-dasharray"));
    expect(dashed).toHaveLength(4);
    expect(lines(svg)).toHaveLength(8);
    for (const label of ["lifts off", "5°", "10°", "15°"])
      expect(svg.split(`>${label}<`).length - 1, label).toBeGreaterThanOrEqual(2);
    expect(svg).toContain("All chain");
    expect(svg).toContain("Chain and rope");
  });

  it("sets each setup where it stands, with the angle that settle gives it", () => {
    for (const rig of [one, other]) {
      const said = Number((settledAngle(rig, load) / DEGREE).toPrecision(3));
      expect(svg).toContain(`>${said}°<`);
    }
  });

  it("shows the lines of one angle crossing where, by settle, both anchors feel the same angle and load", () => {
    // A long light rope: in shallow water it takes more load to steepen than chain does, in deep water less.
    const rope: Rig = {
      ...one,
      name: "Rope",
      rode: [
        {
          kind: "line",
          name: "polyamide",
          length: 60,
          massPerLength: 0.15,
          density: 1140,
          stretch: { kind: "linear", stiffness: 60_000 },
          diameter: 0.016,
          material: "rope",
        },
      ],
    };
    let crossings = 0;
    for (const angle of [5 * DEGREE, 10 * DEGREE, 15 * DEGREE]) {
      const apart = (depth: number): number | null => {
        const [a, b] = [loadAt(one, depth, angle), loadAt(rope, depth, angle)];
        return a === null || b === null ? null : a - b;
      };
      for (let depth = 0.5; depth < 15; depth += 0.1) {
        const [here, there] = [apart(depth), apart(depth + 0.1)];
        if (here === null || there === null || here * there > 0) continue;
        let [low, high] = [depth, depth + 0.1];
        for (let i = 0; i < 60; i++) {
          const middle = (low + high) / 2;
          if (apart(middle)! * here > 0) low = middle;
          else high = middle;
        }
        const newtons = loadAt(one, low, angle)!;
        const angles = [one, rope].map((rig) => settledAngle(withValue(rig, { what: "depth" }, low), newtons));
        crossings += 1;
        // The bisection is to the last place of the depth; an angle moves by some degrees a metre.
        for (const felt of angles) expect(felt).toBeCloseTo(angle, 6);
      }
    }
    expect(crossings).toBeGreaterThan(0);
  });

  it("gives along every line the load under which settle finds the line's angle", () => {
    for (const rig of [one, other])
      for (const depth of [3, 5, 8])
        for (const angle of [2 * DEGREE, 10 * DEGREE]) {
          const newtons = loadAt(rig, depth, angle);
          if (newtons === null) continue;
          expect(settledAngle(withValue(rig, { what: "depth" }, depth), newtons)).toBeCloseTo(angle, 7);
        }
  });

  it("over depth and scope has one line of each setup, told in the units asked for", () => {
    const scope = drawMatchMap({ kind: "scope", one, other, paid, load, units: "us", width: 680 }).svg;
    expect(lines(scope).filter((tag) => tag.includes("stroke-dasharray"))).toHaveLength(1);
    expect(lines(scope)).toHaveLength(2);
    expect(scope).toContain(">scope<");
    expect(scope).toContain("lbf");
    expect(scope).not.toContain("NaN");
  });

  it("is drawn of setups that reach nowhere, without a line of theirs", () => {
    const short = withValue(one, { what: "length", part: 1 }, 2);
    const drawn = drawMatchMap({ kind: "load", one: short, other, paid, load, units: "metric", width: 360 }).svg;
    expect(drawn).toContain("no equilibrium");
    expect(drawn).not.toContain("NaN");
    // Names are the user's own text.
    const named = drawMatchMap({
      kind: "scope",
      one: { ...one, name: "<script>" },
      other,
      paid,
      load,
      units: "metric",
      width: 360,
    });
    expect(named).not.toContain("<script>");
  });
});

function settledAngle(rig: Rig, newtons: number): number {
  const answer = settle(rig, { at: "bow", newtons });
  if (answer.kind === "noEquilibrium") throw new Error(answer.cause);
  return answer.anchor.angle;
}

describe("the part that is paid out", () => {
  it("is the longest line of a rig that is taken, and stays when it becomes the shorter one", () => {
    const taken = withRig({ ...usualMatch, paid: { one: 1, other: 1 } }, "other", other);
    expect(taken.paid).toEqual({ one: 1, other: 2 });
    expect(paidOut(taken, "other")).toEqual({ part: 2, length: 25, name: other.rode[1]!.name });
    const short = { ...taken, other: withValue(other, { what: "length", part: 2 }, 3) };
    expect(paidOut(short, "other")).toEqual({ part: 2, length: 3, name: other.rode[1]!.name });
    expect(stateOf(matchCodec, matchCodec.write(short)).paid.other).toBe(2);
    expect(linesOf(other).map(({ part }) => part)).toEqual([2, 3]);
  });

  it("is what match moves: afterwards both anchors feel one angle under one load", () => {
    const found = match(one, other, { at: "bow", newtons: load });
    if (found.kind === "noEquilibrium") throw new Error(found.cause);
    const angles = [one, found.otherRig].map((rig) => settledAngle(rig, load));
    expect(angles[1]).toBeCloseTo(angles[0]!, 8);
    expect(found.part).toBe(paid.other);
    expect(found.partLength).not.toBe(paidOut(usualMatch, "other").length);
    expect(riseOf(found.otherRig.setting)).toBe(riseOf(other.setting));
  });
});

describe("the address of two setups", () => {
  it("gives back both, the load and the map", () => {
    const digits = (value: number) => Number(value.toPrecision(6));
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 1e5, noNaN: true }).map(digits),
        fc.double({ min: 1, max: 40, noNaN: true }).map(digits),
        fc.double({ min: 1, max: 200, noNaN: true }).map(digits),
        fc.constantFrom("load", "scope"),
        fc.boolean(),
        (newtons, depth, length, map, crossed) => {
          const deep = withValue(one, { what: "depth" }, depth);
          const long = withValue(other, { what: "length", part: 2 }, length);
          const state: MatchState = {
            one: crossed ? long : deep,
            other: crossed ? deep : long,
            paid: crossed ? { one: 3, other: 1 } : { one: 1, other: 3 },
            load: newtons,
            map: map as MatchState["map"],
          };
          expect(stateOf(matchCodec, matchCodec.write(state))).toEqual(state);
        },
      ),
      { seed: 43, numRuns: 200 },
    );
  });

  it("without one of them is refused, and so is a load, a map or a part out of reason, each by its name", () => {
    const fields = matchCodec.write(usualMatch);
    expect(matchCodec.read({})).toEqual({ kind: "none" });
    const { rode: _, ...half } = fields;
    expect(refusalOf(matchCodec, half)[0]).toMatch(/^rode: nothing is given; the parts of a rode are expected$/);
    const { "o-rode": __, ...rest } = fields;
    expect(refusalOf(matchCodec, rest)[0]).toMatch(/^o-rode: nothing is given/);
    for (const broken of ["", "-4", "x", "1e12"])
      expect(refusalOf(matchCodec, { ...fields, load: broken })).toEqual([
        `load: ${broken === "" ? "nothing" : `"${broken}"`} is given; a number from 0.000001 to 1000000000 is expected`,
      ]);
    expect(refusalOf(matchCodec, { ...fields, map: "moon" })).toEqual([
      'map: "moon" is given; one of load, scope is expected',
    ]);
    // A shackle cannot be paid out, nor a part that is not there.
    for (const broken of ["1", "9", "-1", "x"])
      expect(refusalOf(matchCodec, { ...fields, "o-part": broken })[0]).toMatch(/^o-part: /);
  });
});
