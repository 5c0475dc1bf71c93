/**
 * Closes a rode that touches what another, laid out beside it, touches: all unknowns at once, the horizontal force and the
 * value of each stage (stage.ts), in
 *
 *     each leg but the last ends where it is to touch,     the last at the bow roller,     what is stated is met.
 *
 * Newton's steps by an inverse Jacobian that each step bends (Broyden), some five walks of the rode in all, where the search
 * of lay-out.ts and settle-contact.ts, which take nothing for granted, walk it hundreds of times. It answers only what has
 * closed as sharply as they close and lies nowhere through the bottom; all else is left to them.
 */
import { broydenUpdate, inverseJacobian, product } from "../../numeric/index.ts";
import type { CompiledRode } from "../compile.ts";
import type { Cursor } from "./cursor.ts";
import { type LaidOut, type Leg, touchAt } from "./lay-out.ts";
import { begin, bounds, type Stage } from "./stage.ts";
import type { Stepper } from "./stepper.ts";
import { aboveBottom, walk } from "./walk.ts";

/** A rode laid out near the one that is looked for. */
export interface Near {
  /** Horizontal force at the anchor or where the rode first leaves the bottom, N. */
  readonly H: number;
  readonly legs: readonly Leg[];
  /** Of a rode closed before: saves the differences. */
  readonly inverse?: Float64Array;
}

/** Not closed: the horizontal force it came to, N. */
export interface Open {
  readonly kind: "open";
  readonly H: number;
}

export interface ClosedLegs extends Near {
  readonly kind: "closed";
  readonly laid: LaidOut;
  readonly inverse: Float64Array;
}

/** Closed to rounding: another step could only stir it. Closed as far as a walk's own errors allow. */
const ROUNDING = 1e-14;
const CLOSED = 2e-12;
/** Relative step of the differences that stand for derivatives: errors of the fourth decimal cost a step, not the answer. */
const WIDTH = 1e-6;
const MOST_STEPS = 24;
/** The horizontal force is not changed by more than this in its logarithm by one step. */
const BOLDEST = 1.5;

/**
 * @param miss what is stated less the target, over the target
 */
export function closeLegs(
  rode: CompiledRode,
  stepper: Stepper,
  near: Near,
  miss: (end: Cursor, anchor: number) => number,
): ClosedLegs | Open {
  const n = near.legs.length + 1;
  const size = (i: number): number => (i > 0 && inMetres(near.legs[i - 1]!, values[i]!) ? rode.totalLength : rode.heft);
  const values = Float64Array.of(Math.log(near.H), ...near.legs.map((leg) => leg.value));
  const ask = (x: Float64Array, out: Float64Array): Followed | null => follow(rode, stepper, near.legs, x, out, miss);
  const f = new Float64Array(n);
  let here = ask(values, f);
  if (here === null) return { kind: "open", H: near.H };
  const differences = (): Float64Array | null => {
    const widths = values.map((value, i) =>
      i === 0 ? WIDTH : (value < 0 ? -1 : 1) * WIDTH * Math.max(Math.abs(value), 1e-3 * size(i)),
    );
    return inverseJacobian((x, out) => ask(x, out) !== null, values, f, widths);
  };
  let inverse = near.inverse?.length === n * n ? Float64Array.from(near.inverse) : differences();
  let fresh = near.inverse === undefined;
  let best = { here, values: Float64Array.from(values), worst: worstOf(f) };
  const next = new Float64Array(n);
  const fNext = new Float64Array(n);
  let turned = 0;
  for (let step = 0; step < MOST_STEPS && best.worst > ROUNDING; step++) {
    if (inverse === null) break;
    const s = product(inverse, f).map((one) => -one);
    const cut = keepRegimes(near.legs, values, s, next);
    if (cut === "leaves") break;
    let there = ask(next, fNext);
    for (let half = 0; half < 3 && (there === null || worstOf(fNext) > 4 * worstOf(f)); half++) {
      if (!fresh) break;
      for (let i = 0; i < n; i++) next[i] = 0.5 * (next[i]! + values[i]!);
      there = ask(next, fNext);
    }
    const gains = there !== null && worstOf(fNext) < 0.5 * worstOf(f);
    if (there === null || (!gains && worstOf(f) > CLOSED)) {
      // The derivatives no longer hold: once more from differences, and where they are fresh, go with what was gained.
      if (!fresh) {
        inverse = differences();
        fresh = true;
        continue;
      }
      if (there === null) break;
    }
    const before = best.worst;
    const now = worstOf(fNext);
    if (cut !== "crosses") {
      broydenUpdate(
        inverse,
        next.map((value, i) => value - values[i]!),
        fNext.map((value, i) => value - f[i]!),
      );
      fresh = false;
    }
    values.set(next);
    f.set(fNext);
    here = there;
    if (now < before) best = { here, values: Float64Array.from(values), worst: now };
    // Closed, and the last step has closed it no further: what is left is the rounding of the walks.
    if (before <= CLOSED && now > 0.1 * before) break;
    if (cut === "crosses") {
      if (++turned > 2) break;
      inverse = differences();
      fresh = true;
    }
  }
  const H = Math.exp(best.values[0]!);
  const lengths = rode.rise + rode.totalLength;
  const { laid, deepest } = best.here;
  // A current that pulls more than the pull leaves the bow slack: that is for the search to say.
  const sound = deepest > -3e-12 * lengths && laid.end.H > 0 && inBounds(rode, laid.legs);
  if (inverse === null || !sound || !(best.worst <= CLOSED)) return { kind: "open", H };
  return { kind: "closed", H, legs: laid.legs, laid, inverse };
}

interface Followed {
  readonly laid: LaidOut;
  readonly deepest: number;
}

/** Walks a rode through the touches of another, with values of its own; null where it comes past one of them. */
function follow(
  rode: CompiledRode,
  stepper: Stepper,
  shape: readonly Leg[],
  x: Float64Array,
  out: Float64Array,
  miss: (end: Cursor, anchor: number) => number,
): Followed | null {
  const lengths = rode.rise + rode.totalLength;
  const legs: Leg[] = [];
  let stage: Stage = { kind: "anchor", H: Math.exp(x[0]!) };
  let [anchor, grounded, deepest] = [0, 0, Number.POSITIVE_INFINITY];
  for (let i = 0; ; i++) {
    const { stop } = shape[i]!;
    const value = x[i + 1]!;
    legs.push({ stage, value, stop });
    const start = begin(rode, stage, value, null);
    if (!Number.isFinite(start.cursor.H + start.cursor.V + start.cursor.z)) return null;
    if (i === 0) anchor = start.anchor;
    grounded += start.grounded;
    const walked = walk(rode, stepper, start.cursor, null, stop, true);
    if (!walked.stopped) return null;
    deepest = Math.min(deepest, walked.deepest);
    const { end } = walked;
    if (i + 1 === shape.length) {
      out[i] = (end.z - rode.rise) / lengths;
      out[i + 1] = miss(end, anchor);
      const laid: LaidOut = { legs, end, anchor, lift: Math.max(0, x[1]!), grounded };
      return out.every(Number.isFinite) ? { laid, deepest } : null;
    }
    const { kind } = shape[i + 1]!.stage;
    if (kind === "anchor") return null;
    out[i] =
      stop.at === "start"
        ? end.V / rode.heft
        : (kind === "touching" || kind === "landing" ? aboveBottom(rode, end) : end.z - rode.surface) / lengths;
    stage = touchAt(rode, kind, end);
  }
}

function worstOf(f: Float64Array): number {
  let worst = 0;
  for (const one of f) worst = Math.max(worst, Math.abs(one));
  return worst;
}

/** Whether a stage's value is a length, or as good as one, and not a force. */
function inMetres({ stage }: Leg, value: number): boolean {
  return stage.kind === "anchor" ? value < 0 : stage.kind !== "pointAfloat";
}

/**
 * Puts the next values down. A stage whose value changes its meaning at 0 (lift and rest at the anchor, rising and diving
 * from the surface) is led across it in two steps, the first of which ends just beyond.
 * @returns "leaves" where a touch would have to pull
 */
function keepRegimes(
  legs: readonly Leg[],
  values: Float64Array,
  s: Float64Array,
  next: Float64Array,
): "keeps" | "crosses" | "leaves" {
  let share = Math.min(1, BOLDEST / Math.abs(s[0]!));
  let crossing = -1;
  legs.forEach(({ stage }, i) => {
    const [from, to] = [values[i + 1]!, values[i + 1]! + s[i + 1]!];
    const seam = stage.kind === "anchor" || stage.kind === "lineAfloat";
    if (seam && from < 0 !== to < 0 && from !== 0) {
      const until = -from / s[i + 1]!;
      if (until < share) {
        share = until;
        crossing = i + 1;
      }
    }
  });
  for (let i = 0; i < values.length; i++) next[i] = values[i]! + share * s[i]!;
  if (!next.every(Number.isFinite)) return "leaves";
  if (crossing < 0) return "keeps";
  // Just beyond: a number of the other sign, too small to move anything.
  next[crossing] = values[crossing]! < 0 ? 1e-9 : -1e-9;
  return "crosses";
}

/** Whether no touch pulls and no more lies than can. */
function inBounds(rode: CompiledRode, legs: readonly Leg[]): boolean {
  return legs.every(({ stage, value }) => {
    const [low, high] = bounds(rode, stage);
    return value >= low && value <= high;
  });
}
