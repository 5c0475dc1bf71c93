import type { Measured } from "../trace/trace.ts";
import { fixErrors } from "./fix-error.ts";
import type { Ramp } from "./ramp.ts";
import type { StretchModel } from "./stretch.ts";

/** Which way the boat pulls, rad clockwise from north, from the anchor to her, and how it is known. */
export interface Direction extends Measured {
  readonly by: "stated" | "anchor" | "heading" | "track";
}

/** A move of the boat in the plane, too large for the fix or the rode. */
interface BigMove {
  readonly ramp: Ramp;
  readonly metres: number;
  readonly angle: Measured;
}

/** A move counts as large from so many metres, and so many times its ± (squared) in the plane. */
const LARGE = { metres: 3, square: 30 };
/** A swing of the boat about the anchor is larger, m. */
const SWING = 6;
/** What moves so soon before or after a swing is part of it, s. */
const ENDS = 5;
/** A direction from the rode's give alone is taken where it stands so clear. */
const CLEAR = 4;
/** Larger moves that lie farther than this from the direction are the boat's swing about the anchor, rad. */
const SWUNG = 0.7;

/** What the whole track says of the direction: the places set against what the rode gives, on both axes at once. */
export interface PlaneFit {
  readonly direction: Measured | null;
  /** Where the boat swung to another direction, in steps of the grid. */
  readonly swings: readonly Ramp[];
}

export function planeFit(model: StretchModel, known: Direction | null): PlaneFit {
  const column = model.giveColumn();
  let weights: Float64Array = new Float64Array(fixErrors.length).fill(1 / fixErrors.length);
  const east = model.along(Math.PI / 2);
  const north = model.along(0);
  const moves: BigMove[] = [];
  for (let round = 0; round < 4; round++) {
    const ramps = moves.map((m) => m.ramp);
    weights = softmax(
      fixErrors.map(
        (_, e) =>
          model.slope(e, east, column, ramps, false).evidence + model.slope(e, north, column, ramps, false).evidence,
      ),
    );
    const best = mostLikely(weights);
    const [re, rn] = [model.residual(best, east, ramps, true), model.residual(best, north, ramps, true)];
    let found: BigMove | null = null;
    let most = LARGE.square;
    const powers = model.powers(best);
    for (const [k, ramp] of model.windows.entries()) {
      const [e, n] = [re(ramp, powers[k]), rn(ramp, powers[k])];
      const z2 = 2 * (e.evidence + n.evidence);
      if (z2 > most && Math.hypot(e.value, n.value) > LARGE.metres) {
        most = z2;
        const metres = Math.hypot(e.value, n.value);
        found = { ramp, metres, angle: { value: Math.atan2(e.value, n.value), u: Math.max(0.15, e.u / metres) } };
      }
    }
    if (!found) break;
    moves.push(found);
  }
  const ramps = moves.map((m) => m.ramp);
  let [e, n, variance] = [0, 0, 0];
  fixErrors.forEach((_, k) => {
    if (!(weights[k]! > 1e-4)) return;
    const [se, sn] = [model.slope(k, east, column, ramps), model.slope(k, north, column, ramps)];
    e += weights[k]! * se.value;
    n += weights[k]! * sn.value;
    variance += weights[k]! * se.u ** 2;
  });
  const size = Math.hypot(e, n);
  const own: Measured | null =
    size > 1.5 * Math.sqrt(variance) ? { value: Math.atan2(e, n), u: Math.sqrt(variance) / size } : null;
  // A small move helps where the rode's give tells little; a large one may be a swing, and is believed only alone, and one
  // beside it in time is its beginning or its end.
  const large = moves.filter((m) => m.metres >= SWING).map((m) => m.ramp);
  const ends = ENDS / model.grid.step;
  const small = moves
    .filter((m) => m.metres < SWING && !large.some((l) => m.ramp.from < l.to + ends && m.ramp.to > l.from - ends))
    .map((m) => m.angle);
  const told = own ? (own.u < 1 / CLEAR ? [own] : [own, ...small]) : moves.map((m) => m.angle);
  const direction = known ?? mixed(told);
  const swings = direction
    ? moves
        .filter(
          (m) => m.metres > SWING && Math.abs(apart(m.angle.value, direction.value)) > Math.max(SWUNG, 2 * direction.u),
        )
        .map((m) => m.ramp)
    : [];
  return { direction, swings };
}

/** Directions that each tell something, weighed by what they tell. */
function mixed(all: readonly Measured[]): Measured | null {
  let [x, y, w] = [0, 0, 0];
  for (const { value, u } of all) {
    x += Math.cos(value) / u ** 2;
    y += Math.sin(value) / u ** 2;
    w += 1 / u ** 2;
  }
  const size = Math.hypot(x, y);
  // Where they contradict each other the sum is short, and says less.
  return size > 0 ? { value: Math.atan2(y, x), u: Math.sqrt(1 / size) * Math.sqrt(w / size) } : null;
}

/** Difference of two angles, rad, −π to π. */
export function apart(a: number, b: number): number {
  return Math.atan2(Math.sin(a - b), Math.cos(a - b));
}

export function softmax(logs: readonly number[]): Float64Array {
  const most = Math.max(...logs);
  const out = Float64Array.from(logs, (v) => Math.exp(v - most));
  const sum = out.reduce((s, v) => s + v, 0);
  return out.map((v) => v / sum);
}

export function mostLikely(weights: Float64Array): number {
  return weights.reduce((best, w, k) => (w > weights[best]! ? k : best), 0);
}
