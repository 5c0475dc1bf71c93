/** What the motion may not know: which way it goes in the plane. And small states whose forces are worked out here. */
import { describe, expect, it } from "vitest";
import { assembleForces } from "../../src/motion/forces.ts";
import {
  atRest,
  type Bow,
  bodyBow,
  cutIntoElements,
  END_SLOTS,
  endForces,
  generalisedAlpha,
  ledBow,
  type RodeState,
  rodeState,
  step,
  surroundingsOf,
} from "../../src/motion/index.ts";
import { type Rig, readRig, settleTraced, shapeOf } from "../../src/rode/index.ts";
import { inAir, lineRig, placed } from "./lines.ts";

const rigOf = (...rode: string[]): Rig =>
  readRig(
    `format: rodebench/rig@1\nsetting: { medium: water, depth: 8 m, rollerHeight: 1.5 m, bottomFriction: 0.6 }\nrode:\n${rode.map((part) => `  - ${part}\n`).join("")}`,
    "rig",
  );
const rig = rigOf(
  'chain: { grade: "30", size: 10 mm, length: 40 m }',
  "weight: { mass: 12 kg, density: 7850 }",
  "rope: { fibre: polyamide, lay: three-strand, diameter: 16 mm, length: 12 m }",
);
function begun(of: Rig, elements: number, newtons: number) {
  const traced = settleTraced(of, { at: "horizontal", newtons });
  if (!("settled" in traced)) throw new Error(traced.cause);
  return { traced, state: atRest(traced, cutIntoElements(of, elements, newtons), surroundingsOf(of)) };
}
/** Every place and speed turned about the upright through the anchor. */
function turn(list: Float64Array, by: number): void {
  const [c, s] = [Math.cos(by), Math.sin(by)];
  for (let i = 0; i + 1 < list.length; i += 3) {
    const [x, y] = [list[i]!, list[i + 1]!];
    list[i] = c * x - s * y;
    list[i + 1] = s * x + c * y;
  }
}

describe("a moving rode", () => {
  /** A mass on the rode, thrown away from the anchor and to the side, so that everything moves in three directions. */
  function thrown(by: number): { state: RodeState; ends: Float64Array } {
    const { state } = begun(rig, 16, 700);
    for (const list of [state.place, state.grip, state.q]) turn(list, by);
    const [along, aside] = [0.9, 0.8];
    const [c, s] = [Math.cos(by), Math.sin(by)];
    state.qRate.set([c * along - s * aside, s * along + c * aside, 0]);
    const bow: Bow = bodyBow({
      mass: [3000, 3000, Number.POSITIVE_INFINITY],
      force: (_q, _rate, _t, out) => out.set([c * 700, s * 700, 0]),
    });
    const method = generalisedAlpha(0.3);
    for (let k = 0; k < 60; k++) expect(step(state, bow, method, 0.05)).toBe(true);
    const ends = new Float64Array(END_SLOTS);
    endForces(state, ends);
    return { state, ends };
  }
  const straight = thrown(0);

  it.each([0.7, 2.1, -1.3])("goes the same way turned by %s", (by) => {
    const turned = thrown(by);
    turn(turned.state.place, -by);
    turn(turned.state.speed, -by);
    turn(turned.state.acceleration, -by);
    // Newton's steps end at 1e-10 of the rode: what they leave, over sixty of them.
    for (const list of ["place", "speed"] as const)
      for (let i = 0; i < straight.state.place.length; i++)
        expect(Math.abs(turned.state[list][i]! - straight.state[list][i]!), `${list} ${i}`).toBeLessThan(1e-5);
    for (let i = 0; i < END_SLOTS; i++) expect(turned.ends[i]).toBeCloseTo(straight.ends[i]!, 1);
    for (let n = 0; n < straight.state.nodes - 1; n++)
      expect(Math.abs(turned.state.tension[n]! - straight.state.tension[n]!)).toBeLessThan(0.1);
  });

  it("did move, in all three directions, and over the bottom", () => {
    const { state } = begun(rig, 16, 700);
    const n = state.nodes - 3;
    for (let i = 0; i < 3; i++)
      expect(Math.abs(straight.state.place[3 * n + i]! - state.place[3 * n + i]!)).toBeGreaterThan(0.05);
    expect(Math.max(...straight.state.borne)).toBeGreaterThan(0);
    expect(Math.max(...straight.state.grip.map((x, i) => Math.abs(x - state.grip[i]!)))).toBeGreaterThan(0.01);
  });
});

describe("a body on a slack line", () => {
  it("flies as forces over masses have it, each its own way, whatever the method loses", () => {
    for (const radius of [0, 0.3, 1]) {
      const { state } = placed(
        lineRig({ length: 500, massPerLength: 1e-9, stretch: { kind: "linear", stiffness: 1e4 } }),
        1,
        { ...inAir, gravity: 0 },
        (s) => [s === 0 ? 0 : 10, 0, 0],
      );
      const bow = bodyBow({ mass: [10, 20, 40], force: (_q, _rate, t, out) => out.set([30, -20 * t, 8]) });
      state.qRate.set([0.5, -0.25, 1]);
      state.qAcceleration.set([3, 0, 0.2]);
      const h = 0.05;
      for (let k = 0; k < 80; k++) step(state, bow, generalisedAlpha(radius), h);
      // x = x₀ + v t + ½ a t²; y under a force that grows with time, −t/6 · t² a mass of its own: second order in the step.
      expect(state.q[0]).toBeCloseTo(10 + 0.5 * 4 + 0.5 * 3 * 16, 6);
      expect(state.q[2]).toBeCloseTo(1 * 4 + 0.5 * 0.2 * 16, 6);
      expect(Math.abs(state.q[1]! - (-0.25 * 4 - 64 / 6))).toBeLessThan(2 * 4 * h);
      expect(state.qRate[0]).toBeCloseTo(0.5 + 12, 6);
      expect(state.qRate[2]).toBeCloseTo(1.8, 6);
      expect(Math.abs(state.qRate[1]! - (-0.25 - 8))).toBeLessThan(4 * h);
      expect(state.qAcceleration[0]).toBeCloseTo(3, 5);
      expect(Math.abs(state.qAcceleration[1]! + 4)).toBeLessThan(2 * h);
      expect(state.qAcceleration[2]).toBeCloseTo(0.2, 5);
      expect(state.time).toBeCloseTo(4, 9);
    }
  });
});

describe("a rode laid out at rest", () => {
  it("has its nodes where the settled rode has them, its bow at the roller, its friction drawn toward the boat", () => {
    const { traced, state } = begun(rig, 20, 900);
    const shape = shapeOf(traced, 4000);
    for (let n = 0; n < state.nodes; n++) {
      const s = state.elements.along[n]!;
      const v = Math.max(
        1,
        shape.along.findIndex((along) => along >= s - 1e-9),
      );
      const share = (s - shape.along[v - 1]!) / (shape.along[v]! - shape.along[v - 1]!);
      const between = (list: ArrayLike<number>): number => list[v - 1]! + share * (list[v]! - list[v - 1]!);
      // How far the fewer pieces of the curve it is laid out by lie inside it: millimetres.
      expect(Math.abs(state.place[3 * n]! - between(shape.x))).toBeLessThan(0.01);
      expect(Math.abs(state.place[3 * n + 2]! - between(shape.z))).toBeLessThan(0.01);
      expect(state.place[3 * n + 1]).toBe(0);
    }
    const last = 3 * (state.nodes - 1);
    expect(state.place[last]).toBeCloseTo(traced.settled.span, 9);
    expect(state.place[last + 2]).toBeCloseTo(9.5, 9);
    expect([...state.q]).toEqual([state.place[last], 0, state.place[last + 2]]);
    // A node of chain at rest is held back by a tenth of a millimetre of its spring.
    expect(state.place[3]! - state.grip[3]!).toBeCloseTo(1e-4, 6);
    expect([...state.speed, ...state.acceleration].every((x) => x === 0)).toBe(true);
  });
});

describe("the force on a point of a rode", () => {
  const float = rigOf(
    'chain: { grade: "30", size: 10 mm, length: 10 m }',
    "weight: { mass: 12 kg, density: 7850 }",
    'chain: { grade: "30", size: 10 mm, length: 10 m }',
  );
  /** Forces on the weight's node with it at a height and a speed; its lines slack, all nodes close together. */
  function at(height: number, speed: readonly [number, number, number], weight = true): Float64Array {
    const of = weight ? float : { ...float, rode: float.rode.filter(({ kind }) => kind === "line") };
    const elements = cutIntoElements(of, 2, 1000);
    const state = rodeState(elements, { ...surroundingsOf(of), bottom: false });
    for (let n = 0; n < 3; n++) state.at.set([n === 0 ? 0 : 0.1 * n, 0, n === 1 ? height : 8], 3 * n);
    state.rate.set(speed, 3);
    assembleForces(state);
    return state.force.slice(3, 6);
  }
  const own = (height: number, speed: readonly [number, number, number] = [0, 0, 0]): number[] => {
    const [all, bare] = [at(height, speed), at(height, speed, false)];
    return Array.from(all, (x, i) => x - bare[i]!);
  };
  const size = Math.cbrt((6 * (12 / 7850)) / Math.PI);
  const [dry, wet] = [12 * 9.80665, 12 * 9.80665 * (1 - 1025 / 7850)];

  it("is its weight, in the water or out of it, shared over its own height at the surface", () => {
    expect(own(4)).toEqual([0, 0, expect.closeTo(-wet, 6)]);
    expect(own(8.5)).toEqual([0, 0, expect.closeTo(-dry, 6)]);
    expect(own(8)[2]).toBeCloseTo(-(wet + dry) / 2, 6);
    expect(own(8 + size / 4)[2]).toBeCloseTo(-(0.25 * wet + 0.75 * dry), 6);
  });

  it("and its drag, against its speed whichever way, in the water alone", () => {
    // ½ ρ C A |v| v on the frontal area of a sphere, C = 0.8.
    const c = 0.5 * 1025 * 0.8 * 0.25 * Math.PI * size * size;
    const v = [0.6, -0.3, 0.2] as const;
    const speed = Math.hypot(...v);
    const [fx, fy, fz] = own(4, v);
    expect(fx).toBeCloseTo(-c * speed * v[0], 6);
    expect(fy).toBeCloseTo(-c * speed * v[1], 6);
    expect(fz).toBeCloseTo(-wet - c * speed * v[2], 6);
    const above = own(9, v);
    expect([above[0], above[1]]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
  });
});

describe("a bow led along a path", () => {
  it("is where the path has it at each step's end, with its speed", () => {
    const { state } = begun(rig, 6, 900);
    const [x0, z0] = [state.q[0]!, state.q[2]!];
    const bow = ledBow((t, place, speed, acceleration) => {
      place.set([x0 + 0.1 * t, 0.2 * t * t, z0]);
      speed.set([0.1, 0.4 * t, 0]);
      acceleration.set([0, 0.4, 0]);
    });
    for (let k = 1; k <= 20; k++) {
      expect(step(state, bow, generalisedAlpha(0.3), 0.05)).toBe(true);
      const t = 0.05 * k;
      const last = 3 * (state.nodes - 1);
      expect(state.time).toBeCloseTo(t, 9);
      expect([...state.place.subarray(last, last + 3)]).toEqual([
        expect.closeTo(x0 + 0.1 * t, 9),
        expect.closeTo(0.2 * t * t, 9),
        expect.closeTo(z0, 9),
      ]);
      expect([...state.speed.subarray(last, last + 3)]).toEqual([
        expect.closeTo(0.1, 9),
        expect.closeTo(0.4 * t, 9),
        expect.closeTo(0, 9),
      ]);
    }
  });
});
