/**
 * A boat surging on her rode, as a short run in time: the rode at rest under a steady horizontal force, the bow at one height,
 * a mass without drag of its own. What a surge is given as decides how it begins:
 *
 *   speed     she passes the place where the steady force holds her at that speed, away from the anchor, the rode moving with
 *             her as its shapes at rest follow one another; she runs until the rode has stopped her
 *   distance  the sea moves her to and fro by that much about the place, whatever the rode does
 *   waves     a sea pushes her as it would move her if she were free, and the rode may resist; the bow heaves. Of some hundred
 *             waves the peaks are fitted (extremes.ts), and the answer is the most probable largest of a thousand
 */
import { type NoEquilibrium, type Rig, riseOf, type SettledTrace, settleTraced } from "../rode/index.ts";
import type { WaveSpectrum } from "../sea/index.ts";
import { rng } from "../statistics/index.ts";
import { atRest, quieten } from "./at-rest.ts";
import { type Bow, bodyBow, ledBow } from "./bow.ts";
import { type BowInWaves, bowInWaves, wavesAtTime } from "./bow-in-waves.ts";
import { cutIntoElements } from "./elements.ts";
import { ANCHOR_ANGLE, ANCHOR_TENSION, BOW_TENSION, END_SLOTS, endForces } from "./ends.ts";
import { extremes, peaksBetweenRises } from "./extremes.ts";
import type { RodeState } from "./rode-state.ts";
import { generalisedAlpha, step } from "./step.ts";
import { surroundingsOf } from "./surroundings.ts";

/** What moves the boat in a run: a speed, an imposed stroke, or the waves of a sea. */
export type SurgeRun =
  /** m/s, kg with added water */
  | { readonly kind: "speed"; readonly speed: number; readonly mass: number }
  /** Half stroke, m, and the time of a stroke there and back, s. */
  | { readonly kind: "distance"; readonly distance: number; readonly period: number }
  /** Mean period of the free boat's surges, s; kg with added water. */
  | {
      readonly kind: "waves";
      readonly sea: WaveSpectrum;
      readonly hull: { readonly waterline: number; readonly draught: number; readonly reach: number };
      readonly period: number;
      readonly mass: number;
    };

/** What the run came to: highest loads, N; the steepest pull at the anchor, rad; the farthest she went, m. */
export interface SurgePeak {
  readonly kind: "peak";
  readonly bow: number;
  readonly anchor: number;
  /** Above the bottom, at the moment of the highest load at the anchor. */
  readonly anchorAngle: number;
  readonly moved: number;
  /** Standard uncertainty of the load at the bow from how few waves were drawn, N; 0 where none were. */
  readonly drawnU: number;
}

/** How a surge is run in time. */
export interface RunOptions {
  readonly elements?: number;
  /** s */
  readonly step?: number;
  /** Of the waves drawn. */
  readonly seed?: number;
}

/** Twice as many elements at half the step change the highest load by less than a hundredth where it was tried (a test). */
const ELEMENTS = 16;
const STEP = 0.025;
const RADIUS = 0.3;
/** A run that has not turned round by then, s, never will. */
const LONGEST = 120;
/** A surge is over when the load has fallen to this share of the highest. */
const PAST = 0.7;
/** Strokes of an imposed motion: grown over the first ones, read over the last. */
const GROWING = 1.5;
const READ = 1.25;
/** Waves run through, those at the beginning over which they grow and that are not counted, and those asked about. */
const WAVES = 100;
const RISING = 8;
const ASKED = 1000;
const SEED = 1;

/** @param horizontal steady force, N @returns the peak; null where the motion has no next step; or why there is no rest */
export function runSurge(
  rig: Rig,
  horizontal: number,
  surge: SurgeRun,
  options: RunOptions = {},
): SurgePeak | NoEquilibrium | null {
  const traced = settleTraced(rig, { at: "horizontal", newtons: horizontal });
  if (!("settled" in traced)) return traced;
  const around = surroundingsOf(rig);
  const elements = cutIntoElements(rig, options.elements ?? ELEMENTS, horizontal);
  const state = atRest(traced, elements, around);
  quieten(state, 1e-6, 60);
  const h = options.step ?? STEP;
  const seen = watch(state);
  if (surge.kind === "speed") {
    moveAlong(state, rig, traced, horizontal, surge.speed);
    const bow = free(surge.mass, horizontal);
    return runUntil(state, bow, h, seen, LONGEST, () => state.qRate[0]! <= 0 && seen.now() < PAST * seen.bow);
  }
  if (surge.kind === "distance") {
    const whole = (GROWING + READ) * surge.period;
    const from = GROWING * surge.period;
    return runUntil(state, led(state, surge.distance, surge.period), h, seen, whole, () => false, from);
  }
  return throughWaves(state, rig, surge, horizontal, seen, options);
}

interface Watch {
  bow: number;
  readonly now: () => number;
  readonly look: () => void;
  readonly peak: () => SurgePeak;
}

function watch(state: RodeState): Watch {
  const ends = new Float64Array(END_SLOTS);
  const x0 = state.q[0]!;
  let anchor = 0;
  let anchorAngle = 0;
  let moved = 0;
  let now = 0;
  const seen: Watch = {
    bow: 0,
    now: () => now,
    look() {
      endForces(state, ends);
      now = ends[BOW_TENSION]!;
      if (now > seen.bow) seen.bow = now;
      if (ends[ANCHOR_TENSION]! > anchor) {
        anchor = ends[ANCHOR_TENSION]!;
        anchorAngle = ends[ANCHOR_ANGLE]!;
      }
      moved = Math.max(moved, state.q[0]! - x0);
    },
    peak: () => ({ kind: "peak", bow: seen.bow, anchor, anchorAngle, moved, drawnU: 0 }),
  };
  return seen;
}

function runUntil(
  state: RodeState,
  bow: Bow,
  h: number,
  seen: Watch,
  seconds: number,
  over: () => boolean,
  from = 0,
): SurgePeak | null {
  const method = generalisedAlpha(RADIUS);
  const began = state.time;
  while (state.time < began + seconds - 1e-9) {
    if (!step(state, bow, method, h)) return null;
    if (state.time - began < from) continue;
    seen.look();
    if (over()) break;
  }
  return seen.peak();
}

/** A mass pushed by a steady force, at one height. */
function free(mass: number, horizontal: number): Bow {
  return bodyBow({
    mass: [mass, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    force: (_q, _rate, _t, out) => {
      out[0] = horizontal;
      out[1] = 0;
      out[2] = 0;
    },
  });
}

/** To and fro about where she is, the stroke grown smoothly over the first periods. */
function led(state: RodeState, distance: number, period: number): Bow {
  const [x0, z0] = [state.q[0]!, state.q[2]!];
  const w = (2 * Math.PI) / period;
  const grown = GROWING * period;
  return ledBow((t, place, speed, acceleration) => {
    const s = Math.min(1, t / grown);
    // 3s² − 2s³: no jerk at either end.
    const a = s * s * (3 - 2 * s);
    const a1 = s < 1 ? (6 * s * (1 - s)) / grown : 0;
    const a2 = s < 1 ? (6 - 12 * s) / grown ** 2 : 0;
    const [sin, cos] = [Math.sin(w * t), Math.cos(w * t)];
    place[0] = x0 + distance * a * sin;
    place[1] = 0;
    place[2] = z0;
    speed[0] = distance * (a1 * sin + a * w * cos);
    speed[1] = 0;
    speed[2] = 0;
    acceleration[0] = distance * (a2 * sin + 2 * a1 * w * cos - a * w * w * sin);
    acceleration[1] = 0;
    acceleration[2] = 0;
  });
}

/** The mass through some hundred waves; loads are those to be expected of the largest of a thousand. */
function throughWaves(
  state: RodeState,
  rig: Rig,
  surge: Extract<SurgeRun, { kind: "waves" }>,
  horizontal: number,
  seen: Watch,
  options: RunOptions,
): SurgePeak | null {
  const random = rng(options.seed ?? SEED);
  const depth = rig.setting.medium === "water" ? rig.setting.depth : Number.POSITIVE_INFINITY;
  const waves = bowInWaves(surge.sea, surge.hull, depth, random);
  const rising = RISING * surge.period;
  const bow = inWaves(rig, waves, surge.mass, horizontal, rising);
  const h = options.step ?? STEP;
  const method = generalisedAlpha(RADIUS);
  const seconds = WAVES * surge.period;
  const loads = new Float64Array(Math.floor(seconds / h) + 1);
  let count = 0;
  while (state.time < rising + seconds && count < loads.length) {
    if (!step(state, bow, method, h)) return null;
    if (state.time < rising) continue;
    seen.look();
    loads[count++] = seen.now();
  }
  const found = seen.peak();
  const series = loads.subarray(0, count);
  const mean = series.reduce((sum, load) => sum + load, 0) / count;
  const tail = extremes(peaksBetweenRises(series, mean).load, seconds, ASKED * surge.period, random);
  if (tail === null) return found;
  const { value, u } = tail.mostProbable;
  // What was seen in a tenth of the waves is no less in all of them; the anchor's load goes with the bow's.
  const largest = Math.max(value, found.bow);
  return { ...found, bow: largest, anchor: found.anchor * (largest / found.bow), drawnU: u };
}

/** A mass pushed as the waves would push the free boat, the bow heaving; they grow from nothing over a time. */
function inWaves(rig: Rig, waves: BowInWaves, mass: number, horizontal: number, over: number): Bow {
  const rise = riseOf(rig.setting);
  const now = new Float64Array(3);
  const body = free(mass, horizontal);
  /** How far they have grown, and how fast it does: 3s² − 2s³, without a jerk at either end. */
  const grown = (t: Float64Array): number => {
    const s = Math.min(1, Math.max(0, t[0]! / over));
    return s * s * (3 - 2 * s);
  };
  const growing = (t: Float64Array): number => {
    const s = Math.min(1, Math.max(0, t[0]! / over));
    return (6 * s * (1 - s)) / over;
  };
  return {
    ...body,
    place(q, t, p, drift, byQ) {
      body.place(q, t, p, drift, byQ);
      wavesAtTime(waves, t, now);
      p[2] = rise + grown(t) * now[1]!;
      drift[2] = grown(t) * now[2]! + growing(t) * now[1]!;
      byQ[8] = 0;
    },
    force(q, rate, t, out, damping, stiffness) {
      body.force(q, rate, t, out, damping, stiffness);
      wavesAtTime(waves, t, now);
      out[0] = horizontal + grown(t) * mass * now[0]!;
    },
  };
}

/** Share of the steady force by which a second shape lies beyond the first. */
const BEYOND = 0.02;

/** Speeds of all nodes with the bow at a speed: those at which the shapes at rest follow one another. */
function moveAlong(state: RodeState, rig: Rig, traced: SettledTrace, horizontal: number, speed: number): void {
  const last = 3 * (state.nodes - 1);
  state.qRate[0] = speed;
  state.speed[last] = speed;
  const beyond = settleTraced(rig, { at: "horizontal", newtons: horizontal * (1 + BEYOND) });
  if (!("settled" in beyond)) return;
  const [one, two] = [traced, beyond].map((each) => atRest(each, state.elements, state.around).place);
  const apart = two![last]! - one![last]!;
  if (!(apart > 0)) return;
  for (let i = 3; i < last; i++) state.speed[i] = (speed * (two![i]! - one![i]!)) / apart;
}
