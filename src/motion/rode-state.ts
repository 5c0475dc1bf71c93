import { type BlockTridiagonal, blockTridiagonal, SYMMETRIC_BLOCK } from "../numeric/index.ts";
import { ELEMENT_SLOTS, type Elements, LOW } from "./elements.ts";
import type { Surroundings } from "./surroundings.ts";

/**
 * A moving rode at one moment, and the room its step works in. Places, speeds and accelerations stand 3 numbers a node.
 * The last node is the bow: its place and speed follow from the coordinates `q` and their rates (bow.ts).
 */
export interface RodeState {
  readonly elements: Elements;
  readonly around: Surroundings;
  readonly nodes: number;
  /** s; kept in `numbers`, as what changes with every step is: a number handed on or kept in an object would be made anew. */
  time: number;
  /** What a step hands on to its parts, by the places below. */
  readonly numbers: Float64Array;
  readonly place: Float64Array;
  readonly speed: Float64Array;
  readonly acceleration: Float64Array;
  readonly q: Float64Array;
  readonly qRate: Float64Array;
  readonly qAcceleration: Float64Array;
  /** Where each node's friction holds it, m; moves when it slips. */
  readonly grip: Float64Array;
  /** Springs of the bottom under each node: normal and tangential stiffness, N/m, normal damping, N s/m, rest force, N. */
  readonly bedStiffness: Float64Array;
  readonly gripStiffness: Float64Array;
  readonly bedDamping: Float64Array;
  readonly bedRest: Float64Array;
  /** Tension in each element, N, at the last state the forces were worked out for. */
  readonly tension: Float64Array;
  /** Force of the bottom on each node, normal to it, N. */
  readonly borne: Float64Array;
  /** What the solver weighs of each node's inertia, 6 numbers a block, with the water that moves with it. */
  readonly inertia: Float64Array;
  /** Forces on the ends, less inertia on the nodes between them, N; and where they are worked out. */
  readonly force: Float64Array;
  readonly at: Float64Array;
  readonly rate: Float64Array;
  /** What of `at`, `rate` and `force` a step knows before it has solved anything. */
  readonly atFirst: Float64Array;
  readonly rateFirst: Float64Array;
  readonly forceFirst: Float64Array;
  /** Of every loop of a rope, what it adds to the tension and the tension of its law at the last step's end, N (loop-forces.ts). */
  readonly loopHeld: Float64Array;
  readonly loopLaw: Float64Array;
  readonly system: BlockTridiagonal;
  /** Accelerations being solved for, and their change, 3 numbers a node; the last node's are those of q. */
  readonly next: Float64Array;
  readonly change: Float64Array;
  /** Share of each node that lies off the bottom, 0 or 1: what lies on it is not dragged by the flow. */
  readonly lifted: Float64Array;
}

/** Places of `numbers`: the state's time, the time forces are worked out for, s; what a stiffness, a damping and an inertia weigh; the step, s; the largest change, m/s². */
export const TIME = 0;
export const AT_TIME = 1;
export const BY_PLACE = 2;
export const BY_RATE = 3;
export const STEP = 4;
export const BY_INERTIA = 5;
export const CHANGED = 6;
const NUMBERS = 7;

/** How far a resting node sinks into the bottom's spring under its own weight, m. */
const SINK = 1e-4;
/** How far a node moves along the bottom before it slips, m. */
const SLIP = 1e-4;
/** Share of critical damping of a node on the bottom. */
const BED_DAMPING = 0.5;

/** Room for the motion of a rode of these elements, at rest. */
export function rodeState(elements: Elements, around: Surroundings): RodeState {
  const nodes = elements.count + 1;
  const f = (n: number): Float64Array => new Float64Array(n);
  const numbers = f(NUMBERS);
  const state: RodeState = {
    elements,
    around,
    nodes,
    numbers,
    get time() {
      return numbers[TIME]!;
    },
    set time(seconds: number) {
      numbers[TIME] = seconds;
    },
    place: f(3 * nodes),
    speed: f(3 * nodes),
    acceleration: f(3 * nodes),
    q: f(3),
    qRate: f(3),
    qAcceleration: f(3),
    grip: f(3 * nodes),
    bedStiffness: f(nodes),
    gripStiffness: f(nodes),
    bedDamping: f(nodes),
    bedRest: f(nodes),
    tension: f(elements.count),
    borne: f(nodes),
    inertia: f(SYMMETRIC_BLOCK * nodes),
    force: f(3 * nodes),
    at: f(3 * nodes),
    rate: f(3 * nodes),
    atFirst: f(3 * nodes),
    rateFirst: f(3 * nodes),
    forceFirst: f(3 * nodes),
    loopHeld: f(elements.loops.element.length),
    loopLaw: f(elements.loops.element.length),
    system: blockTridiagonal(nodes),
    next: f(3 * nodes),
    change: f(3 * nodes),
    lifted: f(nodes).fill(1),
  };
  for (let i = 0; i < nodes; i++) {
    const { weight, mass } = lumped(elements, i);
    // A node lighter than the water never rests: its spring is that of its mass, and it has nothing to stand on.
    const rest = Math.max(0, weight) * around.cosSlope;
    const stiffness = Math.max(rest, 0.01 * mass * around.gravity) / SINK;
    state.bedStiffness[i] = stiffness;
    state.bedRest[i] = rest;
    state.bedDamping[i] = 2 * BED_DAMPING * Math.sqrt(stiffness * mass);
    state.gripStiffness[i] = (around.friction * Math.max(rest, 0.01 * mass * around.gravity)) / SLIP;
  }
  return state;
}

/** Weight in the lower medium, N, and mass, kg, lumped at a node. */
export function lumped(e: Elements, i: number): { weight: number; mass: number } {
  let weight = e.pointLow[i]!;
  let mass = e.pointMass[i]!;
  if (i > 0) {
    weight += 0.5 * e.slots[ELEMENT_SLOTS * (i - 1) + LOW]!;
    mass += 0.5 * e.mass[i - 1]!;
  }
  if (i < e.count) {
    weight += 0.5 * e.slots[ELEMENT_SLOTS * i + LOW]!;
    mass += 0.5 * e.mass[i]!;
  }
  return { weight, mass };
}
