import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { catalogue, type LineLoop, merge, readCatalogue } from "../../src/gear/index.ts";
import {
  atRest,
  BOW_TENSION,
  cutIntoElements,
  END_SLOTS,
  endForces,
  generalisedAlpha,
  ledBow,
  quieten,
  step,
  surroundingsOf,
} from "../../src/motion/index.ts";
import { readRig, rigToFile, settleTraced } from "../../src/rode/index.ts";
import { inAir, lineRig, placed } from "./lines.ts";

const [EA, L] = [1e4, 10];
const k = EA / L;

/** Steps of a light line whose end is led to and fro by a about 1 m beyond its length; tension over stretch in the last cycle. */
function worked(loop: LineLoop, a: number, omega: number, cycles: number): { stretch: number[]; tension: number[] } {
  const rig = lineRig({ length: L, massPerLength: 1e-9, stretch: { kind: "linear", stiffness: EA }, loop });
  const { state } = placed(rig, 1, { ...inAir, gravity: 0 }, (s) => [s === 0 ? 0 : L + 1, 0, 0]);
  const bow = ledBow((t, p, v, acceleration) => {
    p.set([L + 1 + a * Math.sin(omega * t), 0, 0]);
    v.set([a * omega * Math.cos(omega * t), 0, 0]);
    acceleration.set([-a * omega * omega * Math.sin(omega * t), 0, 0]);
  });
  const steps = 400;
  const h = (2 * Math.PI) / omega / steps;
  const [stretch, tension]: [number[], number[]] = [[], []];
  for (let n = 0; n < cycles * steps; n++) {
    expect(step(state, bow, generalisedAlpha(0.9), h)).toBe(true);
    if (n < (cycles - 1) * steps) continue;
    stretch.push(state.at[3]! - L);
    tension.push(state.tension[0]!);
  }
  return { stretch, tension };
}

/** ∮ T dx of a closed cycle. */
function lost({ stretch, tension }: { stretch: number[]; tension: number[] }): number {
  let sum = 0;
  for (let n = 0; n < stretch.length; n++) {
    const m = (n + 1) % stretch.length;
    sum += 0.5 * (tension[n]! + tension[m]!) * (stretch[m]! - stretch[n]!);
  }
  return sum;
}

describe("the loop of a rope", () => {
  const a = 0.2;

  // Small cycles of the Kelvin–Voigt and the standard linear solid (any text on viscoelasticity; computed here by hand):
  // loss stiffness k ωt, and k r ωt/(1 + ω²t²); ∮ T dx = π k″ a². The step is a 400th of the period: (2π/400)² and to spare.
  it.each([0.5, 2])("loses π k ωt a² a cycle where it is viscous (ω = %d)", (omega) => {
    const t = 0.1;
    expect(lost(worked({ kind: "viscous", time: t }, a, omega, 2)) / (Math.PI * k * omega * t * a * a)).toBeCloseTo(
      1,
      3,
    );
  });

  it.each([0.3, 1, 4])("loses π k r ωt/(1 + ω²t²) a² a cycle where it is Maxwell's (ωt = %d)", (ratio) => {
    const [stiffer, time] = [0.25, 2];
    const cycle = worked({ kind: "maxwell", stiffer, time }, a, ratio / time, 12);
    expect(lost(cycle) / ((Math.PI * k * stiffer * ratio * a * a) / (1 + ratio ** 2))).toBeCloseTo(1, 3);
  });

  it("worked much quicker than its time is stiffer by its share", () => {
    const { stretch, tension } = worked({ kind: "maxwell", stiffer: 0.25, time: 0.2 }, a, 200, 60);
    const range = (of: number[]): number => Math.max(...of) - Math.min(...of);
    // In phase k (1 + r · 1600/1601), out of phase k r · 40/1601, whose square hardly counts.
    expect(range(tension) / range(stretch) / k).toBeCloseTo(1.25, 3);
  });

  it("never pushes, however quickly it is let go", () => {
    for (const loop of [
      { kind: "viscous", time: 1 },
      { kind: "maxwell", stiffer: 2, time: 1 },
    ] as const)
      expect(Math.min(...worked(loop, 1.5, 3, 3).tension)).toBe(0);
  });

  it("changes nothing at rest: the loads are those of `settle`", () => {
    const text = readFileSync("data/demo/marsh-tern-nylon.yaml", "utf8");
    const rig = readRig(text.replace(/(rope: \{)/, "$1 loop: { maxwell: { stiffer: 20 %, time: 1 s } },"), "rig");
    expect(rig.rode.some((part) => part.kind === "line" && part.loop !== undefined)).toBe(true);
    const traced = settleTraced(rig, { at: "horizontal", newtons: 1500 });
    if (!("settled" in traced)) throw new Error(traced.cause);
    const state = atRest(traced, cutIntoElements(rig, 100, 1500), surroundingsOf(rig));
    expect(quieten(state, 1e-8)).toBe(true);
    const ends = new Float64Array(END_SLOTS);
    endForces(state, ends);
    // A hundred straight elements hang within 1e-4 of the curve, as without a loop.
    expect(ends[BOW_TENSION]! / traced.settled.bow.tension).toBeCloseTo(1, 4);
  });
});

describe("a loop in a rig file", () => {
  it("is written back as it was read", () => {
    for (const loop of ["{ viscous: 0.1 s }", "{ maxwell: { stiffer: 20 %, time: 1500 ms } }"]) {
      const once = readRig(rig(loop), "rig");
      expect(readRig(rigToFile(once), "rig").rode).toEqual(once.rode.map((part) => expect.objectContaining(part)));
    }
  });

  it("goes before that of the rope's row, which stands where the rig states none", () => {
    const row = (loop: string): string =>
      `format: rodebench/gear@1\nrows:\n  - rope: { fibre: polyamide, lay: three-strand, diameter: 14 mm, massPerLength: 0.12 kg/m, density: 1140 kg/m3, breakingLoad: 30 kN, loop: ${loop} }`;
    const { catalogue: own } = merge(catalogue, readCatalogue(row("{ viscous: 0.2 s }"), "own.yaml"));
    const loopOf = (text: string): unknown =>
      readRig(text, "rig", own).rode.flatMap((part) => (part.kind === "line" && part.loop ? [part.loop] : []));
    expect(loopOf(readFileSync("data/demo/marsh-tern-nylon.yaml", "utf8"))).toEqual([{ kind: "viscous", time: 0.2 }]);
    expect(loopOf(rig("{ viscous: 0.1 s }"))).toEqual([{ kind: "viscous", time: 0.1 }]);
    expect(() => readCatalogue(row("{ viscous: 2 kg }"), "own.yaml")).toThrow(/loop\.viscous: .*2 kg/);
  });

  const rig = (loop: string): string =>
    readFileSync("data/demo/marsh-tern-nylon.yaml", "utf8").replace(/(rope: \{)/, `$1 loop: ${loop},`);

  it.each([
    ["{ viscous: 3 m }", /rode #2\.rope\.loop\.viscous: .*3 m.* is a length/],
    ["{ viscous: 0 s }", /rode #2\.rope\.loop\.viscous: .*a time above zero, at most an hour/],
    ["{ maxwell: { stiffer: -5 %, time: 1 s } }", /rode #2\.rope\.loop\.maxwell\.stiffer: .*a share above zero/],
    ["{ maxwell: { time: 1 s } }", /rode #2\.rope\.loop/],
    ["{ thick: 1 s }", /rode #2\.rope\.loop: .*a loop is expected/],
  ])("that is %s is refused in one line", (loop, expected) => {
    expect(() => readRig(rig(loop), "rig")).toThrow(expected);
  });
});
