/**
 * What the solver is told of a moving rode against differences of its own forces, number by number: stiffness, damping,
 * inertia, the bow in its own coordinates. And the forces of single elements and of the bottom, worked out here.
 */
import { describe, expect, it } from "vitest";
import { addBottom, findResting, followGrip } from "../../src/motion/bottom.ts";
import { bowRow, holdNode } from "../../src/motion/end-rows.ts";
import { assembleForces } from "../../src/motion/forces.ts";
import {
  bodyBow,
  cutIntoElements,
  ELEMENT_SLOTS,
  generalisedAlpha,
  type RodeState,
  rodeState,
  type Surroundings,
  step,
  surroundingsOf,
} from "../../src/motion/index.ts";
import { assembleInertia, wetShare } from "../../src/motion/inertia.ts";
import { followLoops, restLoops } from "../../src/motion/loop-forces.ts";
import { AT_TIME, BY_INERTIA, BY_PLACE, BY_RATE, STEP, TIME } from "../../src/motion/rode-state.ts";
import type { LinePart, Rig } from "../../src/rode/index.ts";
import { rng } from "../../src/statistics/index.ts";
import { g } from "./lines.ts";

const WATER = 1025;
const SLOPE = 0.12;
const chain: LinePart = {
  ...{ kind: "line", name: "chain", length: 8, massPerLength: 2, density: 7850, diameter: 0.01, material: "chain" },
  stretch: { kind: "linear", stiffness: 4e4 },
};
const rope: LinePart = {
  ...{ kind: "line", name: "rope", length: 6, massPerLength: 0.3, density: 1140, diameter: 0.016, material: "rope" },
  stretch: {
    kind: "curve",
    points: [
      [0.02, 400],
      [0.05, 1400],
      [0.09, 5000],
    ],
  },
};
const viscous: LinePart = { ...rope, loop: { kind: "viscous", time: 0.4 } };
const maxwell: LinePart = { ...rope, loop: { kind: "maxwell", stiffer: 1.5, time: 0.7 } };
const kellet = { kind: "point", name: "kellet", mass: 9, density: 7850 } as const;
const rigOf = (rode: Rig["rode"], over: object = {}): Rig => ({
  name: "moving",
  setting: {
    ...{ medium: "water", depth: 30, rollerHeight: 1, waterDensity: WATER },
    ...{ bottomSlope: SLOPE, bottomFriction: 0.6, current: 0 },
    ...over,
  } as Rig["setting"],
  rode,
  uncertainty: {},
});

/** Nodes in three directions, stretched by a few hundredths; the first two but the anchor lie a hair in the bottom. */
function begun(rode: Rig["rode"], around: Partial<Surroundings> = {}, resting = 2, elements = 7): RodeState {
  const rig = rigOf(rode);
  const e = cutIntoElements(rig, elements, 500);
  const state = rodeState(e, { ...surroundingsOf(rig), ...around });
  const random = rng(5);
  const stretch = 1.035;
  let [x, z] = [0, 0];
  for (let n = 1; n < state.nodes; n++) {
    const l = (e.along[n]! - e.along[n - 1]!) * (stretch + 0.02 * random.uniform());
    const rises = n <= resting ? SLOPE : 0.5 + 0.3 * random.uniform();
    x += l * Math.cos(rises);
    z += l * Math.sin(rises);
    const y = 0.1 * (random.uniform() - 0.5);
    state.at.set([x, y, n <= resting ? x * Math.tan(SLOPE) - 2e-5 * n : z], 3 * n);
    if (n > resting) z = state.at[3 * n + 2]!;
  }
  for (let n = 1; n < state.nodes; n++) {
    for (let c = 0; c < 3; c++) state.grip[3 * n + c] = state.at[3 * n + c]! + 2e-5 * (random.uniform() - 0.5);
  }
  return state;
}

/** The system's matrix in full. */
function dense(state: RodeState): number[][] {
  const size = 3 * state.nodes;
  const all = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const six = [0, 1, 2, 1, 3, 4, 2, 4, 5];
  for (let n = 0; n < state.nodes; n++)
    for (let r = 0; r < 3; r++)
      for (let c = 0; c < 3; c++) {
        all[3 * n + r]![3 * n + c] = state.system.diagonal[6 * n + six[3 * r + c]!]!;
        if (n + 1 === state.nodes) continue;
        all[3 * n + r]![3 * (n + 1) + c] = state.system.beside[9 * n + 3 * r + c]!;
        all[3 * (n + 1) + c]![3 * n + r] = state.system.beside[9 * n + 3 * r + c]!;
      }
  return all;
}

/** −∂force/∂(places or rates), by central differences. */
function byDifferences(state: RodeState, of: Float64Array, h: number): number[][] {
  const size = 3 * state.nodes;
  const all = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let j = 0; j < size; j++) {
    const was = of[j]!;
    of[j] = was + h;
    assembleForces(state);
    const more = Float64Array.from(state.force);
    of[j] = was - h;
    assembleForces(state);
    of[j] = was;
    for (let i = 0; i < size; i++) all[i]![j] = -(more[i]! - state.force[i]!) / (2 * h);
  }
  return all;
}

function expectSame(told: number[][], seen: number[][], within: number): void {
  const most = Math.max(...told.flat().map(Math.abs));
  expect(most).toBeGreaterThan(0);
  told.forEach((row, i) => {
    row.forEach((value, j) => {
      expect(Math.abs(value - seen[i]![j]!), `${i}, ${j}: ${value} for ${seen[i]![j]}`).toBeLessThan(
        within * Math.max(Math.abs(value), 1e-4 * most),
      );
    });
  });
}

describe("the stiffness that the solver is told", () => {
  it.each<[string, Rig["rode"], Partial<Surroundings>]>([
    ["of chain and rope that hang", [chain, kellet, rope], { bottom: false }],
    ["of what rests on a slope, held by what rubs", [chain, kellet, rope], {}],
    ["of what rests on a slope without friction", [chain, rope], { friction: 0 }],
  ])("%s is how its forces fall with its places", (_, rode, around) => {
    const state = begun(rode, around);
    state.numbers[BY_PLACE] = 1;
    assembleForces(state);
    expect([...state.tension].every((T) => T > 0)).toBe(true);
    expectSame(dense(state), byDifferences(state, state.at, 1e-7), 1e-4);
  });

  it("of a rope's loop is that of the law, stiffer by what Maxwell's keeps of the step", () => {
    const state = begun([chain, maxwell], { bottom: false });
    state.place.set(state.at);
    restLoops(state);
    for (let k = 3; k < state.nodes; k++) state.at[3 * k]! += 0.004 * k;
    state.numbers[TIME] = 3;
    state.numbers[AT_TIME] = 3.2;
    state.numbers[BY_PLACE] = 1;
    assembleForces(state);
    const told = dense(state);
    const seen = byDifferences(state, state.at, 1e-7);
    // What the loop adds to the tension turns with the rope, by itself over the length: left out of what is told.
    const most = Math.max(...told.flat().map(Math.abs));
    told.forEach((row, i) => {
      row.forEach((value, j) => {
        expect(Math.abs(value - seen[i]![j]!), `${i}, ${j}`).toBeLessThan(0.02 * most);
      });
    });
    const [k, length] = [state.nodes - 2, state.elements.slots[ELEMENT_SLOTS * (state.nodes - 2)]!];
    const u = [0, 1, 2].map((c) => state.at[3 * (k + 1) + c]! - state.at[3 * k + c]!);
    const size = Math.hypot(...u);
    const along = (m: number[][]) =>
      u.reduce(
        (sum, a, r) => sum + u.reduce((s, b, c) => s + (a * b * m[3 * (k + 1) + r]![3 * (k + 1) + c]!) / size ** 2, 0),
        0,
      );
    const strain = size / length - 1;
    const slope = strain < 0.02 ? 20_000 : strain < 0.05 ? 1000 / 0.03 : 3600 / 0.04;
    const keeps = ((1 - Math.exp(-0.2 / 0.7)) * 0.7) / 0.2;
    expect(along(told)).toBeCloseTo((slope / length) * (1 + 1.5 * keeps), 4);
    expect(along(seen)).toBeCloseTo((slope / length) * (1 + 1.5 * keeps), 1);
  });

  it("of a point in the surface is what its weight grows by as it comes out", () => {
    const state = begun([chain, kellet, rope], { bottom: false });
    const [n] = state.elements.pointNode;
    const own = { ...state, around: { ...state.around, surface: state.at[3 * n! + 2]! + 0.01 } };
    const under = { ...state, around: { ...state.around, surface: 1000 } };
    own.numbers[BY_PLACE] = 1;
    assembleForces(own);
    const i = 6 * n! + 5;
    const at = own.system.diagonal[i]!;
    assembleForces(under);
    const size = Math.cbrt((6 * (9 / 7850)) / Math.PI);
    expect(at - under.system.diagonal[i]!).toBeCloseTo((9 * g * (WATER / 7850)) / size, 6);
  });
});

describe("the damping that the solver is told", () => {
  it.each<[string, Rig["rode"], Partial<Surroundings>]>([
    ["of rode that hangs in a stream", [chain, rope], { bottom: false, current: 0.7 }],
    ["of rode that rests in part", [chain, rope], { current: -0.4 }],
    ["of a rope with a viscous loop", [chain, viscous], { bottom: false }],
  ])("%s is how its forces fall with its speeds", (_, rode, around) => {
    const state = begun(rode, around);
    const random = rng(9);
    for (let i = 3; i < state.rate.length; i++) state.rate[i] = 0.4 * (random.uniform() - 0.5);
    // What lies on the bottom goes on sinking, or it would come off its damper.
    for (let n = 1; n <= 2; n++) state.rate[3 * n + 2] = -0.001;
    state.numbers[BY_RATE] = 1;
    assembleForces(state);
    expectSame(dense(state), byDifferences(state, state.rate, 1e-6), 1e-4);
  });

  it("of a point is its drag over its speed", () => {
    const state = begun([chain, kellet, rope], { bottom: false });
    const bare = begun([chain, rope], { bottom: false });
    const n = state.elements.pointNode[0]!;
    for (const one of [state, bare]) {
      one.at.set(state.at);
      one.rate.set([0.3, -0.2, 0.6], 3 * n);
      one.numbers[BY_RATE] = 2;
      assembleForces(one);
    }
    const size = Math.cbrt((6 * (9 / 7850)) / Math.PI);
    const c = 0.5 * WATER * 0.8 * 0.25 * Math.PI * size ** 2 * 0.7;
    for (const k of [0, 3, 5])
      expect(state.system.diagonal[6 * n + k]! - bare.system.diagonal[6 * n + k]!).toBeCloseTo(2 * c, 8);
    for (const k of [1, 2, 4])
      expect(state.system.diagonal[6 * n + k]! - bare.system.diagonal[6 * n + k]!).toBeCloseTo(0, 8);
  });
});

describe("inertia", () => {
  it("is half of every element's mass at its ends, and of the water that moves across and along it; of points their own", () => {
    const state = begun([chain, kellet, rope], { bottom: false });
    state.place.set(state.at);
    state.numbers[BY_INERTIA] = 0.8;
    assembleInertia(state);
    const { elements: e, nodes } = state;
    const want = new Float64Array(6 * nodes);
    for (let k = 0; k < e.count; k++) {
      const isChain = e.along[k + 1]! < 8 + 1e-9;
      const l = e.along[k + 1]! - e.along[k]!;
      const mass = (isChain ? 2 : 0.3) * l;
      const displaced = (mass * WATER) / (isChain ? 7850 : 1140);
      const [across, along] = isChain ? [1, 0.5] : [1, 0];
      const d = [0, 1, 2].map((c) => state.at[3 * k + 3 + c]! - state.at[3 * k + c]!);
      const size = Math.hypot(...d);
      const u = d.map((one) => one / size) as [number, number, number];
      const pairs = [
        [0, 0],
        [0, 1],
        [0, 2],
        [1, 1],
        [1, 2],
        [2, 2],
      ] as const;
      pairs.forEach(([r, c], p) => {
        const one = r === c ? 1 : 0;
        const own = 0.5 * (mass * one + displaced * (across * (one - u[r]! * u[c]!) + along * u[r]! * u[c]!));
        for (const n of [k, k + 1]) want[6 * n + p]! += 0.8 * own;
      });
    }
    const n = e.pointNode[0]!;
    for (const p of [0, 3, 5]) want[6 * n + p]! += 0.8 * (9 + (0.5 * 9 * WATER) / 7850);
    // The anchor is not solved for.
    want.fill(0, 0, 6);
    want.forEach((value, i) => {
      expect(state.inertia[i], `${i}`).toBeCloseTo(value, 9);
    });
    // Out of the water nothing moves with it.
    const dry = { ...state, around: { ...state.around, surface: -1 }, inertia: new Float64Array(6 * nodes) };
    assembleInertia(dry);
    expect(dry.inertia[6 * n]).toBeCloseTo(
      0.8 * (9 + 0.5 * (2 * (e.along[n]! - e.along[n - 1]!) + 0.3 * (e.along[n + 1]! - e.along[n]!))),
      9,
    );
    expect(dry.inertia[6 * n + 1]).toBe(0);
  });

  it("takes off the forces what it costs to speed up, with what a step knew before", () => {
    const state = begun([chain, rope], { bottom: false });
    state.place.set(state.at);
    state.numbers[BY_INERTIA] = 1;
    assembleInertia(state);
    assembleForces(state);
    const still = Float64Array.from(state.force);
    const random = rng(3);
    for (let i = 3; i < state.next.length - 3; i++) {
      state.next[i] = random.uniform() - 0.5;
      state.forceFirst[i] = 10 * (random.uniform() - 0.5);
    }
    assembleForces(state);
    for (let n = 1; n < state.nodes - 1; n++) {
      const [xx, xy, xz, yy, yz, zz] = state.inertia.subarray(6 * n, 6 * n + 6) as unknown as number[];
      const a = state.next.subarray(3 * n, 3 * n + 3);
      [
        [xx, xy, xz],
        [xy, yy, yz],
        [xz, yz, zz],
      ].forEach((row, r) => {
        const costs = row.reduce((sum, m, c) => sum! + m! * a[c]!, 0)!;
        expect(state.force[3 * n + r]! - still[3 * n + r]!).toBeCloseTo(state.forceFirst[3 * n + r]! - costs, 9);
      });
      for (let p = 0; p < 6; p++) expect(state.system.diagonal[6 * n + p]).toBeCloseTo(state.inertia[6 * n + p]!, 9);
    }
  });

  it("knows how much of a straight piece lies under water", () => {
    expect([wetShare(1, 2, 3), wetShare(3, 3, 3), wetShare(4, 5, 3), wetShare(3, 5, 3)]).toEqual([1, 1, 0, 0]);
    expect(wetShare(2, 6, 3)).toBeCloseTo(0.25, 12);
    expect(wetShare(6, 2, 3)).toBeCloseTo(0.25, 12);
  });
});

describe("one element", () => {
  it("pulls by its stretch law band by band, and not where it is slack", () => {
    const rig = rigOf([{ ...rope, length: 2 }]);
    const state = rodeState(cutIntoElements(rig, 1, 100), { ...surroundingsOf(rig), bottom: false });
    for (const [strain, load] of [
      [-0.1, 0],
      [0, 0],
      [0.01, 200],
      [0.02, 400],
      [0.04, 400 + (0.02 / 0.03) * 1000],
      [0.07, 1400 + (0.02 / 0.04) * 3600],
      [0.12, 1400 + (0.07 / 0.04) * 3600],
    ] as const) {
      state.at.set([2 * (1 + strain), 0, 0], 3);
      assembleForces(state);
      expect(state.tension[0], `${strain}`).toBeCloseTo(load, 6);
      expect([state.force[0], state.force[3]]).toEqual([expect.closeTo(load, 6), expect.closeTo(-load, 6)]);
      // Weight in halves.
      const half = 0.5 * 2 * 0.3 * g * (1 - WATER / 1140);
      expect([state.force[2], state.force[5]]).toEqual([expect.closeTo(-half, 8), expect.closeTo(-half, 8)]);
    }
    // Half out of the water it weighs half as in air.
    const dry = { ...state, around: { ...state.around, surface: 0.5 } };
    dry.at.set([0, 0, 1], 3);
    assembleForces(dry);
    expect(-(dry.force[2]! + dry.force[5]!)).toBeCloseTo(2 * 0.3 * g * (0.5 * (1 - WATER / 1140) + 0.5), 8);
  });

  it("is dragged across and along by the water's speed past its middle, after Morison, but what lies on the bottom", () => {
    const rig = rigOf([{ ...rope, length: 2, drag: { across: 1.3, along: 0.07 } }]);
    const around = { ...surroundingsOf(rig), bottom: false, current: 0.9 };
    const state = rodeState(cutIntoElements(rig, 1, 100), around);
    const u = [0.6, 0, 0.8] as const;
    state.at.set(
      u.map((each) => 1.9 * each),
      3,
    );
    assembleForces({ ...state, around: { ...around, current: 0 } });
    const still = Float64Array.from(state.force);
    state.rate.set([0.4, -0.6, 0.2], 3);
    const w = [0.9 - 0.2, 0.3, -0.1] as const;
    const wt = w[0] * u[0] + w[2] * u[2];
    const wn = w.map((each, i) => each - wt * u[i]!);
    const size = Math.hypot(...wn);
    const half = 0.5 * WATER * 0.016 * 2;
    const drag = w.map((_, i) => half * (1.3 * size * wn[i]! + 0.07 * Math.abs(wt) * wt * u[i]!));
    for (const share of [1, 0.5, 0]) {
      state.lifted.set([share === 1 ? 1 : 0, share === 0 ? 0 : 1]);
      assembleForces(state);
      for (const end of [0, 3])
        for (let c = 0; c < 3; c++)
          expect(state.force[end + c]! - still[end + c]!).toBeCloseTo(0.5 * share * drag[c]!, 8);
    }
  });
});

describe("the bottom under a node", () => {
  const resting = (over: Partial<Surroundings> = {}) => {
    const state = begun([chain], over, 3, 4);
    state.force.fill(0);
    state.system.diagonal.fill(0);
    return state;
  };
  const [s, c] = [Math.sin(SLOPE), Math.cos(SLOPE)];

  it("bears its weight where it lies on the plane, more the deeper, and nothing above", () => {
    const state = resting();
    const half = 2 * 2 * g * (1 - WATER / 7850) * c;
    expect(state.bedRest[1]).toBeCloseTo(half, 8);
    for (const [height, share] of [
      [0, 1],
      [-5e-5, 1.5],
      [5e-5, 0.5],
      [1.5e-4, 0],
      [2, 0],
    ] as const) {
      state.at[3 + 2] = state.at[3]! * Math.tan(SLOPE) + height / c;
      findResting(state);
      expect(state.borne[1]! / half, `${height}`).toBeCloseTo(share, 8);
      expect(state.lifted[1]).toBe(share === 0 ? 1 : 0);
    }
    // Neither the anchor nor the bow.
    expect([state.borne[0], state.borne.at(-1)]).toEqual([0, 0]);
  });

  it("pushes square to itself, damped at half the critical as the node sinks, never pulling", () => {
    for (const sinks of [0, 0.01, -0.002, -10]) {
      const state = resting({ friction: 0 });
      state.at[5] = state.at[3]! * Math.tan(SLOPE);
      state.rate.set([sinks * s, 0, -sinks * c], 3);
      findResting(state);
      addBottom(state);
      const mass = 2 * 2;
      const damping = 2 * 0.5 * Math.sqrt((state.bedRest[1]! / 1e-4) * mass);
      const normal = Math.max(0, state.bedRest[1]! + damping * sinks);
      expect([...state.force.subarray(3, 6)]).toEqual([
        expect.closeTo(-s * normal, 7),
        expect.closeTo(0, 12),
        expect.closeTo(c * normal, 7),
      ]);
      expect(state.borne[1]).toBeCloseTo(normal, 7);
    }
  });

  it("holds along itself like a spring up to its friction, which it then keeps against the way it was drawn", () => {
    for (const away of [0.4e-4, 3e-4]) {
      const state = resting();
      state.at[5] = state.at[3]! * Math.tan(SLOPE);
      const [up, side] = [0.6 * away, 0.8 * away];
      state.grip.set([state.at[3]! - up * c, state.at[4]! - side, state.at[5]! - up * s], 3);
      findResting(state);
      addBottom(state);
      const N = state.bedRest[1]!;
      const pull = Math.min((0.6 * N * away) / 1e-4, 0.6 * N);
      expect([...state.force.subarray(3, 6)]).toEqual([
        expect.closeTo(-s * N - pull * 0.6 * c, 6),
        expect.closeTo(-pull * 0.8, 6),
        expect.closeTo(c * N - pull * 0.6 * s, 6),
      ]);
      // What has slipped holds where it came to: a tenth of a millimetre behind.
      followGrip(state);
      const kept = Math.min(away, 1e-4);
      expect(state.at[3]! - state.grip[3]!).toBeCloseTo(kept * 0.6 * c, 9);
      expect(state.at[4]! - state.grip[4]!).toBeCloseTo(kept * 0.8, 9);
      expect(state.at[5]! - state.grip[5]!).toBeCloseTo(kept * 0.6 * s, 9);
    }
  });

  it("lets go of what is off it: it takes hold again where that comes down", () => {
    const state = resting();
    state.at.set([5, 0.3, 4], 3);
    findResting(state);
    followGrip(state);
    expect([...state.grip.subarray(3, 6)]).toEqual([5, 0.3, 4]);
    // Where nothing rubs, or there is no bottom, nothing is followed.
    for (const over of [{ friction: 0 }, { bottom: false }]) {
      const none = resting(over);
      none.grip.set([1, 2, 3], 3);
      none.borne.fill(0);
      followGrip(none);
      expect([...none.grip.subarray(3, 6)]).toEqual([1, 2, 3]);
    }
  });
});

describe("the loop of a rope, over one step", () => {
  const of = (part: LinePart) => {
    const dry = { across: 0, along: 0 };
    const rig = rigOf([{ ...part, length: 2, drag: dry, stretch: { kind: "linear", stiffness: 1e4 } }]);
    const state = rodeState(cutIntoElements(rig, 1, 100), { ...surroundingsOf(rig), bottom: false });
    state.place.set([2.1, 0, 0], 3);
    restLoops(state);
    return state;
  };
  it("viscous adds t k times the rate of strain", () => {
    const state = of(viscous);
    expect([state.loopHeld[0], state.loopLaw[0]]).toEqual([0, expect.closeTo(500, 8)]);
    state.at.set([2.1, 0, 0], 3);
    state.rate.set([0.2, 5, 0], 3);
    assembleForces(state);
    expect(state.tension[0]).toBeCloseTo(500 + 0.4 * 1e4 * (0.2 / 2), 8);
    state.rate.set([-0.3, 0, 0], 3);
    assembleForces(state);
    // No less than nothing: a line pushes nowhere.
    expect(state.tension[0]).toBe(0);
    expect([state.force[0], state.force[3]]).toEqual([expect.closeTo(0, 8), expect.closeTo(0, 8)]);
    state.at.set([1.9, 0, 0], 3);
    state.rate.set([4, 0, 0], 3);
    assembleForces(state);
    expect(state.tension[0]).toBe(0);
  });
  it("Maxwell's adds what it keeps of each change of the law's tension, and forgets it in its time", () => {
    const state = of(maxwell);
    state.at.set([2.14, 0, 0], 3);
    state.numbers[TIME] = 1;
    state.numbers[AT_TIME] = 1.1;
    assembleForces(state);
    const keeps = (over: number) => ((1 - Math.exp(-over / 0.7)) * 0.7) / over;
    expect(state.tension[0]).toBeCloseTo(700 + 1.5 * keeps(0.1) * 200, 8);
    // At once it is stiffer by its share.
    state.numbers[AT_TIME] = 1;
    assembleForces(state);
    expect(state.tension[0]).toBeCloseTo(700 + 1.5 * 200, 8);
    state.numbers[STEP] = 0.3;
    state.place.set([2.14, 0, 0], 3);
    followLoops(state);
    expect([state.loopHeld[0], state.loopLaw[0]]).toEqual([
      expect.closeTo(1.5 * keeps(0.3) * 200, 8),
      expect.closeTo(700, 8),
    ]);
    followLoops(state);
    expect(state.loopHeld[0]).toBeCloseTo(1.5 * keeps(0.3) * 200 * Math.exp(-0.3 / 0.7), 8);
    restLoops(state);
    expect([state.loopHeld[0], state.loopLaw[0]]).toEqual([0, expect.closeTo(700, 8)]);
  });
});

describe("the ends in the solver's system", () => {
  it("a node that is held has rows of its own alone", () => {
    const state = begun([chain, rope], { bottom: false });
    for (const n of [0, state.nodes - 1]) {
      state.numbers[BY_PLACE] = 1;
      assembleForces(state);
      const before = dense(state);
      const right = new Float64Array(3 * state.nodes).fill(7);
      holdNode(state.system, right, n);
      const after = dense(state);
      after.forEach((row, i) => {
        row.forEach((value, j) => {
          const own = Math.floor(i / 3) === n || Math.floor(j / 3) === n;
          expect(value).toBe(own ? (i === j ? 1 : 0) : before[i]![j]);
        });
        expect(right[i]).toBe(Math.floor(i / 3) === n ? 0 : 7);
      });
    }
  });

  it("the bow's row is in its own coordinates: forces and blocks turned by how its place moves with them", () => {
    const state = begun([chain, rope], { bottom: false });
    state.numbers.set([0, 2.5, 0.3, 0.2, 0.1, 0.9]);
    assembleForces(state);
    const before = dense(state);
    const last = 3 * (state.nodes - 1);
    const f = Float64Array.from(state.force.subarray(last));
    const B = [1, 0.2, 3, -0.4, 1.1, -2, 0, 0.3, 0];
    const M = [50, 4, 1, 4, 60, 2, 1, 2, 300];
    const C = [5, 1, 2, 1, 6, 3, 2, 3, 7];
    const K = [8, 2, 1, 2, 9, 4, 1, 4, 3];
    const Q = [11, -12, 13];
    const a = [0.3, -0.2, 0.1];
    let asked = Number.NaN;
    bowRow(
      state,
      {
        led: false,
        path: () => {},
        place: () => {},
        inertia: () => {},
        force: (_q, _rate, t, out, damping, stiffness) => {
          asked = t[0]!;
          out.set(Q);
          damping.set(C);
          stiffness.set(K);
        },
      },
      {
        q: new Float64Array(3),
        rate: new Float64Array(3),
        acceleration: Float64Array.from(a),
        byQ: Float64Array.from(B),
        inertia: Float64Array.from(M),
      },
    );
    expect(asked).toBe(2.5);
    const after = dense(state);
    const at = [0, 1, 2];
    for (const r of at) {
      const right = Q[r]! + at.reduce((sum, k) => sum + B[3 * k + r]! * f[k]! - M[3 * r + k]! * a[k]!, 0);
      expect(state.change[last + r]).toBeCloseTo(right, 7);
      for (const c of at) {
        let own = 0.9 * M[3 * r + c]! + 0.2 * C[3 * r + c]! + 0.3 * K[3 * r + c]!;
        for (const m of at) for (const k of at) own += B[3 * m + r]! * before[last + m]![last + k]! * B[3 * k + c]!;
        expect(Math.abs(after[last + r]![last + c]! / own - 1)).toBeLessThan(1e-9);
        const beside = at.reduce((sum, m) => sum + before[last - 3 + r]![last + m]! * B[3 * m + c]!, 0);
        expect(after[last - 3 + r]![last + c]).toBeCloseTo(beside, 6);
      }
    }
  });
});

describe("a step that has no solution", () => {
  it("is said to have none, the state as far as it came", () => {
    const state = begun([chain, rope], { bottom: false });
    state.place.set(state.at);
    const last = 3 * (state.nodes - 1);
    state.q.set(state.place.subarray(last));
    const bow = bodyBow({ mass: [100, 100, 100], force: (_q, _rate, _t, out) => out.fill(Number.NaN) });
    expect(step(state, bow, generalisedAlpha(0.3), 0.05)).toBe(false);
    expect(state.time).toBe(0);
    expect([...state.place].every(Number.isFinite)).toBe(true);
    // A node without mass, stretch or weight that nothing holds: its block is nothing.
    const slack = begun([chain, rope], { bottom: false });
    slack.at.fill(0);
    slack.q.fill(0);
    slack.elements.mass.fill(0);
    slack.elements.displaced.fill(0);
    slack.elements.addedAcross.fill(0);
    slack.elements.addedAlong.fill(0);
    expect(
      step(
        slack,
        bodyBow({ mass: [100, 100, 100], force: (_q, _r, _t, out) => out.fill(0) }),
        generalisedAlpha(0.3),
        0.05,
      ),
    ).toBe(false);
    expect(slack.time).toBe(0);
  });
});
