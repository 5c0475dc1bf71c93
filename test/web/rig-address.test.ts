import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/gear/index.ts";
import type { Part, Rig } from "../../src/rode/index.ts";
import { rigCodec } from "../../src/web/rig/address.ts";
import { type RigState, usualState } from "../../src/web/rig/desk.ts";
import { partOfRow } from "../../src/web/rig/parts.ts";
import { parseSearch, stringifySearch } from "../../src/web/state/address.ts";

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

/** By way of the text in the browser's bar. */
const sent = (state: RigState) => rigCodec.read(parseSearch(stringifySearch(rigCodec.write(state))));

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
      ...usualState,
      rig: { ...usualState.rig, setting: { ...usualState.rig.setting, bottomSlope: 0.0523 } },
    };
    // One multiplication and one division: a few units in the last place.
    expect(sent(tilted)!.rig.setting.bottomSlope).toBeCloseTo(0.0523, 14);
  });

  it("names gear of the catalogue, so that it can be read and stays short", () => {
    const { rode } = rigCodec.write(usualState);
    expect(rode).toBe("bow shackle 10 mm~chain 10 mm grade 30 ISO 4565*25~polyamide three-strand 16 mm*15");
    expect(stringifySearch(rigCodec.write(usualState)).length).toBeLessThan(300);
  });

  it("takes no rig from what is none, and never throws", () => {
    const good = rigCodec.write(usualState);
    const bad: Record<string, string>[] = [
      {},
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
      { ...good, rode: Array(500).fill("swivel 3/8 in").join("~") },
    ];
    for (const fields of bad) expect(rigCodec.read(fields), JSON.stringify(fields).slice(0, 200)).toBeNull();
    fc.assert(
      fc.property(fc.dictionary(fc.constantFrom(...Object.keys(good)), fc.string()), (fields) => {
        rigCodec.read({ ...good, ...fields });
      }),
      { seed: 21, numRuns: 300 },
    );
  });

  it("lets a load that cannot be read fall to the usual, and keeps the rig", () => {
    const state = rigCodec.read({ ...rigCodec.write(usualState), load: "masthead heavy", over: "-3" });
    expect(state).toEqual({ ...usualState, load: { at: "bow", newtons: 1500 }, over: null });
  });
});
