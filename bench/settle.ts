/**
 * How fast `settle` is, beside two things that mean something, in one run:
 *  (a) the same algorithm in C (bench/settle.c), compiled with -O3 where gcc is present: what the language costs;
 *  (b) a general integrator (odex) with shooting, to the accuracy settle has (1e-12): what the closed forms save.
 * Times are of the processor, not of the clock, so that a busy machine does not tell lies. Only ratios mean anything.
 *
 *     node --import tsx --expose-gc bench/settle.ts
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { type CompiledRode, compile, type Rig } from "../src/rode/index.ts";
import { solveStated } from "../src/rode/solve.ts";
import {
  SOLVED,
  STATED_ANCHOR,
  STATED_BOW,
  STATED_HORIZONTAL,
  solution,
  stated,
  TARGET,
} from "../src/rode/solve-state.ts";

/** What is used of odex. It ships its own sources as types, and those do not hold under this project's rules. */
interface Integrator {
  absoluteTolerance: number;
  relativeTolerance: number;
  solve(slopes: (s: number, y: number[]) => number[], from: number, state: number[], to: number): { y: number[] };
}
const { Solver } = createRequire(import.meta.url)("odex") as { Solver: new (size: number) => Integrator };

const here = dirname(fileURLToPath(import.meta.url));

/** Chain at rest in part, rope, and a snubber that rises through the surface: every branch of the common case. */
const rig: Rig = {
  name: "three parts",
  setting: {
    medium: "water",
    depth: 8,
    rollerHeight: 1.5,
    waterDensity: 1025,
    bottomSlope: 0,
    bottomFriction: 0.7,
    current: 0,
  },
  rode: [
    {
      kind: "line",
      name: "chain",
      length: 40,
      massPerLength: 2.25,
      density: 7850,
      stretch: { kind: "linear", stiffness: 5.5e7 },
    },
    {
      kind: "line",
      name: "rope",
      length: 15,
      massPerLength: 0.12,
      density: 1140,
      stretch: { kind: "linear", stiffness: 9e4 },
    },
    {
      kind: "line",
      name: "snubber",
      length: 9,
      massPerLength: 0.12,
      density: 1140,
      stretch: { kind: "linear", stiffness: 6e4 },
    },
  ],
  uncertainty: {},
};
const rode = compile(rig);
const LOADS = { from: 600, step: 0.3, count: 1000 };
const KINDS = [
  ["horizontal force", STATED_HORIZONTAL],
  ["load at the bow", STATED_BOW],
  ["load at the anchor", STATED_ANCHOR],
] as const;

/** Nanoseconds of processor time a settle, and a sum of the answers, so that nothing is optimised away. */
function timeOurs(kind: number, times: number): { ns: number; sum: number } {
  let sum = 0;
  const start = process.cpuUsage().user;
  for (let i = 0; i < times; i += LOADS.count) sum += settleEach(kind);
  return { ns: ((process.cpuUsage().user - start) * 1e3) / times, sum };
}

/**
 * Settles every load once. A function of its own that is called often: a loop that is compiled while it runs may put a
 * number of its own on the heap in every turn, and that would be counted as settle's.
 */
function settleEach(kind: number): number {
  let sum = 0;
  for (let i = 0; i < LOADS.count; i++) {
    stated[TARGET] = LOADS.from + LOADS.step * i;
    if (solveStated(rode, kind) !== SOLVED) throw new Error("unsettled");
    sum += solution[0]! + solution[1]!;
  }
  return sum;
}

/** The compiled rode as the C program reads it. */
function asText(c: CompiledRode, kind: number, times: number): string {
  const arrays = [c.isLine, c.length, c.low, c.high, c.firstBand, c.bandLoad, c.bandStrain, c.bandCompliance];
  const numbers = [c.totalLength, c.totalLow, c.rise, c.surface, c.sinSlope, c.cosSlope, c.tanSlope, c.restDrag];
  return [
    c.count,
    ...arrays.flatMap((array) => [...array]),
    ...numbers,
    kind,
    LOADS.from,
    LOADS.step,
    LOADS.count,
    times,
  ].join(" ");
}

/** Settles a horizontal force the general way: integrate the equations up from the touchdown, shoot for the rise. */
function settleByShooting(H: number): number {
  const ends = (excess: number): number => {
    let state = [0, 0, 0];
    let offset = -excess / rode.low[0]!;
    for (let part = 0; part < rode.count; part++) {
      const left = rode.length[part]! - offset;
      const compliance = rode.bandCompliance[part]!;
      const slopes = (_s: number, y: number[]) => {
        const V = y[2]!;
        const T = Math.sqrt(H * H + V * V);
        const stretch = (1 + compliance * T) / T;
        return [stretch * H, stretch * V, y[1]! < rode.surface ? rode.low[part]! : rode.high[part]!];
      };
      const solver = new Solver(3);
      solver.absoluteTolerance = 1e-12;
      solver.relativeTolerance = 1e-12;
      state = solver.solve(slopes, 0, state, left).y;
      offset = 0;
    }
    return state[1]! - rode.rise;
  };
  let a = -0.9 * rode.low[0]! * rode.length[0]!;
  let b = -0.05 * rode.low[0]! * rode.length[0]!;
  let fa = ends(a);
  let fb = ends(b);
  for (let i = 0; i < 60 && Math.abs(fb) > 1e-11; i++) {
    const next = b - (fb * (b - a)) / (fb - fa);
    a = b;
    fa = fb;
    b = next;
    fb = ends(b);
  }
  return b;
}

function main(): void {
  process.stdout.write("settle, three-part elastic rode with resting chain, processor time\n");
  for (const [, kind] of KINDS) timeOurs(kind, 300_000);

  const folder = mkdtempSync(join(tmpdir(), "rodebench-bench-"));
  const program = join(folder, "settle");
  const compiled = spawnSync("gcc", ["-O3", "-o", program, join(here, "settle.c"), "-lm"], { encoding: "utf8" });
  const TIMES = 1_000_000;
  for (const [name, kind] of KINDS) {
    const ours: number[] = [];
    const theirs: number[] = [];
    let sums = "";
    for (let round = 0; round < 5; round++) {
      const mine = timeOurs(kind, TIMES);
      ours.push(mine.ns);
      if (compiled.status !== 0) continue;
      const c = spawnSync(program, { input: asText(rode, kind, TIMES), encoding: "utf8" });
      const [ns, sum] = c.stdout.split(" ").map(Number) as [number, number];
      theirs.push(ns);
      sums =
        Math.abs(sum - mine.sum) <= 1e-9 * Math.abs(mine.sum)
          ? "same answers"
          : `answers differ: ${sum} and ${mine.sum}`;
    }
    const mine = middle(ours);
    const beside =
      theirs.length === 0
        ? "no gcc here"
        : `C -O3 ${middle(theirs).toFixed(0)} ns, ${(middle(theirs) / mine).toFixed(2)} of C's speed, ${sums}`;
    process.stdout.write(`  ${name.padEnd(20)} ${mine.toFixed(0)} ns a settle; ${beside}\n`);
  }
  rmSync(folder, { recursive: true, force: true });

  const shots = 200;
  let sum = 0;
  for (let i = 0; i < 20; i++) sum += settleByShooting(700 + i);
  const start = process.cpuUsage().user;
  for (let i = 0; i < shots; i++) sum += settleByShooting(700 + 0.3 * i);
  const shooting = ((process.cpuUsage().user - start) * 1e3) / shots;
  stated[TARGET] = 700;
  solveStated(rode, STATED_HORIZONTAL);
  const apart = Math.abs(settleByShooting(700) - solution[1]!) / Math.abs(solution[1]!);
  const mine = timeOurs(STATED_HORIZONTAL, TIMES).ns;
  process.stdout.write(
    `  by shooting (odex)   ${(shooting / 1e3).toFixed(0)} µs a settle: settle is ${(shooting / mine).toFixed(0)} times as fast, answers ${apart.toExponential(1)} apart (${Number.isFinite(sum)})\n`,
  );

  if (globalThis.gc !== undefined) {
    for (const [name, kind] of KINDS) {
      globalThis.gc();
      const before = process.memoryUsage().heapUsed;
      timeOurs(kind, TIMES);
      const grown = process.memoryUsage().heapUsed - before;
      process.stdout.write(
        `  ${name.padEnd(20)} heap grown over ${TIMES} settles without a collection between: ${grown} bytes, ${(grown / TIMES).toFixed(3)} a settle\n`,
      );
    }
  } else {
    process.stdout.write("  run with --expose-gc to see what a settle allocates\n");
  }
}

function middle(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

main();
