import { compile } from "./compile.ts";
import type { NoEquilibrium, Pull, Rig, Settled } from "./model.ts";
import { noEquilibrium } from "./no-equilibrium.ts";
import { pullForAngle } from "./pull-for-angle.ts";
import { settle, settleTraced } from "./settle.ts";
import { partLoads } from "./shape.ts";
import { boundsOf, type Unknown, withValue } from "./unknown.ts";

/** What the unknown is to bring about. */
export type Goal =
  /** Angle of the pull at the anchor above the horizontal, rad. */
  | { readonly goal: "anchorAngle"; readonly angle: number }
  /** The anchor end is just about to leave the bottom. */
  | { readonly goal: "liftoff" }
  /** The most loaded part carries this share of its working load limit. */
  | { readonly goal: "workingLoad"; readonly share: number };

export interface Question {
  readonly unknown: Unknown;
  readonly goal: Goal;
  /** The load; only its end counts when the load is the unknown. */
  readonly pull: Pull;
}

export interface Found {
  readonly kind: "found";
  /** SI: m, kg or N. */
  readonly value: number;
  readonly rig: Rig;
  readonly settled: Settled;
}

/**
 * Finds the one unknown that brings the goal about: the first sign change along its range, closed by bisection and
 * secants. Angle and load run one way with length, depth and pull; with a kellet's mass or place they may turn, and the
 * smallest answer is given.
 *
 * @returns the value to 1e-12 relative, or the nearest angle that can be had
 */
export function find(rig: Rig, question: Question): Found | NoEquilibrium {
  const direct = question.unknown.what === "pull" ? directly(rig, question) : null;
  if (direct !== null) return direct;
  const [low, high] = boundsOf(rig, question.unknown);
  let nearest = Number.NaN;
  let nearestMiss = Number.POSITIVE_INFINITY;
  const excess = (value: number): number | null => {
    const seen = lookAt(rig, question, value);
    if (seen === null) return null;
    if (Math.abs(seen.miss) < nearestMiss) {
      nearestMiss = Math.abs(seen.miss);
      nearest = seen.reached;
    }
    return seen.miss;
  };
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
    if (fb === 0) return answer(rig, question, b);
    if (fa < 0 !== fb < 0 && !Number.isNaN(fa)) {
      const value = close(excess, a, fa, b, fb);
      if (value !== null) return answer(rig, question, value);
    }
    a = b;
    fa = fb;
  }
  if (question.goal.goal === "anchorAngle" && Number.isFinite(nearest)) {
    return noEquilibrium("angleOutOfReach", question.goal.angle, nearest);
  }
  return noEquilibrium("noSuchValue", 0, 0);
}

/** The load as unknown, for an angle or lift-off, has a search of its own; null where that does not answer. */
function directly(rig: Rig, question: Question): Found | null {
  const { goal, pull } = question;
  const still = rig.setting.medium === "air" || rig.setting.current === 0;
  const rode = compile(rig);
  if (goal.goal === "workingLoad" || !still || rode.hasBuoyant || rode.totalLength <= rode.rise) return null;
  const slope = Math.atan(rode.tanSlope);
  if (goal.goal === "anchorAngle" && goal.angle < slope) return null;
  const pulled = pullForAngle(rode, goal.goal === "liftoff" ? slope : goal.angle);
  if (pulled === null) return null;
  const at = pull.at === "span" ? "horizontal" : pull.at;
  const value = pulled[at];
  const settled = settle(rig, { at, newtons: value });
  return settled.kind === "settled" ? { kind: "found", value, rig, settled } : null;
}

function pullOf(question: Question, value: number): Pull {
  if (question.unknown.what !== "pull") return question.pull;
  return question.pull.at === "span" ? { at: "horizontal", newtons: value } : { at: question.pull.at, newtons: value };
}

/** How far a value misses the goal (its sign matters), and the anchor angle it reaches. */
function lookAt(rig: Rig, question: Question, value: number): { miss: number; reached: number } | null {
  const traced = settleTraced(withValue(rig, question.unknown, value), pullOf(question, value));
  if (!("settled" in traced)) return null;
  const { settled, lift, rode } = traced;
  const reached = settled.anchor.angle;
  const { goal } = question;
  if (goal.goal === "workingLoad") {
    const used = workingLoadUsed(rig, partLoads(traced));
    return used === null ? null : { miss: used - goal.share, reached };
  }
  if (goal.goal === "liftoff") return { miss: lift, reached };
  // Below lift-off the angle stands still; the lift goes on, and keeps the sign right.
  const slope = Math.atan(rode.tanSlope);
  if (goal.angle <= slope && lift <= 0) return { miss: goal.angle < slope ? slope - goal.angle : lift, reached };
  return { miss: reached - goal.angle, reached };
}

/** The highest share of a working load limit among the parts that have one; null when none has. */
export function workingLoadUsed(rig: Rig, loads: Float64Array): number | null {
  let most: number | null = null;
  rig.rode.forEach((part, i) => {
    if (part.workingLoad !== undefined) most = Math.max(most ?? 0, loads[i]! / part.workingLoad);
  });
  return most;
}

function answer(rig: Rig, question: Question, value: number): Found | NoEquilibrium {
  const found = withValue(rig, question.unknown, value);
  const traced = settleTraced(found, pullOf(question, value));
  return "settled" in traced ? { kind: "found", value, rig: found, settled: traced.settled } : traced;
}

/** Closes a bracket on a sign change; null when the function jumps there instead of passing zero. */
function close(f: (value: number) => number | null, a: number, fa: number, b: number, fb: number): number | null {
  let lo = a;
  let flo = fa;
  let hi = b;
  let fhi = fb;
  const jump = Math.min(Math.abs(fa), Math.abs(fb));
  for (let i = 0; i < 200; i++) {
    let m = i % 3 === 2 ? 0.5 * (lo + hi) : lo - (flo * (hi - lo)) / (fhi - flo);
    if (!(m > lo && m < hi)) m = 0.5 * (lo + hi);
    if (m <= lo || m >= hi || hi - lo <= 1e-15 * Math.abs(hi)) break;
    const fm = f(m);
    if (fm === null) return null;
    if (fm === 0) return m;
    if (fm < 0 === flo < 0) {
      lo = m;
      flo = fm;
    } else {
      hi = m;
      fhi = fm;
    }
  }
  const best = Math.abs(flo) < Math.abs(fhi) ? lo : hi;
  return Math.min(Math.abs(flo), Math.abs(fhi)) <= 1e-6 * (1 + jump) ? best : null;
}
