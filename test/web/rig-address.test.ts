import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/gear/index.ts";
import type { Part, Rig } from "../../src/rode/index.ts";
import { rigCodec } from "../../src/web/rig/address.ts";
import { partOfRow } from "../../src/web/rig/parts.ts";
import { exampleState, type RigState } from "../../src/web/rig/state.ts";
import { parseSearch, stringifySearch } from "../../src/web/state/address.ts";
import { refusalOf, stateOf } from "../support/address.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const length = between(0.01, 500);
const name = fc.string({ minLength: 1, maxLength: 30, unit: "grapheme" }).filter((text) => text.trim() === text);

const ownLine: fc.Arbitrary<Part> = fc.record({
  kind: fc.constant("line" as const),
  name: name.map((text) => `own ${text}`),
  length,
  massPerLength: between(0.01, 10),
  density: between(800, 8000),
  stretch: fc.oneof(
    fc.constant({ kind: "rigid" as const }),
    fc.record({ kind: fc.constant("linear" as const), stiffness: between(1e3, 1e8) }),
    fc.constant({ kind: "curve" as const, points: [[0.06, 1500] as const, [0.12, 5000] as const] }),
  ),
  material: fc.constantFrom("chain" as const, "rope" as const, "line" as const),
});
const ownPoint: fc.Arbitrary<Part> = fc.record({
  kind: fc.constant("point" as const),
  name: name.map((text) => `own ${text}`),
  mass: between(0.1, 100),
  density: between(100, 8000),
});
const fromCatalogue: fc.Arbitrary<Part> = fc
  .tuple(fc.constantFrom(...catalogue.rows), length)
  .map(([row, metres]) => partOfRow(row, metres));

const setting: fc.Arbitrary<Rig["setting"]> = fc.oneof(
  fc.record({
    medium: fc.constant("air" as const),
    rise: length,
    bottomSlope: fc.constant(0),
    bottomFriction: between(0, 1),
  }),
  fc.record({
    medium: fc.constant("water" as const),
    depth: length,
    rollerHeight: between(0, 5),
    waterDensity: between(990, 1040),
    bottomSlope: fc.constant(0),
    bottomFriction: fc.constant(0),
    current: between(-2, 2),
  }),
);

const states: fc.Arbitrary<RigState> = fc.record({
  rig: fc.record({
    name,
    setting,
    rode: fc
      .tuple(fc.oneof(ownLine, fromCatalogue), fc.array(fc.oneof(ownLine, ownPoint, fromCatalogue), { maxLength: 6 }))
      .map(([first, rest]) => [first, ...rest])
      .filter((rode) => rode.some((part) => part.kind === "line")),
    uncertainty: fc.constantFrom({}, { massPerLength: 0.03 }, { massPerLength: 0.02, rise: 0.25 }),
  }),
  load: fc.record({
    at: fc.constantFrom("bow" as const, "anchor" as const, "horizontal" as const),
    newtons: between(1, 1e6),
  }),
  over: fc.oneof(fc.constant(null), length),
});

const ownOne = { kind: "point" as const, name: "w", mass: 3, density: 7850 };

/** By way of the text in the browser's bar. */
const sent = (state: RigState) => stateOf(rigCodec, parseSearch(stringifySearch(rigCodec.write(state))));

describe("the address of a rig", () => {
  it("gives back any state to the last digit", () => {
    fc.assert(
      fc.property(states, (state) => {
        expect(sent(state)).toEqual(state);
      }),
      { seed: 20, numRuns: 300 },
    );
  });

  it("gives back a slope to within the rounding of degrees", () => {
    const tilted: RigState = {
      ...exampleState,
      rig: { ...exampleState.rig, setting: { ...exampleState.rig.setting, bottomSlope: 0.0523 } },
    };
    // One multiplication and one division: a few units in the last place.
    expect(sent(tilted).rig.setting.bottomSlope).toBeCloseTo(0.0523, 14);
  });

  it("names gear of the catalogue, so that it can be read and stays short", () => {
    const { rode } = rigCodec.write(exampleState);
    expect(rode).toBe("bow shackle 10 mm~chain 10 mm grade 30 ISO 4565*25~polyamide three-strand 16 mm*15");
    expect(stringifySearch(rigCodec.write(exampleState)).length).toBeLessThan(300);
  });

  it("carries a rig of as many parts as a rig file may have", () => {
    for (const count of [480, 1000]) {
      const rode = Array.from({ length: count }, (_, i) =>
        i % 2 === 0
          ? partOfRow(catalogue.rows.find((row) => row.kind === "chain")!, 1 + i)
          : { ...ownOne, name: `weight ${i}` },
      );
      const state = { ...exampleState, rig: { ...exampleState.rig, rode } };
      expect(sent(state).rig.rode).toHaveLength(count);
      expect(sent(state)).toEqual(state);
    }
  });

  it("refuses by name what is no rig, and never throws", () => {
    expect(rigCodec.read({})).toEqual({ kind: "none" });
    expect(rigCodec.read({ utm_source: "somewhere" })).toEqual({ kind: "none" });
    const good = rigCodec.write(exampleState);
    const bad: Record<string, string>[] = [
      { rode: "" },
      { ...good, depth: "-1" },
      { ...good, depth: "deep" },
      { ...good, in: "space" },
      { ...good, rode: "chain 10 mm grade 31*20" },
      { ...good, rode: "chain 10 mm grade 30 ISO 4565*-5" },
      { ...good, rode: "chain 10 mm grade 30 ISO 4565" },
      { ...good, rode: "bow shackle 10 mm" },
      { ...good, rode: '{"kind":"line"' },
      {
        ...good,
        rode: '{"kind":"line","name":"x","length":5,"massPerLength":1,"density":1e9,"stretch":{"kind":"rigid"}}',
      },
      {
        ...good,
        rode: '{"kind":"line","name":"x","length":5,"massPerLength":1,"density":7850,"stretch":{"kind":"curve","points":[[0.1,10],[0.05,20]]}}',
      },
      { ...good, rode: Array(1001).fill("swivel 3/8 in").join("~") },
    ];
    for (const fields of bad) {
      const lines = refusalOf(rigCodec, fields);
      expect(lines.length, JSON.stringify(fields).slice(0, 200)).toBeGreaterThan(0);
      for (const line of lines) expect(line).toMatch(/^[\w-]+[^:]*: .+ is given; .+ (is|are) expected$/s);
    }
    expect(refusalOf(rigCodec, { ...good, depth: "deep", friction: "9" })).toEqual([
      'friction: "9" is given; a number from 0 to 3 is expected',
      'depth: "deep" is given; a number from 0.000001 to 100000 is expected',
    ]);
    expect(refusalOf(rigCodec, { ...good, rode: `${good.rode}~chain 10 mm grade 31*20` })).toEqual([
      'rode, part 4: "chain 10 mm grade 31*20" is given; gear of the catalogue by its name, or a part written out, is expected',
    ]);
    fc.assert(
      fc.property(fc.dictionary(fc.constantFrom(...Object.keys(good)), fc.string()), (fields) => {
        rigCodec.read({ ...good, ...fields });
      }),
      { seed: 21, numRuns: 300 },
    );
  });

  it("refuses a load that cannot be read rather than taking another", () => {
    expect(refusalOf(rigCodec, { ...rigCodec.write(exampleState), load: "masthead heavy", over: "-3" })).toEqual([
      'load: "masthead" is given; one of bow, anchor, horizontal is expected',
      'load: "heavy" is given; a number from 0.000001 to 1000000000 is expected',
      'over: "-3" is given; a number from 0.000001 to 100000 is expected',
    ]);
  });
});
