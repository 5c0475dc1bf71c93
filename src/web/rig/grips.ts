/** From what a hand does in the drawing to a change of the rig. Each grip gives a new state, or null: it cannot go there. */
import { boundsOf, endForcesOf, type Rig, type RodeShape, riseOf, settle, withValue } from "../../rode/index.ts";
import { paidOut, sliding, totalLength } from "./parts.ts";
import type { RigState } from "./state.ts";

/** Loads are stated to so many digits when they come from a hand. */
const DIGITS = 3;
const CENTIMETRE = 0.01;

const round = (value: number, digits = DIGITS): number => Number(value.toPrecision(digits));
const toCentimetre = (value: number): number => Math.round(value / CENTIMETRE) * CENTIMETRE;
const tidy = (value: number): number => Number(value.toFixed(2));

/** The loads the drawing reaches by hand: from a slack rode to half as much again as its weakest part breaks at, N. */
export function loadRange(rig: Rig): readonly [least: number, most: number] {
  let breaking = Number.POSITIVE_INFINITY;
  let mass = 0;
  for (const part of rig.rode) {
    breaking = Math.min(breaking, part.breakingLoad ?? Number.POSITIVE_INFINITY);
    mass += part.kind === "line" ? part.massPerLength * part.length : part.mass;
  }
  const weight = 9.81 * mass;
  const most = Number.isFinite(breaking) ? 1.5 * breaking : 60 * weight;
  return [round(Math.max(1, 0.002 * most), 1), round(Math.max(most, 3 * weight), 2)];
}

/** The boat drawn to a distance from the anchor, m: the load at the stated end that takes. */
export function drawnTo(state: RigState, span: number): RigState | null {
  const { rig, load } = state;
  const [least, most] = loadRange(rig);
  const settled = settle(rig, { at: "span", metres: span });
  let newtons: number;
  if (settled.kind === "settled") {
    newtons =
      load.at === "bow" ? settled.bow.tension : load.at === "anchor" ? settled.anchor.tension : settled.horizontal;
  } else if (settled.cause === "beyondReach") newtons = most;
  else if (settled.cause === "tooNear") newtons = least;
  else return null;
  return withLoad(state, newtons);
}

/** The state with another load at its stated end, kept within what settles. */
export function withLoad(state: RigState, newtons: number): RigState | null {
  const [least, most] = loadRange(state.rig);
  const { at } = state.load;
  const endForces = endForcesOf(state.rig);
  const held = round(Math.min(most, Math.max(least, newtons)));
  if (endForces({ at, newtons: held }) !== null) return { ...state, load: { at, newtons: held } };
  // Too little to hold what hangs there: the least that does, to the digits a hand states.
  let [low, high] = [held, most];
  if (endForces({ at, newtons: high }) === null) return null;
  for (let i = 0; i < 24; i++) {
    const middle = Math.sqrt(low * high);
    if (endForces({ at, newtons: middle }) === null) low = middle;
    else high = middle;
  }
  const up = 10 ** (Math.floor(Math.log10(high)) - DIGITS + 1);
  return { ...state, load: { at, newtons: round(Math.ceil(high / up) * up) } };
}

/** Water over the anchor, or in air the height of the upper end, m; kept to centimetres and within the rode's length. */
export function withDepth(state: RigState, value: number): RigState | null {
  const { rig } = state;
  const what = rig.setting.medium === "water" ? "depth" : "rise";
  const spare = rig.setting.medium === "water" ? rig.setting.rollerHeight : 0;
  const most = 0.98 * totalLength(rig) - spare;
  if (most <= 0.1) return null;
  const held = tidy(toCentimetre(Math.min(most, Math.max(0.1, value))));
  return { ...state, rig: withValue(rig, { what }, held) };
}

export const depthOf = ({ setting }: Rig): number => (setting.medium === "water" ? setting.depth : setting.rise);

/** Rode paid out: the line nearest the bow made so long, m. */
export function withPaidOut(state: RigState, length: number): RigState | null {
  const { rig } = state;
  const at = paidOut(rig.rode);
  if (at < 0) return null;
  const [least] = boundsOf(rig, { what: "length", part: at + 1 });
  const most = 20 * (totalLength(rig) + riseOf(rig.setting));
  const held = tidy(toCentimetre(Math.min(most, Math.max(1.02 * least + CENTIMETRE, length))));
  return { ...state, rig: withValue(rig, { what: "length", part: at + 1 }, held) };
}

export function paidOutLength(rig: Rig): number {
  const part = rig.rode[paidOut(rig.rode)];
  return part?.kind === "line" ? part.length : 0;
}

/** A weight slid along the rode to a distance from the anchor, m of unloaded line. */
export function slidTo(state: RigState, part: number, distance: number): RigState | null {
  const { rig } = state;
  const [from, to] = slideRange(rig, part);
  if (!(to > from)) return null;
  const inset = Math.min(0.1, 0.1 * (to - from));
  const held = tidy(toCentimetre(Math.min(to - inset, Math.max(from + inset, distance))));
  return { ...state, rig: withValue(rig, { what: "place", part: part + 1 }, held) };
}

/** Where a sliding weight may go, m from the anchor along the unloaded rode; equal ends: nowhere. */
export function slideRange(rig: Rig, part: number): readonly [from: number, to: number] {
  if (!sliding(rig.rode).includes(part)) return [0, 0];
  const lengths = rig.rode.map((each) => (each.kind === "line" ? each.length : 0));
  const from = lengths.slice(0, part - 1).reduce((sum, length) => sum + length, 0);
  return [from, from + lengths[part - 1]! + lengths[part + 1]!];
}

export function placeOf(rig: Rig, part: number): number {
  return rig.rode.slice(0, part).reduce((sum, each) => sum + (each.kind === "line" ? each.length : 0), 0);
}

/**
 * The place on a drawn rode nearest to a point, m of unloaded rode from the anchor.
 * @param x m from the anchor
 * @param z m above it
 */
export function nearestOn(shape: RodeShape, rig: Rig, x: number, z: number): number {
  const drawn = new Float64Array(rig.rode.length);
  for (let i = 1; i < shape.x.length; i++) drawn[shape.part[i]!]! += stroke(shape, i);
  let best = { distance: Number.POSITIVE_INFINITY, part: 0, along: 0 };
  let part = -1;
  let along = 0;
  for (let i = 1; i < shape.x.length; i++) {
    if (shape.part[i] !== part) {
      part = shape.part[i]!;
      along = 0;
    }
    const length = stroke(shape, i);
    const [dx, dz] = [shape.x[i]! - shape.x[i - 1]!, shape.z[i]! - shape.z[i - 1]!];
    const t =
      length === 0
        ? 0
        : Math.min(1, Math.max(0, ((x - shape.x[i - 1]!) * dx + (z - shape.z[i - 1]!) * dz) / length ** 2));
    const distance = Math.hypot(x - shape.x[i - 1]! - t * dx, z - shape.z[i - 1]! - t * dz);
    if (distance < best.distance) best = { distance, part, along: along + t * length };
    along += length;
  }
  const line = rig.rode[best.part];
  const share = drawn[best.part]! > 0 ? best.along / drawn[best.part]! : 0;
  return placeOf(rig, best.part) + (line?.kind === "line" ? share * line.length : 0);
}

function stroke(shape: RodeShape, i: number): number {
  return Math.hypot(shape.x[i]! - shape.x[i - 1]!, shape.z[i]! - shape.z[i - 1]!);
}
