/**
 * A rode cut into elements between nodes, as arrays of numbers: what the loops of the motion read.
 *
 * Node 0 is the anchor, the last one the bow. An element is a straight piece of one line; its mass, weight and drag are
 * lumped in halves at its two nodes, points (shackles, kellets, floats) sit at the node where they stand.
 */
import { compile, DRAG, dragDiameter, type LinePart, type Rig } from "../rode/index.ts";
import { type RopeLoops, ropeLoops } from "./rope-loops.ts";

/** A rode cut into elements, number by number along it. */
export interface Elements {
  /** Elements; there is one node more. */
  readonly count: number;
  /** Part of the rode the element belongs to, 0 first. */
  readonly part: Int32Array;
  /** Mass of the element, kg, and of the water it displaces, kg. */
  readonly mass: Float64Array;
  readonly displaced: Float64Array;
  /** Water that moves with the element, kg: across, and along it. */
  readonly addedAcross: Float64Array;
  readonly addedAlong: Float64Array;
  /** Of each band, 3 numbers: strain at which it begins, tension there, N, and stiffness in it, N. */
  readonly band: Float64Array;
  /** What the loop over elements asks of each, ELEMENT_SLOTS numbers side by side: one array is looked up faster than seven. */
  readonly slots: Float64Array;
  /** Of the elements of ropes that state a loop, that loop. */
  readonly loops: RopeLoops;
  /** Nodes that points stand at. */
  readonly pointNode: Int32Array;
  /** Points at each node: mass and displaced water, kg; weights, N; drag, N per (m/s)²; size, m. */
  readonly pointMass: Float64Array;
  readonly pointDisplaced: Float64Array;
  readonly pointLow: Float64Array;
  readonly pointHigh: Float64Array;
  readonly pointDrag: Float64Array;
  readonly pointSize: Float64Array;
  /** Unstretched distance of each node from the anchor along the rode, m. */
  readonly along: Float64Array;
}

/** Slot of an element's unstretched length, m. */
export const LENGTH = 0;
/** Slot of its weight, N, in the water (or whatever surrounds the anchor). */
export const LOW = 1;
/** Slot of its weight above the surface, N. */
export const HIGH = 2;
/** Slot of ½ρ d L C for flow across it, N per (m/s)². */
export const DRAG_ACROSS = 3;
/** Slot of the same for flow along it. */
export const DRAG_ALONG = 4;
/** Slot of where the first band of its stretch law stands in `band`. */
export const FIRST_BAND = 5;
/** Slot of where the last one does. */
export const LAST_BAND = 6;
/** Numbers an element has in `slots`. */
export const ELEMENT_SLOTS = 7;

/**
 * Water moving with the rode, as a share of the water it displaces: across and along.
 * @source chain: DNV-OS-E301 (recalled); a round line across: potential flow, exactly 1; along: none.
 */
export const ADDED = { chain: { across: 1, along: 0.5 }, other: { across: 1, along: 0 } } as const;

/** Drag coefficient of a lump such as a kellet or a float on its frontal area as a sphere (recalled). */
const LUMP_DRAG = 0.8;

/** A line that a file calls unstretchable is given this strain at `load`, small beside what can be read off. */
const STIFF_STRAIN = 2e-5;

/**
 * @param most elements wanted in all; every line gets one at least
 * @param load a load the rode will see, N: how stiff a line without stretch is taken to be
 */
export function cutIntoElements(rig: Rig, most: number, load: number): Elements {
  const compiled = compile(rig);
  const water = rig.setting.medium === "water" ? rig.setting.waterDensity : 0;
  const lines = rig.rode.filter((part) => part.kind === "line");
  const total = compiled.totalLength;
  const shares = lines.map((line) => Math.max(1, Math.round((most * line.length) / total)));
  const count = shares.reduce((sum, n) => sum + n, 0);
  const f = (n: number): Float64Array => new Float64Array(n);
  const e = {
    count,
    part: new Int32Array(count),
    mass: f(count),
    displaced: f(count),
    addedAcross: f(count),
    addedAlong: f(count),
    band: f(3 * compiled.bandLoad.length),
    slots: f(ELEMENT_SLOTS * count),
    loops: ropeLoops(lines.flatMap((line, i) => new Array<LinePart>(shares[i]!).fill(line))),
    pointNode: new Int32Array(0),
    pointMass: f(count + 1),
    pointDisplaced: f(count + 1),
    pointLow: f(count + 1),
    pointHigh: f(count + 1),
    pointDrag: f(count + 1),
    pointSize: f(count + 1),
    along: f(count + 1),
  };
  const hardest = Math.max(load, compiled.heft, 1);
  for (let b = 0; b < compiled.bandLoad.length; b++) {
    const compliance = compiled.bandCompliance[b]!;
    const start = compiled.bandLoad[b]!;
    const stiffness = compliance > 0 ? 1 / compliance : hardest / STIFF_STRAIN;
    e.band.set([compiled.bandStrain[b]! + compliance * start, start, stiffness], 3 * b);
  }
  let at = 0;
  let line = 0;
  rig.rode.forEach((part, i) => {
    if (part.kind === "point") {
      const displaced = part.mass / part.density;
      const size = Math.cbrt((6 * displaced) / Math.PI);
      e.pointMass[at]! += part.mass;
      e.pointDisplaced[at]! += displaced * water;
      e.pointLow[at]! += compiled.low[i]!;
      e.pointHigh[at]! += compiled.high[i]!;
      e.pointDrag[at]! += 0.5 * water * LUMP_DRAG * 0.25 * Math.PI * size * size;
      e.pointSize[at] = Math.max(e.pointSize[at]!, size);
      return;
    }
    const pieces = shares[line++]!;
    const length = part.length / pieces;
    const drag = part.drag ?? (part.material === "chain" ? DRAG.chain : DRAG.other);
    const added = part.material === "chain" ? ADDED.chain : ADDED.other;
    const half = 0.5 * water * dragDiameter(part) * length;
    const displaced = (water * part.massPerLength * length) / part.density;
    const own = new Float64Array(ELEMENT_SLOTS);
    own[LENGTH] = length;
    own[LOW] = compiled.low[i]! * length;
    own[HIGH] = compiled.high[i]! * length;
    own[DRAG_ACROSS] = half * drag.across;
    own[DRAG_ALONG] = half * drag.along;
    own[FIRST_BAND] = 3 * compiled.firstBand[i]!;
    own[LAST_BAND] = 3 * (compiled.firstBand[i + 1]! - 1);
    for (let k = 0; k < pieces; k++, at++) {
      e.part[at] = i;
      e.mass[at] = part.massPerLength * length;
      e.displaced[at] = displaced;
      e.addedAcross[at] = displaced * added.across;
      e.addedAlong[at] = displaced * added.along;
      e.slots.set(own, ELEMENT_SLOTS * at);
      e.along[at + 1] = e.along[at]! + length;
    }
  });
  // Assigned, not spread: objects spread have each a shape of their own, and code made for one shape is given up at the next.
  e.pointNode = Int32Array.from(e.pointMass.keys()).filter((n) => e.pointMass[n] !== 0);
  return e;
}
