/**
 * How fast rodes in a current and with floats are settled and searched, in processor time, beside the same equations by a
 * general integrator (odex) with shooting in both unknowns from where the rode lies in still water, to the same accuracy.
 * Only ratios mean anything.
 *
 *     node --import tsx bench/current.ts
 */
import { createRequire } from "node:module";
import {
  find,
  type LinePart,
  loadSweep,
  match,
  type Part,
  type Pull,
  type Rig,
  settle,
  settleTraced,
} from "../src/rode/index.ts";

/** What is used of odex. It ships its own sources as types, and those do not hold under this project's rules. */
interface Integrator {
  absoluteTolerance: number;
  relativeTolerance: number;
  solve(slopes: (s: number, y: number[]) => number[], from: number, state: number[], to: number): { y: number[] };
}
const { Solver } = createRequire(import.meta.url)("odex") as { Solver: new (size: number) => Integrator };

const WATER = 1025;
const chain: LinePart = {
  kind: "line",
  name: "chain",
  length: 20,
  massPerLength: 2.25,
  density: 7850,
  diameter: 0.01,
  material: "chain",
  stretch: { kind: "linear", stiffness: 5.5e7 },
};
const rope: LinePart = {
  kind: "line",
  name: "rope",
  length: 15,
  massPerLength: 0.12,
  density: 1140,
  diameter: 0.014,
  material: "rope",
  stretch: { kind: "linear", stiffness: 9e4 },
};
const float: Part = { kind: "point", name: "float", mass: 2, density: 200 };

function rig(current: number, rode: readonly Part[], rollerHeight = 1.5): Rig {
  const bottom = { bottomSlope: 0, bottomFriction: 0.7 };
  return {
    name: "rig",
    setting: { medium: "water", depth: 8, rollerHeight, waterDensity: WATER, ...bottom, current },
    rode,
    uncertainty: {},
  };
}

const rigs: readonly (readonly [string, Rig])[] = [
  ["in a current", rig(0.5, [chain, chain, rope])],
  ["with a float", rig(0, [chain, float, chain, rope])],
  ["both", rig(0.5, [chain, float, chain, rope])],
];
const loads = Array.from({ length: 40 }, (_, i): Pull => ({ at: "bow", newtons: 1500 + 60 * i }));

/** Milliseconds of processor time of one of so many calls, after as many to warm up. */
function time(times: number, each: (i: number) => unknown): number {
  for (let i = 0; i < times; i++) each(i);
  const start = process.cpuUsage().user;
  for (let i = 0; i < times; i++) each(i);
  return (process.cpuUsage().user - start) / 1e3 / times;
}

/** A rode of chain alone, all of it lifted, under a horizontal force at the bow: by integration, shot at the bow's height and force. */
function shoot(current: number, newtons: number): number {
  const diameter = 0.01;
  const [across, along] = [2.4, 1.15].map((c) => 0.5 * WATER * diameter * c * current * Math.abs(current)) as [
    number,
    number,
  ];
  const weight = 9.80665 * 2.25 * (1 - WATER / 7850);
  const end = (H: number, V: number): readonly number[] => {
    const solver = new Solver(4);
    solver.absoluteTolerance = 1e-12;
    solver.relativeTolerance = 1e-12;
    const slopes = (_: number, y: number[]): number[] => {
      const T = Math.hypot(y[2]!, y[3]!);
      const [cos, sin] = [y[2]! / T, y[3]! / T];
      const stretch = 1 + T / 5.5e7;
      const [n, t] = [across * Math.abs(sin) * sin, along * Math.abs(cos) * cos];
      return [stretch * cos, stretch * sin, -stretch * (n * sin + t * cos), weight - stretch * (t * sin - n * cos)];
    };
    return solver.solve(slopes, 0, [0, 0, H, V], 20).y;
  };
  const still = settle(rig(0, [chain], 0), { at: "horizontal", newtons });
  if (still.kind !== "settled" || still.grounded > 0) throw new Error("a lifted rode is expected");
  let H = newtons;
  let V = newtons * Math.tan(still.anchor.angle);
  for (let turn = 0; turn < 12; turn++) {
    const at = end(H, V);
    const [f, g] = [at[1]! - 8, at[2]! / newtons - 1];
    if (Math.abs(f) < 1e-11 && Math.abs(g) < 1e-12) return at[0]!;
    const h = 1e-6;
    const [byH, byV] = [end(H * (1 + h), V), end(H, V * (1 + h))];
    const [fH, gH] = [(byH[1]! - at[1]!) / (h * H), (byH[2]! - at[2]!) / newtons / (h * H)];
    const [fV, gV] = [(byV[1]! - at[1]!) / (h * V), (byV[2]! - at[2]!) / newtons / (h * V)];
    const det = fH * gV - fV * gH;
    H -= (f * gV - g * fV) / det;
    V -= (g * fH - f * gH) / det;
  }
  return Number.NaN;
}

for (const [name, own] of rigs) {
  const alone = time(10 * loads.length, (i) => settle(own, loads[i % loads.length]!));
  let near = settleTraced(own, loads[0]!);
  const beside = time(10 * loads.length, (i) => {
    near = settleTraced(own, loads[i % loads.length]!, "settled" in near ? near.near : undefined);
  });
  const [pull, other] = [{ at: "bow", newtons: 2500 } as const, rigs[0]![1]];
  const goal = { goal: "angleToBottom", angle: 0.06 } as const;
  const load = time(20, () => find(own, { unknown: { what: "pull" }, goal, pull }));
  const length = time(20, () => find(own, { unknown: { what: "length", part: 1 }, goal, pull }));
  const matched = time(20, () => match(own, other, pull));
  const row = time(5, () => loadSweep(own, loads)) / loads.length;
  process.stdout.write(
    `${name.padEnd(13)} settle ${alone.toFixed(2)} ms, from one near ${beside.toFixed(2)} ms; find a load ${load.toFixed(1)} ms, a length ${length.toFixed(1)} ms; match ${matched.toFixed(1)} ms; a row of a load sweep ${row.toFixed(2)} ms\n`,
  );
}
const lifted = rig(0.5, [chain], 0);
const ours = time(600, (i) => settle(lifted, { at: "horizontal", newtons: 2000 + i }));
const theirs = time(100, (i) => shoot(0.5, 2000 + i));
const settled = settle(lifted, { at: "horizontal", newtons: 2000 });
const apart = settled.kind === "settled" ? Math.abs(shoot(0.5, 2000) / settled.span - 1) : Number.NaN;
process.stdout.write(
  `one chain in a current: ${(theirs / ours).toFixed(0)} times as fast as shooting by odex (${theirs.toFixed(1)} ms), spans ${apart.toExponential(1)} apart\n`,
);
