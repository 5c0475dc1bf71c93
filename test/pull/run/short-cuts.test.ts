/** What each short cut would do to a carried load, done again by bisection on settled rigs from which it is taken. */
import { describe, expect, it } from "vitest";
import { carry, carryFields, judgeShortCuts, type Run } from "../../../src/pull/index.ts";
import { type LinePart, type Part, type Rig, settle } from "../../../src/rode/index.ts";
import { notCarriedWords, wordedShortCut } from "../../../src/words/index.ts";
import { loads } from "./demo.ts";

const degree = Math.PI / 180;
const chain: LinePart = {
  kind: "line",
  name: "chain",
  length: 28,
  massPerLength: 2.3,
  density: 7850,
  stretch: { kind: "linear", stiffness: 3e6 },
};
const kellet: Part = { kind: "point", name: "kellet", mass: 9, density: 7850 };
const standIn: Rig = {
  name: "Stand-in",
  setting: { medium: "air", rise: 7, bottomSlope: 2 * degree, bottomFriction: 0 },
  rode: [chain, kellet, { ...chain, length: 4 }],
  uncertainty: { massPerLength: 0.02, rise: 0.05 },
};
const afloat: Rig = {
  name: "Afloat",
  setting: {
    medium: "water",
    depth: 6,
    rollerHeight: 1.5,
    waterDensity: 1025,
    bottomSlope: -1 * degree,
    bottomFriction: 0,
    current: 0,
  },
  rode: [{ ...chain, length: 20 }, kellet, { ...chain, length: 14, massPerLength: 1.4 }],
  uncertainty: { massPerLength: 0.03, rise: 0.2 },
};
const read = [2600, 3600];
const run: Run = { ...loads({ loads: read }).run, uncertainty: { load: 30, angle: 0, movement: 0, gaugeZero: 0 } };
const { rows } = carry(run, standIn, afloat);
const verdicts = judgeShortCuts(run, standIn, afloat, rows).map(wordedShortCut);

function angleUnder(rig: Rig, load: number): number {
  const answer = settle(rig, { at: "bow", newtons: load });
  return answer.kind === "settled" ? answer.anchor.angleToBottom : -1;
}
/** The load at the bow that pulls the anchor at an angle to the bottom. */
function bowAt(rig: Rig, angle: number): number {
  let [low, high] = [100, 1e6];
  for (let i = 0; i < 80; i++) {
    const middle = Math.sqrt(low * high);
    if (angleUnder(rig, middle) < angle) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}
const both = (change: (rig: Rig) => Rig) => (load: number) => bowAt(change(afloat), angleUnder(change(standIn), load));
const setting =
  (over: object) =>
  (rig: Rig): Rig => ({ ...rig, setting: { ...rig.setting, ...over } as Rig["setting"] });

const scope = (rig: Rig, rise: number): number =>
  Math.asin(rise / rig.rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0)) -
  rig.setting.bottomSlope;

const AGAIN: Readonly<Record<string, (load: number, row: (typeof rows)[number]) => number>> = {
  "the load read stands for the load at the other rig's bow": (load) => load,
  "the load at the anchor stands for the load at the bow": (_, row) => row.anchor,
  // The stand-in sags below its own straight line by so much; the other is taken to sag as much below its own.
  "the rode is straight: the angle at the anchor follows from the scope alone": (load) =>
    bowAt(afloat, scope(afloat, 7.5) - (scope(standIn, 7) - angleUnder(standIn, load))),
  "nothing stretches": both((rig) => ({
    ...rig,
    rode: rig.rode.map((part) => (part.kind === "line" ? { ...part, stretch: { kind: "rigid" as const } } : part)),
  })),
  "rode weighs the same in water as in air": (load) =>
    bowAt(
      { ...afloat, setting: { medium: "air", rise: 7.5, bottomSlope: -1 * degree, bottomFriction: 0 } },
      angleUnder(standIn, load),
    ),
  "rode between the surface and the roller weighs as under water": (load) =>
    bowAt(setting({ depth: 7.5, rollerHeight: 0 })(afloat), angleUnder(standIn, load)),
  "the ground is level": both(setting({ bottomSlope: 0 })),
  "shackles, swivels and weights weigh nothing": both((rig) => ({
    ...rig,
    rode: rig.rode.filter((part) => part.kind === "line"),
  })),
};

describe("the short cuts of carrying", () => {
  it("are all looked at where all apply", () =>
    expect(verdicts.map((verdict) => verdict.simplification).sort()).toEqual(Object.keys(AGAIN).sort()));

  it.each(verdicts.map((verdict) => [verdict.simplification, verdict] as const))("%s", (name, verdict) => {
    expect(verdict.effects.length).toBeGreaterThan(0);
    for (const effect of verdict.effects) {
      const row = rows.find((one) => one.read === effect.read)!;
      const bow = AGAIN[name]!(effect.read, row);
      // Both are solved to 1e-9 of the load.
      expect(Math.abs(effect.size - (bow - row.bow))).toBeLessThan(1e-6 * row.bow);
      expect(effect.smaller).toBe(Math.abs(bow - row.bow) < row.u!.bow);
    }
    const passed = verdict.effects.filter((effect) => !effect.smaller).length;
    expect(verdict.says).toMatch(
      passed === 0
        ? /^smaller than the uncertainty at every load/
        : passed === verdict.effects.length
          ? /^larger than the uncertainty at every load/
          : new RegExp(`^larger than the uncertainty at ${passed} of ${verdict.effects.length} loads`),
    );
  });

  it("of one line, rigid, level and in air on both sides are the loads' own alone", () => {
    const plain = loads({ loads: [1500] });
    const { rows: own } = carry(plain.run, plain.rig, plain.rig);
    const names = judgeShortCuts(plain.run, plain.rig, plain.rig, own).map(
      (verdict) => wordedShortCut(verdict).simplification,
    );
    expect(names).toEqual(Object.keys(AGAIN).slice(0, 3));
  });
});

describe("a carried load in fields", () => {
  const fields = JSON.parse(
    JSON.stringify(
      carryFields(
        { rows, notCarried: [{ read: 5, cause: { kind: "noSuchAngle" } }], assumedLoadShare: 0.01 },
        verdicts,
        notCarriedWords,
      ),
    ),
  );
  it("each says what its name says", () => {
    expect(fields.rows).toHaveLength(read.length);
    rows.forEach((row, i) => {
      const said = fields.rows[i];
      expect(said.read_N).toBe(row.read);
      expect(said.anchorAngle_deg).toBeCloseTo(row.anchorAngle / degree, 12);
      expect(said.angleToBottom_deg).toBeCloseTo(row.angleToBottom / degree, 12);
      // The bottom falls away under the one and rises under the other.
      expect(said.anchorAngle_deg - said.angleToBottom_deg).toBeCloseTo(2, 9);
      expect([said.anchor_N, said.bow_N]).toEqual([row.anchor, row.bow]);
      expect(said.uncertainty).toEqual({ anchor_N: row.u!.anchor, bow_N: row.u!.bow });
      const total = said.budget.reduce((sum: number, one: { shareAtBow: number }) => sum + one.shareAtBow, 0);
      expect(total).toBeCloseTo(1, 9);
      for (const [at, source] of Object.entries(row.sources))
        expect(said.budget[Number(at)]).toEqual({
          source: source.name,
          anchor_N: source.anchor,
          bow_N: source.bow,
          shareAtBow: source.share,
        });
      if (row.spread !== null) {
        const { draws, without, lifted, bow } = row.spread;
        expect(said.spread).toMatchObject({ draws, without, lifted, bow95_N: [bow.low, bow.high] });
        if (bow.low !== null) expect(bow.low).toBeLessThan(row.bow);
        if (bow.high !== null) expect(bow.high).toBeGreaterThan(row.bow);
      }
    });
    expect(fields.notCarried).toEqual([
      {
        read_N: 5,
        cause: "noSuchAngle",
        why: "no load in the rig carried to pulls its anchor at that angle",
      },
    ]);
    expect(fields.assumedLoadShare).toBe(0.01);
    expect(fields.verdicts[0].effects[0]).toEqual({
      read_N: verdicts[0]!.effects[0]!.read,
      bow_N: verdicts[0]!.effects[0]!.size,
      smallerThanUncertainty: verdicts[0]!.effects[0]!.smaller,
    });
  });
});
