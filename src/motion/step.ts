/**
 * One step of a moving rode in time: M r̈ = F(r, ṙ, t) by the generalised-α method of Chung and Hulbert (J. Appl. Mech. 60
 * (1993) 371, recalled), second order in the step, with the loss at high frequency chosen by the spectral radius ρ:
 *
 *     α_m = (2ρ − 1)/(ρ + 1)   α_f = ρ/(ρ + 1)   γ = ½ − α_m + α_f   β = ¼ (1 − α_m + α_f)²
 *
 * Why implicit: waves of stretch run along chain at kilometres a second and would ask an explicit step for tens of
 * microseconds; they carry nothing that an anchor feels. The step here follows the motion of the boat, and what is
 * quicker than the step dies out in it. Each Newton step solves a block-tridiagonal system: time grows with the nodes.
 * No object or array is made in a step.
 */
import { SYMMETRIC_BLOCK, solveBlockTridiagonal } from "../numeric/index.ts";
import { followGrip } from "./bottom.ts";
import type { Bow } from "./bow.ts";
import { type BowBetween, bowRow, holdNode } from "./end-rows.ts";
import { assembleForces } from "./forces.ts";
import { assembleInertia } from "./inertia.ts";
import { followLoops } from "./loop-forces.ts";
import { AT_TIME, BY_INERTIA, BY_PLACE, BY_RATE, CHANGED, type RodeState, STEP, TIME } from "./rode-state.ts";

/** Numbers of the generalised-α method for one spectral radius. */
export interface Method {
  readonly alphaM: number;
  readonly alphaF: number;
  readonly beta: number;
  readonly gamma: number;
}

/** @param radius ρ, 0 (what is quicker than the step is gone in one) to 1 (nothing is lost) */
export function generalisedAlpha(radius: number): Method {
  const alphaM = (2 * radius - 1) / (radius + 1);
  const alphaF = radius / (radius + 1);
  return { alphaM, alphaF, beta: 0.25 * (1 - alphaM + alphaF) ** 2, gamma: 0.5 - alphaM + alphaF };
}

/** Newton steps at most; a step that needs more is halved. */
const MOST = 14;
/** Halvings at most: the shortest step is h / 2¹². */
const DEEPEST = 12;
/** A change of place below this ends the Newton steps, as a share of the rode's length. */
const SETTLED = 1e-10;

const bowNow: BowBetween = {
  q: new Float64Array(3),
  rate: new Float64Array(3),
  acceleration: new Float64Array(3),
  byQ: new Float64Array(9),
  inertia: new Float64Array(9),
};
const qNext = new Float64Array(3);
const qRateNext = new Float64Array(3);
const p = new Float64Array(3);
const drift = new Float64Array(3);
/** The time a bow is asked about, s. */
const when = new Float64Array(1);

/**
 * Takes the state from its time to `h` later, in halves where the motion asks for them.
 * @returns false where even the shortest step has no solution; the state is then as far as it came
 */
export function step(state: RodeState, bow: Bow, method: Method, h: number, depth = 0): boolean {
  state.numbers[STEP] = h;
  if (tryStep(state, bow, method)) return true;
  if (depth >= DEEPEST) return false;
  return step(state, bow, method, h / 2, depth + 1) && step(state, bow, method, h / 2, depth + 1);
}

function tryStep(state: RodeState, bow: Bow, method: Method): boolean {
  const { nodes, next, change, numbers, force, system } = state;
  const h = numbers[STEP]!;
  const { alphaM, alphaF, beta, gamma } = method;
  const last = 3 * (nodes - 1);
  numbers[BY_PLACE] = (1 - alphaF) * beta * h * h;
  numbers[BY_RATE] = (1 - alphaF) * gamma * h;
  numbers[AT_TIME] = numbers[TIME]! + (1 - alphaF) * h;
  const enough = SETTLED * Math.max(1, state.elements.along[state.elements.count]!);
  numbers[BY_INERTIA] = 1 - alphaM;
  assembleInertia(state);
  bow.inertia(state.q, bowNow.inertia);
  next.set(state.acceleration);
  for (let i = 0; i < 3; i++) next[last + i] = state.qAcceleration[i]!;
  if (bow.led) {
    when[0] = numbers[TIME]! + h;
    bow.path(when, qNext, qRateNext, p);
    for (let i = 0; i < 3; i++) next[last + i] = p[i]!;
  }
  foresee(state, method);
  let before = Number.POSITIVE_INFINITY;
  for (let turn = 0; turn < MOST; turn++) {
    moveNodes(state);
    blendBow(state, bow, method);
    assembleForces(state);
    change.set(force);
    holdNode(system, change, 0);
    if (bow.led) holdNode(system, change, nodes - 1);
    else bowRow(state, bow, bowNow);
    if (!solveBlockTridiagonal(system, change)) return false;
    addChange(state);
    const most = beta * h * h * numbers[CHANGED]!;
    if (!Number.isFinite(most)) return false;
    // A kink of the bottom or of a slack line makes Newton step to and fro: far enough is good enough then.
    if (most <= enough || (turn > 8 && most <= 1e4 * enough)) {
      takeOver(state, bow, method);
      return true;
    }
    if (turn > 10 && most > before) return false;
    before = most;
  }
  return false;
}

/** Adds what was solved for; the largest of it goes into `numbers`, NaN where any is. */
function addChange({ next, change, numbers }: RodeState): void {
  let most = 0;
  for (let i = 3; i < next.length; i += 3) {
    const x = change[i]!;
    const y = change[i + 1]!;
    const z = change[i + 2]!;
    next[i]! += x;
    next[i + 1]! += y;
    next[i + 2]! += z;
    // Math.max passes a NaN on.
    most = Math.max(most, Math.abs(x), Math.abs(y), Math.abs(z));
  }
  numbers[CHANGED] = most;
}

/** What places, speeds and forces between the step's ends owe to its beginning; what is solved for comes on top in `moveNodes`. */
function foresee(state: RodeState, { alphaM, alphaF, beta, gamma }: Method): void {
  const h = state.numbers[STEP]!;
  const { place, speed, acceleration, inertia, at, rate, atFirst, rateFirst, forceFirst, nodes } = state;
  const r = (1 - alphaF) * h;
  const a = r * h * (0.5 - beta);
  const v = r * (1 - gamma);
  const m = alphaM / (1 - alphaM);
  for (let n = 1; n < nodes - 1; n++) {
    const i = 3 * n;
    const b = SYMMETRIC_BLOCK * n;
    const x = acceleration[i]!;
    const y = acceleration[i + 1]!;
    const z = acceleration[i + 2]!;
    atFirst[i] = place[i]! + r * speed[i]! + a * x;
    atFirst[i + 1] = place[i + 1]! + r * speed[i + 1]! + a * y;
    atFirst[i + 2] = place[i + 2]! + r * speed[i + 2]! + a * z;
    rateFirst[i] = speed[i]! + v * x;
    rateFirst[i + 1] = speed[i + 1]! + v * y;
    rateFirst[i + 2] = speed[i + 2]! + v * z;
    forceFirst[i] = -m * (inertia[b]! * x + inertia[b + 1]! * y + inertia[b + 2]! * z);
    forceFirst[i + 1] = -m * (inertia[b + 1]! * x + inertia[b + 3]! * y + inertia[b + 4]! * z);
    forceFirst[i + 2] = -m * (inertia[b + 2]! * x + inertia[b + 4]! * y + inertia[b + 5]! * z);
  }
  for (let i = 0; i < 3; i++) {
    at[i] = place[i]!;
    rate[i] = 0;
  }
}

/** Places and speeds where forces are worked out, by the accelerations as they stand. */
function moveNodes(state: RodeState): void {
  const { next, at, rate, atFirst, rateFirst, numbers, nodes } = state;
  const byPlace = numbers[BY_PLACE]!;
  const byRate = numbers[BY_RATE]!;
  const last = 3 * (nodes - 1);
  for (let i = 3; i < last; i += 3) {
    const x = next[i]!;
    const y = next[i + 1]!;
    const z = next[i + 2]!;
    at[i] = atFirst[i]! + byPlace * x;
    at[i + 1] = atFirst[i + 1]! + byPlace * y;
    at[i + 2] = atFirst[i + 2]! + byPlace * z;
    rate[i] = rateFirst[i]! + byRate * x;
    rate[i + 1] = rateFirst[i + 1]! + byRate * y;
    rate[i + 2] = rateFirst[i + 2]! + byRate * z;
  }
}

/** The bow's coordinates at the step's end from the acceleration being solved for. */
function endOfStep(state: RodeState, { beta, gamma }: Method): void {
  const h = state.numbers[STEP]!;
  const last = 3 * (state.nodes - 1);
  for (let i = 0; i < 3; i++) {
    const was = state.qAcceleration[i]!;
    const a = state.next[last + i]!;
    qNext[i] = state.q[i]! + h * state.qRate[i]! + h * h * ((0.5 - beta) * was + beta * a);
    qRateNext[i] = state.qRate[i]! + h * ((1 - gamma) * was + gamma * a);
  }
}

function blendBow(state: RodeState, bow: Bow, method: Method): void {
  const { alphaF, alphaM } = method;
  const last = 3 * (state.nodes - 1);
  const { q, rate, acceleration } = bowNow;
  if (!bow.led) endOfStep(state, method);
  for (let i = 0; i < 3; i++) {
    q[i] = (1 - alphaF) * qNext[i]! + alphaF * state.q[i]!;
    rate[i] = (1 - alphaF) * qRateNext[i]! + alphaF * state.qRate[i]!;
    acceleration[i] = (1 - alphaM) * state.next[last + i]! + alphaM * state.qAcceleration[i]!;
  }
  when[0] = state.numbers[AT_TIME]!;
  placeBow(state, bow, q, rate, state.at, state.rate);
}

/** Place and speed of the bow at the time `when` into the last node of `place` and `speed`. */
function placeBow(
  state: RodeState,
  bow: Bow,
  coordinates: Float64Array,
  rates: Float64Array,
  place: Float64Array,
  speed: Float64Array,
): void {
  const last = 3 * (state.nodes - 1);
  const { byQ } = bowNow;
  bow.place(coordinates, when, p, drift, byQ);
  for (let i = 0; i < 3; i++) {
    place[last + i] = p[i]!;
    speed[last + i] = drift[i]! + byQ[3 * i]! * rates[0]! + byQ[3 * i + 1]! * rates[1]! + byQ[3 * i + 2]! * rates[2]!;
  }
}

/** Moves the state to the step's end. */
function takeOver(state: RodeState, bow: Bow, method: Method): void {
  const h = state.numbers[STEP]!;
  const { nodes, place, speed, acceleration, next } = state;
  const { beta, gamma } = method;
  const last = 3 * (nodes - 1);
  followGrip(state);
  for (let i = 3; i < last; i++) {
    const a = acceleration[i]!;
    const b = next[i]!;
    place[i]! += h * speed[i]! + h * h * ((0.5 - beta) * a + beta * b);
    speed[i]! += h * ((1 - gamma) * a + gamma * b);
    acceleration[i] = b;
  }
  if (!bow.led) endOfStep(state, method);
  state.q.set(qNext);
  state.qRate.set(qRateNext);
  for (let i = 0; i < 3; i++) state.qAcceleration[i] = next[last + i]!;
  state.numbers[TIME]! += h;
  when[0] = state.numbers[TIME]!;
  placeBow(state, bow, state.q, state.qRate, place, speed);
  if (state.loopLaw.length > 0) followLoops(state);
}
