import { brent } from "../numeric/index.ts";
import { compile } from "./compile.ts";
import type { Near } from "./contact/close-legs.ts";
import { inStillWater, type NoEquilibrium, type Pull, type Rig, type Settled } from "./model.ts";
import { noEquilibrium } from "./no-equilibrium.ts";
import { pullForAngle } from "./pull-for-angle.ts";
import { partLoads } from "./rode-shape.ts";
import { settle, settleTraced } from "./settle.ts";
import { boundsOf, type Unknown, withValue } from "./unknown.ts";

/** What the unknown is to bring about. */
export type Goal =
  /** Angle of the pull at the anchor above the horizontal, rad. */
  | { readonly goal: "anchorAngle"; readonly angle: number }
  /** Angle of the pull at the anchor above the bottom, rad: what an anchor feels. */
  | { readonly goal: "angleToBottom"; readonly angle: number }
  /** The anchor end is just about to leave the bottom. */
  | { readonly goal: "liftoff" }
  /** The most loaded part carries this share of its working load limit. */
  | { readonly goal: "workingLoad"; readonly share: number };

/** One unknown, what it is to bring about, and the load. */
export interface Question {
  readonly unknown: Unknown;
  readonly goal: Goal;
  /** The load; only its end counts when the load is the unknown. */
  readonly pull: Pull;
  /** About where the value lies, where that is known, as from a rig much like this one: looked for there first. */
  readonly near?: number;
  /**
   * How closely the value is wanted, as a share of itself, by who asks it of many rigs much like each other, and knows
   * `near`: then it is looked for from there alone. To rounding, and anywhere, where that is not said.
   */
  readonly tolerance?: number;
  /** How the rode lies about there (of a rode with floats or in a current; `lies` of what was found). */
  readonly from?: Near;
}

/** The unknown found, with the rig it makes and its equilibrium. */
export interface Found {
  readonly kind: "found";
  /** SI: m, kg or N. */
  readonly value: number;
  readonly rig: Rig;
  readonly settled: Settled;
  /** How the rode lies, where another much like it is to be found from it. */
  readonly lies?: Near;
}

/**
 * Finds the one unknown that brings the goal about: the first sign change along its range, closed by bisection and
 * secants. Angle and load run one way with length, depth and pull; with a kellet's mass or place they may turn, and the
 * smallest answer is given.
 *
 * @returns the value to 1e-12 relative where no tolerance is stated, or the nearest angle that can be had
 */
export function find(rig: Rig, question: Question): Found | NoEquilibrium {
  const direct = question.unknown.what === "pull" ? directly(rig, question) : null;
  if (direct !== null) return direct;
  const [low, high] = boundsOf(rig, question.unknown);
  let nearest = Number.NaN;
  let nearestMiss = Number.POSITIVE_INFINITY;
  let last = question.from;
  const excess = (value: number): number | null => {
    const seen = lookAt(rig, question, value, last);
    if (seen === null) return null;
    last = seen.near;
    if (Math.abs(seen.miss) < nearestMiss) {
      nearestMiss = Math.abs(seen.miss);
      nearest = seen.reached;
    }
    return seen.miss;
  };
  const guess = question.near ?? guessOf(rig, question);
  if (guess !== null) {
    const value = closeNear(excess, guess, low, high, question.tolerance);
    if (value !== null) return answer(rig, question, value, last);
    // One of many rigs much like each other: what lies nowhere near is not looked for through the whole range.
    if (question.tolerance !== undefined) return noEquilibrium("noSuchValue", 0, 0);
  }
  const steps = 160;
  const logarithmic = high / low > 20;
  const valueAt = (i: number): number =>
    logarithmic ? low * (high / low) ** (i / steps) : low + ((high - low) * i) / steps;
  let a = Number.NaN;
  let fa = Number.NaN;
  for (let i = 0; i <= steps; i++) {
    const b = valueAt(i);
    const fb = excess(b);
    if (fb === null) {
      fa = Number.NaN;
      continue;
    }
    if (fb === 0) return answer(rig, question, b, last);
    if (fa < 0 !== fb < 0 && !Number.isNaN(fa)) {
      const value = close(excess, a, fa, b, fb, question.tolerance);
      if (value !== null) return answer(rig, question, value, last);
    }
    a = b;
    fa = fb;
  }
  const { goal } = question;
  if (goal.goal === "angleToBottom" && Number.isFinite(nearest))
    return noEquilibrium("angleToBottomOutOfReach", goal.angle, nearest);
  if (goal.goal === "anchorAngle" && Number.isFinite(nearest))
    return noEquilibrium("angleOutOfReach", goal.angle, nearest + rig.setting.bottomSlope);
  return noEquilibrium("noSuchValue", 0, 0);
}

/** The load that would do without current and floats, which is much the same where those are slight; null where none does. */
function guessOf(rig: Rig, question: Question): number | null {
  if (question.unknown.what !== "pull" || question.goal.goal === "workingLoad") return null;
  const rode = rig.rode.filter((part) => rig.setting.medium === "air" || part.density > rig.setting.waterDensity);
  const setting = rig.setting.medium === "air" ? rig.setting : { ...rig.setting, current: 0 };
  return directly({ ...rig, rode, setting }, question)?.value ?? null;
}

/** How far from a rig much like it a value is looked for: so many times more or less. */
const FARTHEST = 300;

/** Root beside a guess, looked for ever farther to both sides; null where no change of sign is found nearby. */
function closeNear(
  f: (value: number) => number | null,
  guess: number,
  low: number,
  high: number,
  tolerance?: number,
): number | null {
  if (!(guess > low && guess < high)) return null;
  const at = f(guess);
  if (at === null) return null;
  if (at === 0) return guess;
  const ends = { up: { value: guess, miss: at as number | null }, down: { value: guess, miss: at as number | null } };
  for (let share = 1e-3; share < (tolerance === undefined ? 1 : FARTHEST); share *= 4) {
    for (const side of ["up", "down"] as const) {
      const before = ends[side];
      if (before.miss === null) continue;
      const value = side === "up" ? Math.min(high, guess * (1 + share)) : Math.max(low, guess / (1 + share));
      const miss = f(value);
      if (miss !== null && miss < 0 !== before.miss < 0) {
        const [a, b] = value < before.value ? [value, before.value] : [before.value, value];
        return value < before.value
          ? close(f, a, miss, b, before.miss, tolerance)
          : close(f, a, before.miss, b, miss, tolerance);
      }
      ends[side] = { value, miss };
    }
    if (ends.up.miss === null && ends.down.miss === null) return null;
  }
  return null;
}

/** The load as unknown, for an angle or lift-off, has a search of its own; null where that does not answer. */
function directly(rig: Rig, question: Question): Found | null {
  const { goal, pull } = question;
  const still = inStillWater(rig.setting);
  const rode = compile(rig);
  if (goal.goal === "workingLoad" || !still || rode.hasBuoyant || rode.totalLength <= rode.rise) return null;
  const pulled = pullForAngle(rode, goal.goal === "liftoff" ? 0 : toBottom(rig, goal));
  if (pulled === null) return null;
  const at = pull.at === "span" ? "horizontal" : pull.at;
  const value = pulled[at];
  const settled = settle(rig, { at, newtons: value });
  return settled.kind === "settled" ? { kind: "found", value, rig, settled } : null;
}

/** The angle a goal asks for, above the bottom: an angle above the horizontal less the slope, rad. */
function toBottom(rig: Rig, goal: Extract<Goal, { readonly angle: number }>): number {
  return goal.goal === "angleToBottom" ? goal.angle : goal.angle - rig.setting.bottomSlope;
}

function pullOf(question: Question, value: number): Pull {
  if (question.unknown.what !== "pull") return question.pull;
  return question.pull.at === "span" ? { at: "horizontal", newtons: value } : { at: question.pull.at, newtons: value };
}

/** How far a value misses the goal (its sign matters), the angle to the bottom it reaches, and how the rode lies there. */
interface Seen {
  readonly miss: number;
  readonly reached: number;
  readonly near: Near | undefined;
}

function lookAt(rig: Rig, question: Question, value: number, from: Near | undefined): Seen | null {
  const traced = settleTraced(withValue(rig, question.unknown, value), pullOf(question, value), from);
  if (!("settled" in traced)) return null;
  const { settled, excess, near } = traced;
  const reached = settled.anchor.angleToBottom;
  const { goal } = question;
  if (goal.goal === "workingLoad") {
    const used = workingLoadUsed(rig, partLoads(traced));
    return used === null ? null : { miss: used - goal.share, reached, near };
  }
  if (goal.goal === "liftoff") return { miss: excess, reached, near };
  // Below lift-off the angle stands still; the lift goes on, and keeps the sign right.
  const asked = toBottom(rig, goal);
  if (asked <= 0 && excess <= 0) return { miss: asked < 0 ? -asked : excess, reached, near };
  return { miss: reached - asked, reached, near };
}

/** The highest share of a working load limit among the parts that have one; null when none has. */
export function workingLoadUsed(rig: Rig, loads: Float64Array): number | null {
  let most: number | null = null;
  rig.rode.forEach((part, i) => {
    if (part.workingLoad !== undefined) most = Math.max(most ?? 0, loads[i]! / part.workingLoad);
  });
  return most;
}

function answer(rig: Rig, question: Question, value: number, from: Near | undefined): Found | NoEquilibrium {
  const found = withValue(rig, question.unknown, value);
  const traced = settleTraced(found, pullOf(question, value), from);
  if (!("settled" in traced)) return traced;
  const { settled, near } = traced;
  return { kind: "found", value, rig: found, settled, ...(near === undefined ? {} : { lies: near }) };
}

/** Closes a bracket on a sign change; null when the function jumps there instead of passing zero, or has no value. */
function close(
  f: (value: number) => number | null,
  a: number,
  fa: number,
  b: number,
  fb: number,
  tolerance = 1e-15,
): number | null {
  const value = brent((x) => f(x) ?? Number.NaN, a, b, tolerance * Math.abs(b), fa, fb);
  const miss = Number.isNaN(value) ? null : f(value);
  return miss !== null && Math.abs(miss) <= 1e-6 * (1 + Math.min(Math.abs(fa), Math.abs(fb))) ? value : null;
}
