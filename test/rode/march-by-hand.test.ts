/**
 * The march that stands behind every answer of a heavy rode: its derivatives against differences of its own values, and its
 * values against sums and the pieces done here. Slopes, friction, corners of a stretch law, weights borne in part, the surface.
 */
import { describe, expect, it } from "vitest";
import { compile, lawBands } from "../../src/rode/compile.ts";
import { GRAVITY, type LinePart, type PointPart, type Rig } from "../../src/rode/index.ts";
import {
  ANCHOR,
  DANCHOR_DEXCESS,
  DANCHOR_DH,
  DV_DEXCESS,
  DV_DH,
  DX_DEXCESS,
  DX_DH,
  DZ_DEXCESS,
  DZ_DH,
  GROUNDED,
  MARCH_SLOTS,
  march,
  V,
  X,
  Z,
} from "../../src/rode/march.ts";
import { makeTrace, POINT, TRACE_COLUMNS } from "../../src/rode/trace.ts";
import { rigInWater } from "./rig-in-water.ts";

const chain: LinePart = {
  ...{ kind: "line", name: "chain", length: 18, massPerLength: 2.3, density: 7850 },
  stretch: { kind: "linear", stiffness: 3e4 },
};
const rope: LinePart = {
  ...{ kind: "line", name: "rope", length: 15, massPerLength: 0.3, density: 1140 },
  stretch: {
    kind: "curve",
    points: [
      [0.02, 300],
      [0.05, 500],
      [0.08, 2000],
    ],
  },
};
const kellet: PointPart = { kind: "point", name: "kellet", mass: 14, density: 7850 };
const made = (rode: Rig["rode"], over: object): Rig => rigInWater(rode, { depth: 6, rollerHeight: 2, ...over });

const rigs: readonly (readonly [string, Rig])[] = [
  ["of chain, a kellet and rope, level", made([chain, kellet, rope], { bottomFriction: 0.6 })],
  ["the same up a slope", made([chain, kellet, rope], { bottomSlope: 0.08, bottomFriction: 0.3 })],
  ["the same down a slope", made([chain, kellet, rope], { bottomSlope: -0.12, bottomFriction: 0.5 })],
  ["of rope with chain at the bow", made([rope, kellet, chain], { bottomSlope: 0.05 })],
  ["with a weight at the bow itself", made([chain, rope, kellet], {})],
  ["in air", made([chain, kellet, rope], { medium: "air", rise: 8, bottomSlope: 0.04, bottomFriction: 0.5 })],
];

describe.each(rigs)("a rode %s", (_, of) => {
  const rode = compile(of);
  const out = new Float64Array(MARCH_SLOTS);
  const at = (H: number, excess: number): Float64Array => {
    march(rode, H, excess, out, null);
    return Float64Array.from(out);
  };
  const states: [H: number, excess: number][] = [];
  for (const H of [150, 420, 1900])
    for (const lift of [-0.93, -0.61, -0.37, -0.11, 0.2, 0.9]) states.push([H, lift * rode.totalLow]);

  it("says how its ends move with the force and with the lift, by differences", () => {
    for (const [H, excess] of states) {
      const here = at(H, excess);
      const [h, e] = [1e-6 * H, 1e-6 * rode.totalLow];
      const [more, less] = [at(H + h, excess), at(H - h, excess)];
      const [up, down] = [at(H, excess + e), at(H, excess - e)];
      for (const [value, byH, byLift] of [
        [X, DX_DH, DX_DEXCESS],
        [Z, DZ_DH, DZ_DEXCESS],
        [V, DV_DH, DV_DEXCESS],
        [ANCHOR, DANCHOR_DH, DANCHOR_DEXCESS],
      ] as const) {
        const size = Math.abs(here[value]!) + (value === X || value === Z ? 30 : rode.totalLow);
        // Differences of a millionth either way: some 1e-10 of the size for rounding, over a millionth.
        const within = (scale: number) => 1e-3 * (size / scale);
        const slopeH = (more[value]! - less[value]!) / (2 * h);
        const slopeL = (up[value]! - down[value]!) / (2 * e);
        expect(Math.abs(here[byH]! - slopeH), `${value} by H at ${H}, ${excess}`).toBeLessThan(
          1e-5 * Math.abs(slopeH) + 1e-3 * within(H),
        );
        expect(Math.abs(here[byLift]! - slopeL), `${value} by lift at ${H}, ${excess}`).toBeLessThan(
          1e-5 * Math.abs(slopeL) + 1e-3 * within(rode.totalLow),
        );
      }
    }
  });

  it("rests what the lift lacks of its weight, and feels at the anchor what friction leaves", () => {
    const slope = of.setting.bottomSlope;
    const phi = Math.sin(slope) + of.setting.bottomFriction * Math.cos(slope);
    const water = of.setting.medium === "water" ? 1025 : 0;
    const weights = of.rode.map(
      (part) => GRAVITY * (1 - water / part.density) * (part.kind === "line" ? part.massPerLength : part.mass),
    );
    for (const [H, excess] of states) {
      const here = at(H, excess);
      if (excess >= 0) {
        expect(here[GROUNDED]).toBe(0);
        expect(here[ANCHOR]).toBeCloseTo(Math.hypot(H, H * Math.tan(slope) + excess), 8);
        continue;
      }
      let left = -excess;
      let rests = 0;
      for (const [i, part] of of.rode.entries()) {
        if (part.kind === "line") {
          const l = Math.min(part.length, left / weights[i]!);
          rests += l;
          left -= l * weights[i]!;
        } else left -= Math.min(left, weights[i]!);
        if (!(left > 1e-9)) break;
      }
      expect(here[GROUNDED]).toBeCloseTo(rests, 8);
      expect(here[ANCHOR]).toBeCloseTo(H / Math.cos(slope) + phi * excess, 8);
    }
  });

  it("records what it marched: every piece from where the last ended, all lengths, all weights", () => {
    for (const [H, excess] of states) {
      const trace = makeTrace(rode);
      march(rode, H, excess, out, trace);
      const rows = Array.from({ length: trace.rows }, (_row, i) =>
        trace.data.subarray(i * TRACE_COLUMNS, (i + 1) * TRACE_COLUMNS),
      );
      const lengths = of.rode.map(() => 0);
      for (const row of rows) {
        if (row[1] !== POINT) {
          // What came before it of its part is where it begins.
          expect(row[9]).toBeCloseTo(lengths[row[0]!]!, 8);
          lengths[row[0]!]! += row[4]!;
        }
      }
      expect(lengths).toEqual(of.rode.map((part) => expect.closeTo(part.kind === "line" ? part.length : 0, 8)));
      expect(rows.filter((row) => row[1] === POINT).map((row) => row[0])).toEqual([of.rode.indexOf(kellet)]);
    }
  });
});

it("through the surface it weighs as in air what is above it, a point there by where it hangs", () => {
  // Rigid chain hangs over 6 m of water and 2 m of air: T grows by the weight of each height in its own medium.
  const rigid: LinePart = { ...chain, stretch: { kind: "rigid" } };
  const rode = compile(made([rigid], {}));
  const out = new Float64Array(MARCH_SLOTS);
  const [wet, dry] = [2.3 * GRAVITY * (1 - 1025 / 7850), 2.3 * GRAVITY];
  march(rode, 400, 100, out, null);
  const T0 = Math.hypot(400, 100);
  expect(out[Z]).toBeGreaterThan(6);
  expect(Math.hypot(400, out[V]!)).toBeCloseTo(T0 + 6 * wet + (out[Z]! - 6) * dry, 8);
  for (const [length, weight] of [
    [4, 14 * GRAVITY * (1 - 1025 / 7850)],
    [18, 14 * GRAVITY],
  ] as const) {
    const hung = compile(made([{ ...rigid, length }, kellet, { ...rigid, length: 1e-6 }], {}));
    march(hung, 400, 100, out, null);
    const under = Math.min(length, (Math.sqrt((T0 + 6 * wet) ** 2 - 160_000) - 100) / wet);
    expect(out[V]).toBeCloseTo(100 + under * wet + (length - under) * dry + weight, 3);
  }
  // At the bow a weight hangs in air wherever the bow is.
  const tail = compile(made([{ ...rigid, length: 4 }, kellet], {}));
  march(tail, 400, 100, out, null);
  expect(out[V]).toBeCloseTo(100 + 4 * wet + 14 * GRAVITY, 8);
});

describe("a rig as numbers", () => {
  it("sums what its parts weigh, lift and reach", () => {
    const float: PointPart = { kind: "point", name: "float", mass: 2, density: 200 };
    const rode = compile(made([chain, float, rope, kellet], { bottomSlope: 0.1, bottomFriction: 0.4 }));
    const wet = (mass: number, density: number) => mass * GRAVITY * (1 - 1025 / density);
    const low = [wet(2.3, 7850), wet(2, 200), wet(0.3, 1140), wet(14, 7850)];
    expect([...rode.low]).toEqual(low.map((each) => expect.closeTo(each, 10)));
    expect([...rode.high]).toEqual([2.3, 2, 0.3, 14].map((mass) => expect.closeTo(mass * GRAVITY, 10)));
    expect([...rode.isLine]).toEqual([1, 0, 1, 0]);
    expect([...rode.length]).toEqual([18, 0, 15, 0]);
    expect([...rode.firstBand]).toEqual([0, 1, 1, 4, 4]);
    expect(rode.totalLength).toBe(33);
    expect(rode.totalLow).toBeCloseTo(18 * low[0]! + low[1]! + 15 * low[2]! + low[3]!, 8);
    expect(rode.heft).toBeCloseTo(18 * low[0]! - low[1]! + 15 * low[2]! + low[3]!, 8);
    expect([rode.rise, rode.surface, rode.tail, rode.count]).toEqual([8, 6, 3, 4]);
    expect(rode.ashore).toBeCloseTo(6 / Math.tan(0.1), 9);
    expect(rode.afloatBelow).toBeLessThan(rode.ashore);
    expect(rode.afloatBelow / rode.ashore).toBeCloseTo(1, 9);
    expect([rode.sinSlope, rode.cosSlope, rode.tanSlope]).toEqual([Math.sin(0.1), Math.cos(0.1), Math.tan(0.1)]);
    expect(rode.restDrag).toBeCloseTo(Math.sin(0.1) + 0.4 * Math.cos(0.1), 12);
    expect([rode.hasBuoyant, rode.stretches]).toEqual([true, true]);
    const plain = compile(made([{ ...chain, stretch: { kind: "rigid" } }], { medium: "air", rise: 5 }));
    expect([plain.hasBuoyant, plain.stretches, plain.surface, plain.ashore]).toEqual([
      ...[false, false, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    ]);
    // In air a rising ground comes up to the upper end.
    expect(compile(made([chain], { medium: "air", rise: 5, bottomSlope: 0.2 })).ashore).toBeCloseTo(
      5 / Math.tan(0.2),
      9,
    );
    // Of roller and surface the lower one.
    expect(compile(made([chain], { depth: 9, rollerHeight: 0, bottomSlope: 0.2 })).ashore).toBeCloseTo(
      9 / Math.tan(0.2),
      9,
    );
  });

  it("holds a stretch law band by band: in each ε = c + κT, joined at the corners", () => {
    expect(lawBands({ kind: "rigid" })).toEqual([{ load: 0, intercept: 0, compliance: 0 }]);
    expect(lawBands({ kind: "linear", stiffness: 4e4 })).toEqual([{ load: 0, intercept: 0, compliance: 2.5e-5 }]);
    const bands = lawBands(rope.stretch);
    expect(bands.map(({ load }) => load)).toEqual([0, 300, 500]);
    const corners = [
      [0, 0],
      [0.02, 300],
      [0.05, 500],
      [0.08, 2000],
    ] as const;
    bands.forEach(({ intercept, compliance }, i) => {
      for (const [strain, load] of [corners[i]!, corners[i + 1]!])
        expect(intercept + compliance * load).toBeCloseTo(strain, 12);
    });
  });
});
