/** What theory says is read, and what readings are carried to: beside the rode settled load by load, moved by hand. */
import { describe, expect, it } from "vitest";
import { carry, type Run } from "../../../src/pull/index.ts";
import { assumedLoadShare, liftoffLoad, theoryOf, UNSTATED, uOfLoad } from "../../../src/pull/run/theory.ts";
import { automaticMarks } from "../../../src/pull/trace/automatic-marks.ts";
import { firstMovement } from "../../../src/pull/trace/first-movement.ts";
import { perturbed, type Rig, readRig, type Settled, settle } from "../../../src/rode/index.ts";

const DEGREE = Math.PI / 180;
const rigOf = (setting: string, ...rode: string[]): Rig =>
  readRig(
    `format: rodebench/rig@1\nsetting: { ${setting} }\nrode:\n${rode.map((part) => `  - ${part}\n`).join("")}`,
    "rig",
  );
const chain = (length: number, size = "8 mm") => `chain: { grade: "30", size: ${size}, length: ${length} m }`;
const standIn = rigOf("medium: air, rise: 2.5 m", chain(20));
const afloat = rigOf("medium: water, depth: 7 m, rollerHeight: 1.2 m", chain(35, "10 mm"));
const runOf = (over: Partial<Run> = {}): Run => ({
  name: "run",
  loadCellAt: "bow",
  angleAt: "anchor",
  uncertainty: { load: 0, angle: 0, movement: 0, gaugeZero: 0 },
  readings: [],
  release: [],
  ...over,
});
function settled(rig: Rig, at: "anchor" | "bow", newtons: number): Settled {
  const answer = settle(rig, { at, newtons });
  if (answer.kind !== "settled") throw new Error(answer.kind);
  return answer;
}

describe("what theory says is read", () => {
  const run = runOf({
    release: [
      { load: 2000, movement: 0 },
      { load: 800, movement: 0.1 },
    ],
  });
  const [mass, rise, zero, give, tape] = [1.03, 0.05, 0.4 * DEGREE, 2e-5, 0.007];
  const theory = theoryOf(run, standIn, mass, rise, zero, give, tape);
  const moved = perturbed(standIn, mass, rise);

  it("is the angle at the gauge's end with its zero, of the rig as moved", () => {
    expect(theory.angle(1200)).toBeCloseTo(settled(moved, "bow", 1200).anchor.angle + zero, 10);
    const atBow = theoryOf(runOf({ ...run, angleAt: "bow" }), standIn, mass, rise, zero, give, tape);
    expect(atBow.angle(1200)).toBeCloseTo(settled(moved, "bow", 1200).bow.angle + zero, 10);
    const atAnchor = theoryOf(runOf({ ...run, loadCellAt: "anchor" }), standIn, mass, rise, zero, give, tape);
    expect(atAnchor.angle(1200)).toBeCloseTo(settled(moved, "anchor", 1200).anchor.angle + zero, 10);
    expect(theory.angle(1)).toBeNaN();
  });

  it("is the movement back from the first load: of the span, of the rig's own give, of the tape's zero", () => {
    const span = (load: number): number => settled(moved, "bow", load).span;
    expect(theory.movement(800)).toBeCloseTo(span(2000) - span(800) + 2e-5 * (2000 - 800) + 0.007, 9);
    expect(theory.movement(2000)).toBeCloseTo(0.007, 12);
  });

  it("lifts off where the rig does, and rests below that", () => {
    const load = theory.liftoff();
    expect(load).toBe(liftoffLoad(moved, "bow"));
    expect(settled(moved, "bow", load * 1.01).anchor.angleToBottom).toBeGreaterThan(0);
    expect(settled(moved, "bow", load * 0.99).grounded).toBeGreaterThan(0);
    expect([theory.resting(load * 0.99), theory.resting(load * 1.01)]).toEqual([true, false]);
    expect(theory.liftoff()).toBe(load);
  });

  it("is as sure as the reading and, by the slope of the curve, its load", () => {
    const stated = runOf({
      release: run.release,
      uncertainty: { load: 30, angle: 0.2 * DEGREE, movement: 0.003, gaugeZero: 0, tapeZero: 0.001 },
    });
    const own = theoryOf(stated, standIn, 1, 0, 0, 0, 0);
    const slope = (f: (load: number) => number, load: number): number => (f(load + 5) - f(load - 5)) / 10;
    const angle = (load: number): number => settled(standIn, "bow", load).anchor.angle;
    const span = (load: number): number => settled(standIn, "bow", load).span;
    expect(own.uOfAngle(1500)).toBeCloseTo(Math.hypot(0.2 * DEGREE, slope(angle, 1500) * 30), 6);
    expect(own.uOfMovement(1500)).toBeCloseTo(Math.hypot(0.003, slope(span, 1500) * 30), 6);
    expect(own.uOfTapeZero()).toBeCloseTo(Math.hypot(0.001, slope(span, 2000) * 30), 6);
    // Unstated: half a degree, five millimetres, a hundredth of the load; the tape's zero as any movement.
    expect(UNSTATED).toEqual({ angle: 0.5 * DEGREE, movement: 0.005, loadShare: 0.01 });
    const bare = theoryOf(run, standIn, 1, 0, 0, 0, 0);
    expect(bare.uOfAngle(1500)).toBeCloseTo(Math.hypot(0.5 * DEGREE, slope(angle, 1500) * 15), 6);
    expect(bare.uOfMovement(1500)).toBeCloseTo(Math.hypot(0.005, slope(span, 1500) * 15), 6);
    expect(bare.uOfTapeZero()).toBeCloseTo(Math.hypot(0.005, slope(span, 2000) * 20), 6);
    expect([uOfLoad(run, 700), uOfLoad(stated, 700)]).toEqual([7, 30]);
    expect([assumedLoadShare(run), assumedLoadShare(stated)]).toEqual([0.01, null]);
  });
});

describe("readings carried to another rode", () => {
  const rows = (loads: readonly number[]) => loads.map((load) => ({ load, angle: 0.1, liftoff: false }));
  const stated = { load: 20, angle: 0, movement: 0, gaugeZero: 0 };

  it("stand for the loads that pull the other's anchor at the same angle to its bottom", () => {
    const run = runOf({
      readings: rows([2500, 1500, 2500]),
      release: [{ load: 1900, movement: 0 }],
      uncertainty: stated,
    });
    let asked = 0;
    const outcome = carry(run, standIn, afloat, 1, (made, of) => {
      expect(made).toBeLessThanOrEqual(of);
      asked = of;
    });
    expect(outcome.notCarried).toEqual([]);
    expect(outcome.assumedLoadShare).toBeNull();
    // Each load once, in the order read, the release's after.
    expect(outcome.rows.map(({ read }) => read)).toEqual([2500, 1500, 1900]);
    expect(asked).toBe(3 * 4000);
    for (const { read, anchor, bow, anchorAngle, angleToBottom, says, u, sources, spread } of outcome.rows) {
      const there = settled(standIn, "bow", read);
      expect(says).toBe("equal");
      expect(angleToBottom).toBeCloseTo(there.anchor.angleToBottom, 10);
      expect(anchorAngle).toBeCloseTo(there.anchor.angle, 10);
      const here = settled(afloat, "bow", bow);
      expect(here.anchor.angleToBottom).toBeCloseTo(angleToBottom, 8);
      expect(here.anchor.tension / anchor).toBeCloseTo(1, 8);
      // The load alone is uncertain: by it, moved ten newtons either way.
      const at = (load: number) => carry(runOf({ readings: rows([load]) }), standIn, afloat).rows[0]!;
      const [up, down] = [at(read + 10), at(read - 10)];
      expect(u!.bow / Math.abs(up.bow - down.bow)).toBeCloseTo(1, 2);
      expect(u!.anchor / Math.abs(up.anchor - down.anchor)).toBeCloseTo(1, 2);
      expect(sources).toEqual([
        { name: "load read", anchor: expect.any(Number), bow: expect.any(Number), share: expect.closeTo(1, 9) },
      ]);
      expect(Math.abs(sources[0]!.bow)).toBeCloseTo(u!.bow, 9);
      expect(Math.abs(sources[0]!.anchor)).toBeCloseTo(u!.anchor, 9);
      expect(spread).toMatchObject({ draws: 4000, without: 0, lifted: 4000 });
      // 95 of 100 draws lie within about two uncertainties.
      expect((bow - spread!.bow.low!) / u!.bow).toBeGreaterThan(1.7);
      expect((bow - spread!.bow.low!) / u!.bow).toBeLessThan(2.3);
      expect((spread!.anchor.high! - anchor) / u!.anchor).toBeGreaterThan(1.7);
      expect((spread!.anchor.high! - anchor) / u!.anchor).toBeLessThan(2.3);
    }
  });

  it("below lift-off say only that the other's anchor is not lifted either, up to its own lift-off", () => {
    const [row] = carry(runOf({ readings: rows([300]), uncertainty: stated }), standIn, afloat).rows;
    expect(row).toMatchObject({ says: "atMost", angleToBottom: 0, spread: null });
    expect(row!.bow).toBeCloseTo(liftoffLoad(afloat, "bow"), 4);
    expect(row!.anchor).toBeCloseTo(liftoffLoad(afloat, "anchor"), 4);
  });

  it("cannot be where the stand-in does not reach, nor at an angle the other never has", () => {
    const short = rigOf("medium: air, rise: 2.5 m", chain(2));
    expect(carry(runOf({ readings: rows([1500]) }), short, afloat)).toMatchObject({
      rows: [],
      assumedLoadShare: 0.01,
      notCarried: [{ read: 1500, cause: { kind: "noEquilibrium" } }],
    });
    const steep = rigOf("medium: air, rise: 2.5 m", chain(2.6));
    const flat = rigOf("medium: water, depth: 7 m, rollerHeight: 1.2 m", chain(400));
    expect(carry(runOf({ readings: rows([3000]) }), steep, flat).notCarried).toEqual([
      { read: 3000, cause: { kind: "noSuchAngle" } },
    ]);
  });
});

describe("when an anchor first moved", () => {
  type Drags = Parameters<typeof firstMovement>[1];
  type Path = NonNullable<Parameters<typeof firstMovement>[0]>;
  const drag = (from: number, to: number, seenIn: Drags[number]["seenIn"]): Drags[number] =>
    ({
      id: "d",
      from,
      to,
      seenIn,
      load: { value: 1, u: 0 },
      lost: null,
      distance: null,
      why: { kind: "slack" },
    }) as Drags[number];
  const path = (movements: readonly { from: number; to: number; at: number; u: number }[], u = 0.1): Path =>
    ({
      stretches: [{ from: 0, to: 100, direction: { value: 0, u: 0.1, by: "track" } }],
      movements: movements.map(({ from, to, at, u: own }) => ({ from, to, begins: { value: at, u: own } })),
      moved: ({ from }: { from: number }) => ({ value: 0, u: from === 45 ? 2 * u : u, chance: () => 0 }),
    }) as unknown as Path;

  it("is when a person marked it, to a second", () => {
    expect(firstMovement(null, [drag(40, 44, "hand")], false)).toEqual({
      kind: "moved",
      at: { value: 40, u: 1 },
      by: "hand",
      unseen: null,
    });
  });

  it("is when the track began to, as sure as that and as gently as anchors go", () => {
    const found = firstMovement(path([{ from: 50, to: 70, at: 52, u: 1.5 }]), [], true);
    // √(1.5² + 2.5² + (0.15 · 20)²); of half-minutes every fifteen seconds the least sure is 0.2 m: 5.85 times that.
    expect(found).toEqual({
      kind: "moved",
      at: { value: 52, u: expect.closeTo(Math.hypot(1.5, 2.5, 3), 12) },
      by: "track",
      unseen: expect.closeTo(5.85 * 0.2, 12),
    });
  });

  it("is when the load fell quickly there, which tells it better", () => {
    const both = path([{ from: 50, to: 70, at: 52, u: 1.5 }]);
    expect(firstMovement(both, [drag(55, 57, "both")], true)).toMatchObject({ at: { value: 55, u: 2 } });
    // Too far from where the movement began it is one of its own, later: not the first.
    expect(firstMovement(both, [drag(62, 64, "both")], true)).toMatchObject({ at: { value: 52 } });
    // Earlier it is the first.
    expect(firstMovement(both, [drag(20, 26, "both")], true)).toMatchObject({
      at: { value: 20, u: expect.closeTo(Math.hypot(2, 3), 12) },
    });
    expect(firstMovement(both, [drag(20, 32, "movement")], true)).toMatchObject({
      at: { value: 20, u: expect.closeTo(Math.hypot(2.5, 3), 12) },
    });
  });

  it("is not known by the load alone, and none where the track would have shown it", () => {
    expect(firstMovement(null, [drag(30, 31, "load")], false)).toEqual({ kind: "notKnown", why: "noTrack", fell: 30 });
    expect(firstMovement(null, [], true)).toEqual({ kind: "notKnown", why: "noLine", fell: null });
    expect(firstMovement(path([]), [drag(30, 31, "load")], true)).toEqual({
      kind: "notKnown",
      why: "noLine",
      fell: 30,
    });
    expect(firstMovement(path([]), [], true)).toEqual({ kind: "none", unseen: expect.closeTo(5.85 * 0.2, 12) });
    // Never less than a metre, however sure the fixes.
    expect(firstMovement(path([], 0.01), [], true)).toEqual({ kind: "none", unseen: 1 });
  });
});

describe("the marks of what was found", () => {
  it("stand in order of time, each of its kind, with its load and its reason", () => {
    const load = (value: number) => ({ value, u: value / 100 });
    const found = {
      slack: [{ from: 90, to: 95, load: load(10) }],
      plateaus: [{ from: 20, to: 50, load: load(1000), creep: { value: -2, u: 0.1 } }],
      peaks: [
        { at: 60, load: load(1500), alone: false },
        { at: 70, load: load(1600), alone: true },
      ],
      spikes: [{ at: 70, load: load(1600), times: 9 }],
      drags: [{ from: 60, to: 66, load: load(1500), why: { kind: "slack" } }],
      easings: [{ from: 80, to: 82, load: load(700), why: { kind: "peak" } }],
      turns: [{ from: 5, to: 8, turn: 1.2, u: 0.1 }],
      slowLog: true,
    } as unknown as Parameters<typeof automaticMarks>[0];
    const marks = automaticMarks(found);
    expect(marks.map(({ kind, from, to, value, u, of }) => [kind, from, to, value, u, of])).toEqual([
      ["reversal", 5, 8, 1.2, 0.1, "angle"],
      ["plateau", 20, 50, 1000, 10, "force"],
      ["peak", 60, 60, 1500, 15, "force"],
      ["drag", 60, 66, 1500, 15, "force"],
      ["spike", 70, 70, 1600, 16, "force"],
      ["easing", 80, 82, 700, 7, "force"],
      ["slack", 90, 95, 10, 0.1, "force"],
    ]);
    // Half a minute at −2 N/s of 1000 N: −12 % a minute.
    expect(marks[1]!.why).toEqual({ kind: "flat", seconds: 30, perMinute: expect.closeTo(-0.12, 12) });
    expect(marks[4]!.why).toEqual({ kind: "standsAlone", times: 9, slowLog: true });
    expect(marks[0]!.why).toEqual({ kind: "turned", angle: 1.2 });
    expect(new Set(marks.map(({ id }) => id)).size).toBe(7);
  });
});
