/** The JSON answer of `ride`: SI, the unit in the field's name. */

import type { Extremes, Ride, RideAnswer, SeriesStatistics } from "../motion/index.ts";
import { DEGREES } from "../quantity/index.ts";
import { rideHeat } from "../sizing/index.ts";
import { brokeOffWords } from "../words/index.ts";

/** @param windageU relative standard uncertainty of the boat's windage, which all mean loads share */
export function rideDocument(ride: Ride, answer: RideAnswer, windageU: number, stopped: boolean) {
  const { question } = ride;
  const load = (s: SeriesStatistics) => ({
    mean_N: s.mean,
    u_N: s.u,
    deviation_N: s.deviation,
    largest_N: s.largest,
    least_N: s.least,
  });
  const extreme = (e: Extremes | null) =>
    e === null
      ? null
      : {
          storm_s: e.storm,
          threshold_N: e.fit.threshold,
          peaksAbove: e.fit.peaks,
          shape: e.fit.shape,
          scale_N: e.fit.scale,
          mostProbable_N: { value: e.mostProbable.value, u: e.mostProbable.u },
          belowNineInTen_N: { value: e.ninety.value, u: e.ninety.u },
        };
  return {
    format: "rodebench/ridden@1",
    rig: question.rig.name,
    boat: question.boat.name,
    seed: question.seed,
    seconds_s: answer.seconds,
    stopped,
    broken: answer.brokeOffAt === null ? null : brokeOffWords(answer.brokeOffAt),
    windage_u: windageU,
    bow: { ...load(answer.bow), extremes: extreme(answer.bowExtremes) },
    anchor: { ...load(answer.anchor), extremes: extreme(answer.anchorExtremes) },
    anchorAngle: {
      mean_deg: answer.angle.mean * DEGREES,
      u_deg: answer.angle.u * DEGREES,
      largest_deg: answer.angle.largest * DEGREES,
      atLargestLoad_deg: answer.angleAtLargest * DEGREES,
    },
    liftedShare: answer.liftedShare,
    exceedance: answer.exceedance.map((row) => ({ load_N: row.load, share: row.share })),
    ropes: rideHeat(ride).map(({ part, name, heat, power }) => ({
      part: part + 1,
      name,
      heat_J: heat,
      power_W: power,
    })),
    snatches: answer.snatches,
    circle_m: answer.circle,
    sideways_m: answer.sideways,
    sheer_deg: answer.sheer * DEGREES,
    cycles: cycleClasses(answer),
    still:
      answer.atRest === null
        ? null
        : {
            bow_N: answer.atRest.bow.tension,
            anchor_N: answer.atRest.anchor.tension,
            anchorAngle_deg: answer.atRest.anchor.angleToBottom * DEGREES,
            largestOverStill: answer.overStill,
          },
    parts: question.rig.rode.map((part, i) => ({
      part: i + 1,
      name: part.name,
      ...(part.kind === "line" ? { highest_N: ride.highest[i]! } : {}),
      ...(part.workingLoad === undefined ? {} : { workingLoad_N: part.workingLoad }),
    })),
  };
}

/** Cycles of the load at the bow in ten classes of range. */
function cycleClasses({ cycles, bow }: RideAnswer): { from_N: number; to_N: number; count: number }[] {
  const width = bow.largest / 10;
  const counts = new Array<number>(10).fill(0);
  for (const cycle of cycles) counts[Math.min(9, Math.floor(cycle.range / width))]! += cycle.count;
  return counts.map((count, i) => ({ from_N: i * width, to_N: (i + 1) * width, count }));
}
