/** The searches that stand behind Newton's, asked where he needs none of them: each finds what he finds. */
import { describe, expect, it } from "vitest";
import { compile } from "../../src/rode/compile.ts";
import type { Cursor } from "../../src/rode/contact/cursor.ts";
import { dragStepper } from "../../src/rode/contact/drag-stepper.ts";
import type { LinePart, PointPart, Rig } from "../../src/rode/index.ts";
import { drawsOf, isUneven, settlesFast } from "../../src/rode/index.ts";
import { solve } from "../../src/rode/solve.ts";
import { solveBracketed } from "../../src/rode/solve-bracketed.ts";
import { JUMPS, SOLVED, STATED_ANCHOR, STATED_BOW, STATED_SPAN, solution, state } from "../../src/rode/solve-state.ts";
import { sweepExcess } from "../../src/rode/sweep-excess.ts";
import { sweepForce } from "../../src/rode/sweep-force.ts";
import { rigInWater } from "./rig-in-water.ts";

const line = (more: Partial<LinePart>): LinePart => ({
  kind: "line",
  name: "line",
  length: 30,
  massPerLength: 2.3,
  density: 7850,
  diameter: 0.01,
  stretch: { kind: "linear", stiffness: 2e5 },
  ...more,
});
const kellet: PointPart = { kind: "point", name: "kellet", mass: 15, density: 7850 };
const rope = line({
  length: 12,
  massPerLength: 0.2,
  density: 1140,
  stretch: {
    kind: "curve",
    points: [
      [0.02, 900],
      [0.3, 60_000],
    ],
  },
});
const rigs: readonly (readonly [string, Rig])[] = [
  ["of chain", rigInWater([line({ stretch: { kind: "rigid" } })])],
  ["of chain that rubs", rigInWater([line({})], { bottomFriction: 0.7 })],
  ["of chain, a kellet and rope", rigInWater([line({ length: 15 }), kellet, rope], { bottomFriction: 0.4 })],
  ["down a bottom that falls and rubs", rigInWater([line({}), rope], { bottomSlope: -0.06, bottomFriction: 0.5 })],
];

describe.each(rigs)("a rode %s", (_, of) => {
  const rode = compile(of);
  // Far below lift-off, near it and far above; for a span, slack, half straight and nearly straight.
  const length = of.rode.reduce((sum, part) => sum + (part.kind === "line" ? part.length : 0), 0);
  const straight = Math.sqrt(length ** 2 - 64);
  it.each([
    ["bow", STATED_BOW, [250, 900, 5000, 30_000]],
    ["anchor", STATED_ANCHOR, [150, 900, 5000, 30_000]],
    ["span", STATED_SPAN, [straight - 4, straight - 0.5, straight - 0.05]],
  ] as const)("under what is stated at the %s", (_at, kind, targets) => {
    for (const target of targets) {
      expect(solve(rode, kind, target)).toBe(SOLVED);
      const found = [...solution, ...state.subarray(0, 8)];
      const searches: [string, () => boolean][] = [
        ["bracketed", () => solveBracketed(rode, kind, target) === SOLVED],
        // Made for loads at the ends.
        ...(kind === STATED_SPAN
          ? []
          : [["excess by excess", () => sweepExcess(rode, kind, target) === SOLVED] as [string, () => boolean]]),
        ["force by force", () => sweepForce(rode, kind, target)],
      ];
      for (const [name, search] of searches) {
        solution.fill(Number.NaN);
        state.fill(Number.NaN);
        expect(search(), `${name}, ${target}`).toBe(true);
        // Each ends on both equations within some roundings; what rests is felt by friction alone.
        [...solution, ...state.subarray(0, 8)].forEach((value, i) => {
          expect(Math.abs(value - found[i]!), `${name}, ${target}, ${i}`).toBeLessThan(
            1e-8 * (1 + Math.abs(found[i]!)),
          );
        });
      }
    }
  });
});

it("up a bottom that rises one excess may have several forces: that search is not for it", () => {
  expect(sweepExcess(compile(rigInWater([line({})], { bottomSlope: 0.05 })), STATED_BOW, 900)).toBe(JUMPS);
});

describe("a step along a rode in a current", () => {
  const of = rigInWater([line({ length: 15 }), rope], { current: 1.2 });
  const rode = compile(of);
  const from: Cursor = { part: 0, offset: 2, x: 1, z: 0.5, H: 800, V: 120, inAir: false };
  it("is worked out anew wherever it begins elsewhere in any way", () => {
    const others: Cursor[] = [
      { ...from, part: 1 },
      { ...from, offset: 3 },
      { ...from, x: 2 },
      { ...from, z: 0.7 },
      { ...from, H: 900 },
      { ...from, V: 100 },
      { ...from, inAir: true },
    ];
    for (const other of others) {
      const stepped = dragStepper(rode, of);
      stepped.at(from, 0.4, { ...from });
      const [again, fresh] = [{ ...from }, { ...from }];
      stepped.at(other, 0.4, again);
      dragStepper(rode, of).at(other, 0.4, fresh);
      expect(again).toEqual(fresh);
      expect(fresh).toMatchObject({ part: other.part, inAir: other.inAir, offset: other.offset + 0.4 });
      stepped.at(other, 0.5, again);
      dragStepper(rode, of).at(other, 0.5, fresh);
      expect(again).toEqual(fresh);
      expect(fresh.offset).toBe(other.offset + 0.5);
    }
  });
});

describe("a step along a rode whose stretch law has corners", () => {
  const corners = [900, 1000, 1100] as const;
  const bent = line({
    ...{ length: 200, drag: { across: 0.1, along: 0.05 } },
    stretch: {
      kind: "curve",
      points: [
        [0.02, 900],
        [0.03, 1000],
        [0.05, 1100],
        [0.06, 9000],
      ],
    },
  });
  it.each([1.2, -1.2])("ends where the tension meets one, in %d m/s", (current) => {
    const of = rigInWater([bent], { current });
    const stepper = dragStepper(compile(of), of);
    for (const corner of corners)
      for (const share of [0.97, 1.03]) {
        // Up through a corner, and down through it where the line still sinks: its weight changes the pull by more.
        const T = corner * share;
        for (const angle of [0.4, -0.4]) {
          const from: Cursor = {
            ...{ part: 0, offset: 0, x: 0, z: 0, inAir: false },
            H: T * Math.cos(angle),
            V: T * Math.sin(angle),
          };
          const end = { ...from };
          const reached = stepper.reach(from, 150);
          stepper.at(from, reached, end);
          const loads = [T, Math.hypot(end.H, end.V)].sort((a, b) => a - b) as [number, number];
          // No corner lies within the step, at its ends at most, within the rounding of 150 m.
          for (const load of corners) expect(load > loads[0] + 1e-8 && load < loads[1] - 1e-8).toBe(false);
          if (Math.abs(Math.hypot(end.H, end.V) - corner) < 1e-8) met.add(`${corner} ${share}`);
        }
      }
  });
  const met = new Set<string>();
  it("each of them is met, from below and from above", () =>
    expect([...met].sort()).toEqual(
      corners.flatMap((corner) => [0.97, 1.03].map((share) => `${corner} ${share}`)).sort(),
    ));
});

it("closed forms settle what has no float and no current, stated or doubted", () => {
  const plain = rigInWater([line({})]);
  expect(settlesFast(plain)).toBe(true);
  expect(settlesFast({ ...plain, uncertainty: { rise: 0.2, massPerLength: 0.03 } })).toBe(true);
  expect(settlesFast(rigInWater([line({})], { current: -0.1 }))).toBe(false);
  expect(settlesFast({ ...plain, uncertainty: { current: 0.1 } })).toBe(false);
  expect(settlesFast(rigInWater([line({}), { ...kellet, density: 150 }, line({})]))).toBe(false);
  expect(settlesFast(rigInWater([line({}), line({ density: 900 })]))).toBe(false);
});

it("what closed forms settle is drawn four thousand times, what is stepped along a thousand", () => {
  expect(drawsOf(rigInWater([line({})]))).toBe(4000);
  expect(drawsOf(rigInWater([line({})], { current: 0.5 }))).toBe(1000);
});

describe("what draws say is another thing than value ± u", () => {
  // 1.96 u is 98 either side of 1000; a tenth of that, or of the drawn half-width where that is more, is let pass.
  it.each([
    [902, 1098, false],
    [893, 1098, false],
    [891, 1098, true],
    [911, 1098, false],
    [912, 1098, true],
    [902, 1107, false],
    [902, 1109, true],
    [902, 1089, false],
    [902, 1088, true],
    [null, 1098, true],
    [902, null, true],
  ])("where 95 of 100 lie between %j and %j: %j", (low, high, uneven) => {
    expect(isUneven(1000, 50, { low, high })).toBe(uneven);
  });
  it("of a value nobody is unsure of, where they lie off it by more than rounding", () => {
    expect(isUneven(1000, 0, { low: 1000, high: 1000 })).toBe(false);
    expect(isUneven(-1000, 0, { low: -1000 - 1e-7, high: -1000 })).toBe(false);
    expect(isUneven(1000, 0, { low: 999, high: 1001 })).toBe(true);
  });
});
