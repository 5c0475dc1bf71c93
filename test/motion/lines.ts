// Lines and surroundings that tests of the motion share.
import {
  cutIntoElements,
  ELEMENT_SLOTS,
  type Elements,
  HIGH,
  LOW,
  type RodeState,
  rodeState,
  type Surroundings,
} from "../../src/motion/index.ts";
import type { LinePart, Rig } from "../../src/rode/index.ts";

export const g = 9.80665;

/** Nothing around but gravity: no bottom, no water. */
export const inAir: Surroundings = {
  surface: Number.POSITIVE_INFINITY,
  current: 0,
  bottom: false,
  sinSlope: 0,
  cosSlope: 1,
  friction: 0,
  gravity: g,
};

export function lineRig(line: Partial<LinePart>): Rig {
  return {
    name: "line",
    setting: { medium: "air", rise: 1, bottomSlope: 0, bottomFriction: 0 },
    rode: [
      {
        kind: "line",
        name: "line",
        length: 10,
        massPerLength: 1,
        density: 7850,
        stretch: { kind: "linear", stiffness: 1e7 },
        material: "line",
        ...line,
      },
    ],
    uncertainty: {},
  };
}

/** A state whose nodes lie where `place` puts them by the unstretched distance from the anchor. */
export function placed(
  rig: Rig,
  elements: number,
  around: Surroundings,
  place: (s: number) => readonly [number, number, number],
): { state: RodeState; elements: Elements } {
  const e = cutIntoElements(rig, elements, 100);
  const state = rodeState(e, around);
  for (let n = 0; n < state.nodes; n++) state.place.set(place(e.along[n]!), 3 * n);
  state.q.set(state.place.subarray(3 * e.count));
  return { state, elements: e };
}

/** Takes the weight off elements. */
export function weightless({ count, slots }: Elements): void {
  for (let k = 0; k < count; k++) for (const slot of [LOW, HIGH]) slots[ELEMENT_SLOTS * k + slot] = 0;
}

/** Mean frequency, Hz, at which a quantity rises through zero, sampled at every step. */
export function frequency(sample: () => number, goOn: () => number, steps: number): number {
  let before = sample();
  let first = Number.NaN;
  let last = Number.NaN;
  let count = -1;
  let t0 = 0;
  for (let k = 0; k < steps; k++) {
    const t1 = goOn();
    const now = sample();
    if (before < 0 && now >= 0) {
      last = t0 + ((t1 - t0) * -before) / (now - before);
      if (count < 0) first = last;
      count++;
    }
    before = now;
    t0 = t1;
  }
  return count / (last - first);
}
