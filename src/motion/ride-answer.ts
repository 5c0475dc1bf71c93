/** What a ride says of the loads: SI and radians. */
import { type Settled, settle } from "../rode/index.ts";
import { type Cycle, rainflow, rng } from "../statistics/index.ts";
import { type Extremes, extremes, peaksBetweenRises } from "./extremes.ts";
import type { Ride } from "./ride.ts";
import { SAMPLED } from "./ride.ts";
import { type SeriesStatistics, seriesStatistics } from "./series-statistics.ts";

/** What a ride came to: loads, angles, extremes, cycles. */
export interface RideAnswer {
  /** Time counted, s; less than asked for where the ride was stopped or broke off. */
  readonly seconds: number;
  readonly brokeOffAt: number | null;
  readonly bow: SeriesStatistics;
  readonly anchor: SeriesStatistics;
  /** Angle at the anchor above the bottom, rad. */
  readonly angle: SeriesStatistics;
  /** Angle at the anchor at the moment of the highest load there, rad. */
  readonly angleAtLargest: number;
  /** Share of the time the anchor's end was off the bottom. */
  readonly liftedShare: number;
  /** Share of the time the load at the anchor was above a load, N, over a scale of tenths of the largest. */
  readonly exceedance: readonly { readonly load: number; readonly share: number }[];
  /** Largest loads of a storm at anchor and bow; null where too few peaks were seen. */
  readonly anchorExtremes: Extremes | null;
  readonly bowExtremes: Extremes | null;
  /** Times the rode went slack at the bow and came taut again beyond its mean load. */
  readonly snatches: number;
  /** Farthest the middle of the boat went from the anchor, and to either side, m. */
  readonly circle: number;
  readonly sideways: number;
  /** Largest heading off the direction of the first wind, rad. */
  readonly sheer: number;
  readonly cycles: readonly Cycle[];
  /** The rode at rest under the ride's mean load at the bow, and the largest loads over it. */
  readonly atRest: Settled | null;
  readonly overStill: { readonly bow: number; readonly anchor: number } | null;
}

/** A storm as it is usually meant, s. */
const STORM = 3 * 3600;
/** Slack: below this share of the mean load. */
const SLACK = 0.02;

/** Sums up what was ridden so far. */
export function rideAnswer(ride: Ride, storm = STORM): RideAnswer {
  const series = ride.series();
  const n = series.time.length;
  const seconds = n * SAMPLED;
  const bow = seriesStatistics(series.bowLoad);
  const anchor = seriesStatistics(series.anchorLoad);
  let lifted = 0;
  let circle = 0;
  let sideways = 0;
  let sheer = 0;
  let highest = 0;
  const first = ride.question.wind[0]!.toward;
  for (let i = 0; i < n; i++) {
    lifted += series.lifted[i]!;
    circle = Math.max(circle, Math.hypot(series.x[i]!, series.y[i]!));
    const across = -series.x[i]! * Math.sin(first) + series.y[i]! * Math.cos(first);
    sideways = Math.max(sideways, Math.abs(across));
    sheer = Math.max(sheer, Math.abs(series.heading[i]! - first));
    if (series.anchorLoad[i]! > series.anchorLoad[highest]!) highest = i;
  }
  const random = rng(ride.question.seed + 1);
  const still = settle(ride.question.rig, { at: "bow", newtons: bow.mean });
  const rests = still.kind === "settled" ? still : null;
  return {
    seconds,
    brokeOffAt: ride.brokeOffAt(),
    bow,
    anchor,
    angle: seriesStatistics(series.anchorAngle),
    angleAtLargest: series.anchorAngle[highest]!,
    liftedShare: lifted / n,
    exceedance: exceedance(series.anchorLoad, anchor.largest),
    anchorExtremes: extremes(peaksBetweenRises(series.anchorLoad, anchor.mean).load, seconds, storm, random),
    bowExtremes: extremes(peaksBetweenRises(series.bowLoad, bow.mean).load, seconds, storm, random),
    snatches: snatches(series.bowLoad, bow.mean),
    circle,
    sideways,
    sheer,
    cycles: rainflow(series.bowLoad, 0.05 * bow.largest),
    atRest: rests,
    overStill:
      rests === null
        ? null
        : { bow: bow.largest / rests.bow.tension, anchor: anchor.largest / Math.max(rests.anchor.tension, 1e-9) },
  };
}

function exceedance(load: Float64Array, largest: number): { load: number; share: number }[] {
  const sorted = Float64Array.from(load).sort();
  return Array.from({ length: 10 }, (_, k) => {
    const level = (largest * k) / 10;
    let a = 0;
    let b = sorted.length;
    while (a < b) {
      const m = (a + b) >> 1;
      if (sorted[m]! <= level) a = m + 1;
      else b = m;
    }
    return { load: level, share: (sorted.length - a) / sorted.length };
  });
}

function snatches(load: Float64Array, mean: number): number {
  let count = 0;
  let slack = false;
  for (let i = 0; i < load.length; i++) {
    if (load[i]! < SLACK * mean) slack = true;
    else if (slack && load[i]! > mean) {
      count++;
      slack = false;
    }
  }
  return count;
}
