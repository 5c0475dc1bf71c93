/**
 * A boat riding to her anchor in time: the rode of a rig, the boat, a wind with its gusts, a sea. Steps of one length, a
 * sample a tenth of a second; what comes before the start is ramped up and left out. Repeatable to the bit for a seed.
 */
import { isRope, type NoEquilibrium, partLoads, type Rig, riseOf, type Settled, settleTraced } from "../rode/index.ts";
import { type Boat, type WaveSpectrum, type WindSetting, type WindSpectrum, windForce } from "../sea/index.ts";
import { rng } from "../statistics/index.ts";
import { atRest, quieten } from "./at-rest.ts";
import { boatBow, hullInWaves } from "./boat-bow.ts";
import { bowInWaves } from "./bow-in-waves.ts";
import { cutIntoElements, type Elements } from "./elements.ts";
import { ANCHOR_ANGLE, ANCHOR_LIFTED, ANCHOR_TENSION, BOW_ANGLE, BOW_TENSION, END_SLOTS, endForces } from "./ends.ts";
import { type RodeState, TIME } from "./rode-state.ts";
import { generalisedAlpha, step } from "./step.ts";
import { surroundingsOf } from "./surroundings.ts";
import { type WindTurn, windInTime } from "./wind-in-time.ts";

/** What is ridden: rig, boat, wind, gusts, sea, for how long, by which seed. */
export interface RideQuestion {
  readonly rig: Rig;
  readonly boat: Boat;
  readonly air: WindSetting;
  /** Mean wind and its direction in time; one turn: it stands. */
  readonly wind: readonly WindTurn[];
  /** The wind is one that was measured, with gusts of its own. */
  readonly measuredWind?: true;
  /** Gusts about the mean; null: none, or those of a measured wind. */
  readonly gusts: WindSpectrum | null;
  /** Sea from where the wind first blows; null: none. */
  readonly sea: WaveSpectrum | null;
  /** s, counted after the start that is left out */
  readonly duration: number;
  readonly seed: number;
  /** Time before counting begins, s. */
  readonly leftOut?: number;
  /** Elements the rode is cut into. */
  readonly elements?: number;
  /** s */
  readonly step?: number;
}

/** Time at the beginning that is not told, s: what was set off at the start dies away. */
export const USUAL_LEFT_OUT = 300;
/** Elements a rode is cut into where none is asked. */
export const USUAL_ELEMENTS = 40;
/** Time step where none is asked, s. */
export const USUAL_STEP = 0.05;
/** Time between samples, s. */
export const SAMPLED = 0.1;
/** What is quicker than the step dies out fast: ρ of the method (step.ts). */
const RADIUS = 0.2;
/** Heading the ride begins with, rad: a boat laid exactly into the wind would never begin to sheer. */
const FIRST_HEADING = 0.1;

/** Samples of a ride; arrays are as long as `count`. */
export interface RideSeries {
  /** s from the start of what is counted */
  readonly time: Float64Array;
  /** N, rad above the bottom */
  readonly anchorLoad: Float64Array;
  readonly anchorAngle: Float64Array;
  /** 1 where the anchor's end is off the bottom */
  readonly lifted: Uint8Array;
  /** N, rad above the horizontal */
  readonly bowLoad: Float64Array;
  readonly bowAngle: Float64Array;
  /** Middle of the boat, m from the anchor, and heading, rad. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly heading: Float64Array;
  /** Tension in the middle of every rope of the rode, N, from the anchor to the bow. */
  readonly ropeLoads: readonly { readonly part: number; readonly load: Float64Array }[];
}

/** A ride under way. */
export interface Ride {
  readonly question: RideQuestion;
  /** The rode in the steady force of the first mean wind. */
  readonly atRest: Settled;
  /** Highest tension of the parts there, N. */
  readonly atRestLoads: Float64Array;
  readonly state: RodeState;
  /** Seconds counted so far. */
  readonly counted: () => number;
  /** Goes on for some seconds of the ride's own time; false once its end is reached or the motion has no next step. */
  readonly goOn: (seconds: number) => boolean;
  /** When the motion had no next step, s, where it broke off; else null. */
  readonly brokeOffAt: () => number | null;
  /** Highest tension so far in each part of the rode, N, since counting began. */
  readonly highest: Float64Array;
  readonly series: () => RideSeries;
}

/** Begins a ride. @returns the reason instead where the rode has no equilibrium in the first mean wind */
export function ride(question: RideQuestion): Ride | NoEquilibrium {
  const { rig, boat, air, duration } = question;
  const mean = question.wind[0]!;
  const force = Math.max(windForce(boat, mean.speed, 0, air).along, 20);
  const traced = settleTraced(rig, { at: "horizontal", newtons: force });
  if (!("settled" in traced)) return traced;
  const random = rng(question.seed);
  const around = surroundingsOf(rig);
  const elements = cutIntoElements(rig, question.elements ?? USUAL_ELEMENTS, force);
  const state = atRest(traced, elements, around);
  quieten(state, 1e-6);
  const water = rig.setting.medium === "water";
  const depth = rig.setting.medium === "water" ? rig.setting.depth : Number.POSITIVE_INFINITY;
  const bow = boatBow({
    boat,
    air,
    wind: windInTime(question.wind, question.gusts, boat.length, random),
    waves: question.sea === null ? null : bowInWaves(question.sea, hullInWaves(boat), depth, random),
    roller: riseOf(rig.setting),
    depth,
    waterDensity: rig.setting.medium === "water" ? rig.setting.waterDensity : 1025,
    current: water ? around.current : 0,
  });
  const last = 3 * elements.count;
  // Turned a little about her bow; the rode is where it was.
  state.q[2] = mean.toward + FIRST_HEADING;
  state.q[0] = state.place[last]! + bow.reach * Math.cos(state.q[2]!);
  state.q[1] = state.place[last + 1]! + bow.reach * Math.sin(state.q[2]!);
  const leftOut = question.leftOut ?? USUAL_LEFT_OUT;
  state.time = -leftOut;

  const method = generalisedAlpha(RADIUS);
  const h = question.step ?? USUAL_STEP;
  const most = Math.floor(duration / SAMPLED) + 1;
  const all = {
    time: new Float64Array(most),
    anchorLoad: new Float64Array(most),
    anchorAngle: new Float64Array(most),
    lifted: new Uint8Array(most),
    bowLoad: new Float64Array(most),
    bowAngle: new Float64Array(most),
    x: new Float64Array(most),
    y: new Float64Array(most),
    heading: new Float64Array(most),
  };
  const ropes = rig.rode.flatMap((part, i) =>
    part.kind === "line" && isRope(part)
      ? [{ part: i, element: middleOf(elements, i), load: new Float64Array(most) }]
      : [],
  );
  const highest = new Float64Array(rig.rode.length);
  const ends = new Float64Array(END_SLOTS);
  let count = 0;
  let steps = 0;
  let brokeOffAt: number | null = null;
  const perSample = Math.max(1, Math.round(SAMPLED / h));

  const sample = (): void => {
    endForces(state, ends);
    all.time[count] = state.numbers[TIME]!;
    all.anchorLoad[count] = ends[ANCHOR_TENSION]!;
    all.anchorAngle[count] = ends[ANCHOR_ANGLE]!;
    all.lifted[count] = ends[ANCHOR_LIFTED]!;
    all.bowLoad[count] = ends[BOW_TENSION]!;
    all.bowAngle[count] = ends[BOW_ANGLE]!;
    all.x[count] = state.q[0]!;
    all.y[count] = state.q[1]!;
    all.heading[count] = state.q[2]!;
    for (let k = 0; k < ropes.length; k++) ropes[k]!.load[count] = state.tension[ropes[k]!.element]!;
    count++;
  };

  return {
    question,
    atRest: traced.settled,
    atRestLoads: partLoads(traced),
    state,
    highest,
    counted: () => Math.max(0, state.time),
    brokeOffAt: () => brokeOffAt,
    goOn(seconds) {
      // The clock from its slot: asked for by its name, it would be made anew in memory at every step.
      const clock = state.numbers;
      const until = clock[TIME]! + seconds;
      while (clock[TIME]! < until - 1e-9 && count < most && brokeOffAt === null) {
        if (!step(state, bow, method, h)) {
          brokeOffAt = state.time;
          break;
        }
        steps++;
        if (clock[TIME]! < -1e-9) continue;
        for (let e = 0; e < elements.count; e++) {
          const part = elements.part[e]!;
          if (state.tension[e]! > highest[part]!) highest[part] = state.tension[e]!;
        }
        if (steps % perSample === 0) sample();
      }
      return count < most && brokeOffAt === null;
    },
    series: () => ({
      time: all.time.subarray(0, count),
      anchorLoad: all.anchorLoad.subarray(0, count),
      anchorAngle: all.anchorAngle.subarray(0, count),
      lifted: all.lifted.subarray(0, count),
      bowLoad: all.bowLoad.subarray(0, count),
      bowAngle: all.bowAngle.subarray(0, count),
      x: all.x.subarray(0, count),
      y: all.y.subarray(0, count),
      heading: all.heading.subarray(0, count),
      ropeLoads: ropes.map(({ part, load }) => ({ part, load: load.subarray(0, count) })),
    }),
  };
}

/** The element in the middle of a part. */
function middleOf(elements: Elements, part: number): number {
  const first = elements.part.indexOf(part);
  return (first + elements.part.lastIndexOf(part)) >> 1;
}
