/** How sure an equilibrium is, where a closed form says it; and what each input moves, field by field. */
import { describe, expect, it } from "vitest";
import {
  certaintyOf,
  drawsOf,
  find,
  foundUncertainty,
  type LinePart,
  lowestWorkingLoad,
  match,
  matchedUncertainty,
  moveBoth,
  movedRig,
  perturbed,
  pullAt,
  pullInput,
  RIG_INPUTS,
  type Rig,
  remarksOn,
  rigInputs,
  type Settled,
  settle,
  settleTraced,
  sharedLineCorrelation,
  strengthOf,
  UNCERTAIN,
  UNCERTAIN_NAMES,
  uncertaintyOf,
} from "../../src/rode/index.ts";
import { chain, RISE, rigInAir, w } from "./rig-in-air.ts";

const air = (uncertainty: Rig["uncertainty"] = {}, rode: Rig["rode"] = [chain], over: object = {}): Rig => ({
  ...rigInAir(rode, over),
  uncertainty,
});
const water = { medium: "water", depth: 7, rollerHeight: 1, waterDensity: 1025, current: 0.3 };

describe("a pull with what is not known of it", () => {
  it("is one input after those of the rig: a load in newtons, a span in metres", () => {
    expect(pullInput({ at: "bow", newtons: 900 }, 30)).toEqual([{ name: "load", value: 900, u: 30 }]);
    expect(pullInput({ at: "span", metres: 25 }, 0.2)).toEqual([{ name: "span", value: 25, u: 0.2 }]);
    expect(pullInput({ at: "bow", newtons: 900 }, 0)).toEqual([]);
    expect(pullAt({ at: "anchor", newtons: 900 }, 800)).toEqual({ at: "anchor", newtons: 800 });
    expect(pullAt({ at: "span", metres: 25 }, 24)).toEqual({ at: "span", metres: 24 });
  });
  it("is moved with the rig, unless it is none any more", () => {
    const of = air({ massPerLength: 0.1, rise: 0.2 });
    const inputs = rigInputs(of);
    expect(inputs).toEqual([
      { input: "massPerLength", name: "mass per length", value: 0, u: 0.1 },
      { input: "rise", name: "rise", value: 0, u: 0.2 },
    ]);
    const pull = { at: "bow", newtons: 900 } as const;
    const both = moveBoth(of, pull, inputs, [0.05, 0.3, 700])!;
    expect(both.pull).toEqual({ at: "bow", newtons: 700 });
    expect(both.rig.setting).toMatchObject({ rise: 8.3 });
    expect((both.rig.rode[0] as LinePart).massPerLength).toBeCloseTo(2.1, 12);
    expect(moveBoth(of, pull, inputs, [0.05, 0.3])!.pull).toEqual(pull);
    expect(moveBoth(of, pull, inputs, [0.05, 0.3, 0])).toBeNull();
    expect(moveBoth(of, pull, inputs, [0.05, 0.3, -5])).toBeNull();
    expect(moveBoth(of, pull, inputs, [-1, 0.3, 700])).toBeNull();
  });
  it("counts as an input where it is stated to be uncertain above nought", () => {
    expect(rigInputs(air({ massPerLength: 0, rise: 0.1 })).map(({ input }) => input)).toEqual(["rise"]);
    expect(Object.keys(RIG_INPUTS)).toEqual([
      ...["massPerLength", "rise", "depth", "length", "stretch", "friction", "bottomSlope", "waterDensity", "current"],
    ]);
  });
});

describe("a rig that is moved", () => {
  const rope: LinePart = {
    ...{ kind: "line", name: "rope", length: 12, massPerLength: 0.2, density: 1140, material: "rope" },
    stretch: {
      kind: "curve",
      points: [
        [0.02, 900],
        [0.05, 2000],
      ],
    },
  };
  const wire: LinePart = { ...chain, material: "wire", stretch: { kind: "linear", stiffness: 6e6 } };
  const plain: LinePart = { ...rope, stretch: { kind: "linear", stiffness: 9e4 } };
  const weight = { kind: "point", name: "weight", mass: 9, density: 7850 } as const;
  const of = air({}, [chain, wire, weight, rope, plain], { ...water, bottomSlope: 0.02, bottomFriction: 0.3 });
  const moved = (move: Parameters<typeof movedRig>[1]): Rig => movedRig(of, move)!;

  it("has every line heavier or longer by a share, points left alone", () => {
    expect(
      moved({ massPerLength: 0.1 }).rode.map((part) => (part.kind === "line" ? part.massPerLength : part.mass)),
    ).toEqual([2.2, 2.2, 9, 0.22, 0.22].map((mass) => expect.closeTo(mass, 12)));
    expect(moved({ length: -0.1 }).rode.map((part) => (part.kind === "line" ? part.length : null))).toEqual(
      [27, 27, null, 10.8, 10.8].map((length) => (length === null ? null : expect.closeTo(length, 12))),
    );
    expect(moved({ length: 0.1 }).rode[2]).toEqual(weight);
  });
  it("has its ropes stretch more by one share, its chain and wire by another", () => {
    const laws = (rig: Rig) => rig.rode.flatMap((part) => (part.kind === "line" ? [part.stretch] : []));
    const softer = [
      [0.025, 900],
      [0.0625, 2000],
    ].map((point) => point.map((each) => expect.closeTo(each, 12)));
    expect(laws(moved({ stretch: 0.25 }))).toEqual([
      ...[chain.stretch, wire.stretch, { kind: "curve", points: softer }],
      { kind: "linear", stiffness: expect.closeTo(72_000, 8) },
    ]);
    expect(laws(moved({ metalStretch: 0.2 }))).toEqual([
      ...[chain.stretch, { kind: "linear", stiffness: expect.closeTo(5e6, 6) }, rope.stretch, plain.stretch],
    ]);
  });
  it("has its setting moved by amounts, each its own; friction ends at none", () => {
    const before = of.setting;
    expect(moved({ rise: 0.5 }).setting).toEqual({ ...before, depth: 7.5 });
    expect(moved({ depth: -0.5, rise: 0.25 }).setting).toEqual({ ...before, depth: 6.75 });
    expect(moved({ waterDensity: -5 }).setting).toEqual({ ...before, waterDensity: 1020 });
    expect(moved({ current: 0.2 }).setting).toEqual({ ...before, current: 0.5 });
    expect(moved({ bottomSlope: 0.01 }).setting).toEqual({ ...before, bottomSlope: expect.closeTo(0.03, 12) });
    expect(moved({ friction: 0.1 }).setting).toEqual({ ...before, bottomFriction: 0.4 });
    expect(moved({ friction: -0.5 }).setting).toEqual({ ...before, bottomFriction: 0 });
    expect(movedRig(air(), { rise: 0.5, bottomSlope: 0.1 })!.setting).toEqual({
      ...air().setting,
      rise: 8.5,
      bottomSlope: 0.1,
    });
    expect(moved({}).rode).toBe(of.rode);
  });
  it("is none where nothing is left of a line, its stretch or the depth", () => {
    for (const move of [
      { massPerLength: -1 },
      { length: -1.2 },
      { stretch: -1 },
      { metalStretch: -2 },
      { depth: -7 },
      { rise: -7.5 },
    ])
      expect(movedRig(of, move), JSON.stringify(move)).toBeNull();
    expect(movedRig(air(), { rise: -8 })).not.toBeNull();
  });
  it("is what a theory perturbs: mass by a factor, rise by metres", () => {
    const other = perturbed(of, 1.5, -0.5);
    expect((other.rode[0] as LinePart).massPerLength).toBe(3);
    expect(other.setting).toEqual({ ...of.setting, depth: 6.5 });
    expect((other.rode[3] as LinePart).stretch).toEqual(rope.stretch);
  });
});

describe("an equilibrium's uncertainty", () => {
  const pull = { at: "horizontal", newtons: 300 } as const;
  // At rest in part, level: hangs √(h² + 2ha), a = H/w; the bow feels H + w h.
  const hangs = (mass: number, rise: number) => Math.sqrt(rise ** 2 + (2 * rise * 300) / (mass * w));
  it("of first order is each slope times what is not known, by the closed form", () => {
    const sure = certaintyOf(air({ massPerLength: 0.01 }), pull)!;
    const slope = (hangs(1.0005, RISE) - hangs(0.9995, RISE)) / 0.001;
    expect(sure.grounded / (0.01 * Math.abs(slope))).toBeCloseTo(1, 3);
    expect(sure.bowTension).toBeCloseTo(0.01 * w * RISE, 5);
    expect([sure.horizontal, sure.anchorAngle, sure.angleToBottom]).toEqual([expect.closeTo(0, 9), 0, 0]);
    expect(sure.anchorTension).toBeCloseTo(0, 8);
    expect(certaintyOf(air({ rise: 0.1 }), pull)!.bowTension).toBeCloseTo(0.1 * w, 5);
    expect(certaintyOf(air(), pull, 12)!.bowTension).toBeCloseTo(12, 6);
    expect(certaintyOf(air(), pull)).toBeNull();
  });
  it("names each quantity for the field it is of", () => {
    const settled = settle(air({}, [chain], { bottomSlope: 0.03 }), { at: "bow", newtons: 2000 }) as Settled;
    expect(Object.fromEntries(UNCERTAIN_NAMES.map((name) => [name, UNCERTAIN[name](settled)]))).toEqual({
      anchorTension: settled.anchor.tension,
      anchorAngle: settled.anchor.angle,
      angleToBottom: settled.anchor.angleToBottom,
      bowTension: settled.bow.tension,
      bowAngle: settled.bow.angle,
      horizontal: settled.horizontal,
      span: settled.span,
      grounded: settled.grounded,
      sag: settled.sag,
    });
    expect(new Set(UNCERTAIN_NAMES.map((name) => UNCERTAIN[name](settled))).size).toBe(9);
  });
  it("draws as often as it is asked, none where none is asked, and says how far it is", () => {
    const of = air({ massPerLength: 0.01 });
    const told: [number, number][] = [];
    const { spread, firstOrder, cannotMove } = uncertaintyOf(of, pull, {
      draws: 50,
      onDraw: (made, all) => told.push([made, all]),
    })!;
    expect([spread!.draws, spread!.without, spread!.lifted, cannotMove]).toEqual([50, 0, 0, null]);
    // Told now and then, of so many in all.
    expect(told.length).toBeGreaterThan(0);
    for (const [made, all] of told) expect([made >= 0 && made <= 50, all]).toEqual([true, 50]);
    expect(firstOrder!.bowTension).toBeCloseTo(0.01 * w * RISE, 5);
    expect(spread!.bounds.bowTension.low!).toBeLessThan(300 + w * RISE);
    expect(spread!.bounds.bowTension.high!).toBeGreaterThan(300 + w * RISE);
    expect(uncertaintyOf(of, pull, { draws: 0 })).toEqual({ firstOrder, cannotMove: null, spread: null });
    expect(uncertaintyOf(air(), pull, { draws: 5 })).toBeNull();
    const other = uncertaintyOf(of, pull, { draws: 50, seed: 2 })!;
    expect(other.spread!.bounds).not.toEqual(spread!.bounds);
    expect(uncertaintyOf(of, pull, { draws: 50, seed: 1 })!.spread).toEqual(spread);
    // Half a newton below lift-off and as much above: each of two draws in three, say, is lifted only where it is.
    const lifted = uncertaintyOf(of, { at: "horizontal", newtons: 3000 }, { draws: 40 })!;
    expect(lifted.spread!.lifted).toBe(40);
  });
  it("is none where the model ends on both sides of an input, which it names", () => {
    // A span that chain reaches by a hair: a little longer or shorter it does not, or lies slack... a rise of either sign moves it out.
    const of = air({ length: 0.4 });
    const pull = { at: "span", metres: Math.sqrt(900 - 64) - 1e-9 } as const;
    const answer = uncertaintyOf(of, pull, { draws: 10 });
    if (answer!.firstOrder === null) expect(answer!.cannotMove).toBe("length");
    else expect(answer!.cannotMove).toBeNull();
  });
});

describe("what was found, and what was matched", () => {
  const question = {
    unknown: { what: "length", part: 1 },
    goal: { goal: "liftoff" },
    pull: { at: "bow", newtons: 1500 },
  } as const;
  // L² = 2 h F/w − h² where the anchor's end is level.
  const slope = (RISE * 1500) / w / Math.sqrt((2 * RISE * 1500) / w - RISE * RISE);
  it("is as sure as its inputs: by the closed form, load and mass", () => {
    const of = air({ massPerLength: 0.02 });
    const found = find(of, question);
    if (found.kind !== "found") throw new Error(found.cause);
    const sure = foundUncertainty(of, question, found, { draws: 0 })!;
    expect(sure.spread).toBeNull();
    expect(sure.u! / (0.02 * slope)).toBeCloseTo(1, 3);
    // One newton of the load moves it as a 1500th of the mass does.
    expect(foundUncertainty(air(), question, found, { pullU: 30, draws: 0 })!.u! / (0.02 * slope)).toBeCloseTo(1, 3);
    expect(foundUncertainty(air(), question, found, { draws: 0 })).toBeNull();
    const told: [number, number][] = [];
    const drawn = foundUncertainty(of, question, found, { draws: 60, onDraw: (made, all) => told.push([made, all]) })!;
    expect([drawn.spread!.draws, drawn.spread!.without]).toEqual([60, 0]);
    expect(told.length).toBeGreaterThan(0);
    for (const [made, all] of told) expect([made >= 0 && made <= 60, all]).toEqual([true, 60]);
    expect(drawn.spread!.bounds.low!).toBeLessThan(found.value);
    expect(drawn.spread!.bounds.high!).toBeGreaterThan(found.value);
    // The load as unknown is not uncertain itself.
    const asked = { ...question, unknown: { what: "pull" } } as const;
    const pulled = find(of, asked);
    if (pulled.kind !== "found") throw new Error(pulled.cause);
    expect(foundUncertainty(air(), asked, pulled, { pullU: 30, draws: 0 })).toBeNull();
    expect(foundUncertainty(of, asked, pulled, { draws: 0 })!.u! / (0.02 * pulled.value)).toBeCloseTo(1, 4);
  });
  it("matches by both rigs: what is not known of one line in both moves both alike", () => {
    const of = air({ massPerLength: 0.02, rise: 0.1 });
    const other: Rig = {
      ...air({ massPerLength: 0.02, rise: 0.3 }),
      name: "other",
      setting: { ...of.setting, rise: 10 } as Rig["setting"],
    };
    const pull = { at: "bow", newtons: 2000 } as const;
    const matched = match(of, other, pull);
    if (matched.kind !== "matched") throw new Error(matched.cause);
    const own = rigInputs(of);
    const others = rigInputs(other);
    const shared = sharedLineCorrelation(of, other, own, 0, others, 3)!;
    expect(shared).toHaveLength(5);
    expect(shared[0]).toEqual([1, 0, 0, 1, 0]);
    expect(shared[3]).toEqual([1, 0, 0, 1, 0]);
    expect(shared[1]).toEqual([0, 1, 0, 0, 0]);
    expect(shared[4]).toEqual([0, 0, 0, 0, 1]);
    // Other values of it, another line, or a line the other has not: nothing shared.
    const doubted: Rig = { ...other, uncertainty: { massPerLength: 0.03 } };
    expect(sharedLineCorrelation(of, doubted, own, 0, rigInputs(doubted), 3)![0]).toEqual([1, 0, 0, 0]);
    const another: Rig = { ...other, rode: [{ ...chain, massPerLength: 2.1 }] };
    expect(sharedLineCorrelation(of, another, own, 0, others, 3)).toBeUndefined();
    expect(sharedLineCorrelation({ ...of, rode: [] }, other, own, 0, others, 3)).toBeUndefined();
    // Both inputs alone and the mass of both together give the whole.
    const u = (a: Rig["uncertainty"], b: Rig["uncertainty"], pullU = 0) =>
      matchedUncertainty({ ...of, uncertainty: a }, { ...other, uncertainty: b }, pull, matched, { draws: 0, pullU })!
        .u!;
    const parts = [
      u({ rise: 0.1 }, {}),
      u({}, { rise: 0.3 }),
      u({ massPerLength: 0.02 }, { massPerLength: 0.02 }),
      u({}, {}, 20),
    ];
    for (const part of parts) expect(part).toBeGreaterThan(0);
    expect(u(of.uncertainty, other.uncertainty, 20) / Math.hypot(...parts)).toBeCloseTo(1, 6);
    expect(parts[2]!).toBeLessThan(u({ massPerLength: 0.02 }, {}) + u({}, { massPerLength: 0.02 }));
  });
});

describe("what is said of a rig's parts", () => {
  it("past its breaking load, past its working load, or neither: the highest load against its own limits", () => {
    const rode: Rig["rode"] = [
      { ...chain, length: 10, workingLoad: 1e4, breakingLoad: 4e4 },
      { ...chain, length: 10, name: "second", workingLoad: 1000 },
      { ...chain, length: 10, name: "third", workingLoad: 900, breakingLoad: 1800 },
    ];
    const of = air({}, rode);
    const traced = settleTraced(of, { at: "bow", newtons: 2000 });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const rows = strengthOf(of, traced);
    expect(
      rows.map(({ part, name, past, workingLoad, breakingLoad }) => [part, name, past, workingLoad, breakingLoad]),
    ).toEqual([
      [1, "chain", null, 1e4, 4e4],
      [2, "second", "workingLoad", 1000, null],
      [3, "third", "breakingLoad", 900, 1800],
    ]);
    expect(rows[2]!.load).toBeCloseTo(2000, 8);
    expect(lowestWorkingLoad(of)).toBe(900);
    expect(lowestWorkingLoad(air())).toBeNull();
  });
  it("a line in a current without a diameter is dragged as the circle of its volume, and that is said", () => {
    const inCurrent = air(
      {},
      [
        { ...chain, diameter: 0.01 },
        { ...chain, name: "bare" },
      ],
      water,
    );
    expect(remarksOn(inCurrent)).toEqual([
      {
        about: "diameterAssumed",
        part: 2,
        name: "bare",
        diameter: expect.closeTo(2 * Math.sqrt(2 / 7850 / Math.PI), 12),
      },
    ]);
    expect(remarksOn(air())).toEqual([]);
  });
  it("is drawn as often as closed forms or steps allow", () => {
    expect([drawsOf(air()), drawsOf(air({}, [chain], water))]).toEqual([4000, 1000]);
  });
});
