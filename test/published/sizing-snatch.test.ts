import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import { endForcesOf, type Rig } from "../../src/rode/index.ts";
import { snatchByEnergy } from "../../src/sizing/index.ts";
import { allChain, kelleted, mixed, rigOf, rubbing, straightRope } from "../sizing/rigs.ts";

// An independent integration of the same spring: the boat's motion m x″ = H₀ − H(x) in time, by velocity Verlet and by
// odex (Hairer's extrapolation code, a kept library), until it stops. Nothing of it knows of energy.

interface Odex {
  Solver: new (
    n: number,
  ) => {
    absoluteTolerance: number;
    relativeTolerance: number;
    solve(f: (t: number, y: number[]) => number[], t0: number, y0: number[], t1: number): { y: number[] };
  };
}
const { Solver } = createRequire(import.meta.url)("odex") as Odex;

function springAt(rig: Rig): (x: number) => number {
  const endForces = endForcesOf(rig);
  return (metres) => {
    const seen = endForces({ at: "span", metres });
    if (seen === null) throw new Error(`no equilibrium at ${metres} m`);
    return seen.horizontal;
  };
}

/** Force where the boat stops, by velocity Verlet with a parabola through the turning point. */
function byVerlet(rig: Rig, mean: number, x0: number, speed: number, mass: number, steps: number): number {
  const force = springAt(rig);
  let [x, v] = [x0, speed];
  let a = 0;
  // The boat stops within the time it takes to cross the give at half its speed, roughly: a step is a small share of that.
  const h = 1 / steps;
  for (let i = 0; i < 100 * steps; i++) {
    const half = v + 0.5 * h * a;
    const next = x + h * half;
    const aNext = (mean - force(next)) / mass;
    const vNext = half + 0.5 * h * aNext;
    if (vNext <= 0) {
      const share = v / (v - vNext);
      // v falls by the mean of both decelerations over the step; the peak lies v²/2|a| beyond.
      return force(x + v * share * h + 0.5 * a * (share * h) ** 2);
    }
    [x, v, a] = [next, vNext, aNext];
  }
  throw new Error("the boat did not stop");
}

/** The same by odex: integrated in small stretches of time, the turning point closed by bisection in time. */
function byOdex(rig: Rig, mean: number, x0: number, speed: number, mass: number): number {
  const force = springAt(rig);
  const solver = new Solver(2);
  solver.absoluteTolerance = 1e-11;
  solver.relativeTolerance = 1e-11;
  const moved = (from: number[], time: number): number[] =>
    solver.solve((_, y) => [y[1]!, (mean - force(y[0]!)) / mass], 0, from, time).y;
  let y = [x0, speed];
  const dt = 0.05;
  for (let t = 0; t < 100; t += dt) {
    const next = moved(y, dt);
    if (next[1]! <= 0) {
      let [low, high] = [0, dt];
      for (let i = 0; i < 40; i++) {
        const middle = 0.5 * (low + high);
        if (moved(y, middle)[1]! > 0) low = middle;
        else high = middle;
      }
      return force(moved(y, low || 1e-12)[0]!);
    }
    y = next;
  }
  throw new Error("the boat did not stop");
}

const cases: [string, Rig, number, number, number][] = [
  ["all chain", allChain, 900, 0.35, 8000],
  ["chain, kellet and rope", mixed, 800, 0.6, 8000],
  ["a kellet between ropes", kelleted, 600, 0.8, 5000],
  ["chain with friction", rubbing, 900, 0.35, 8000],
  ["a light straight rope", straightRope, 700, 0.5, 3000],
];

describe("snatch by energy equals an independent integration of the boat's motion", () => {
  it.each(cases)("velocity Verlet: %s", (_, rig, mean, speed, mass) => {
    const found = snatchByEnergy(rig, { at: "horizontal", newtons: mean }, { kind: "speed", speed, mass });
    if (found.kind !== "snatch") throw new Error(found.kind);
    const [coarse, fine] = [2000, 4000].map((steps) => byVerlet(rig, mean, found.mean.span, speed, mass, steps)) as [
      number,
      number,
    ];
    // Second order: halving the step leaves about a quarter of the error; the finer one is good to about their distance.
    expect(Math.abs(fine / found.peak.horizontal - 1)).toBeLessThan(2e-5);
    expect(Math.abs(fine - coarse)).toBeLessThan(2e-4 * fine);
  });

  it.each(cases.slice(0, 3))("odex: %s", (_, rig, mean, speed, mass) => {
    const found = snatchByEnergy(rig, { at: "horizontal", newtons: mean }, { kind: "speed", speed, mass });
    if (found.kind !== "snatch") throw new Error(found.kind);
    // The spring's corners (touchdown, bands of the rope's curve) hold the extrapolation to about this.
    expect(Math.abs(byOdex(rig, mean, found.mean.span, speed, mass) / found.peak.horizontal - 1)).toBeLessThan(1e-6);
  });
});

describe("snatch of a linear spring, closed form", () => {
  it("adds v √(k m) to a mean load on a spring that stays straight", () => {
    // A weightless level line in air with a rise near nothing: H = EA (x/L − 1), k = EA/L.
    const rig = rigOf(
      "medium: air, rise: 1 mm",
      "line: { length: 20 m, massPerLength: 1e-6 kg/m, density: 1140, stiffness: 40 kN }",
    );
    const [speed, mass] = [0.7, 6000];
    const found = snatchByEnergy(rig, { at: "horizontal", newtons: 1500 }, { kind: "speed", speed, mass });
    if (found.kind !== "snatch") throw new Error(found.kind);
    // Textbook: ½ m v² = ½ k a² about the place where the steady load holds it. Rise and weight move this by parts in 1e6.
    expect(found.peak.horizontal / (1500 + speed * Math.sqrt((40e3 / 20) * mass))).toBeCloseTo(1, 5);
  });
});
