/** What one ride of a sweep leaves: a row of numbers and texts, SI with the unit in the name; null where there is none. */
import { DEGREES } from "../quantity/index.ts";
import type { Extremes } from "./extremes.ts";
import { type Ride, ride } from "./ride.ts";
import { rideAnswer } from "./ride-answer.ts";
import type { SeriesStatistics } from "./series-statistics.ts";
import { type Sweep, sweepPlace, sweepQuestion } from "./sweep.ts";

/** ridden; brokeOff: the motion had no next step; noEquilibrium: none in the first mean wind. */
type SweepOutcome = "ridden" | "brokeOff" | "noEquilibrium";

/** What a column of a sweep holds. */
export type ColumnType = "whole" | "number" | "text";

const load = (end: string) =>
  [
    "mean_N",
    "mean_u_N",
    "deviation_N",
    "largest_N",
    "mostProbable_N",
    "mostProbable_u_N",
    "nineInTen_N",
    "nineInTen_u_N",
  ].map((name) => [`${end}_${name}`, "number"] as const);

/** Columns of a row, in order. */
export const SWEEP_COLUMNS: readonly (readonly [name: string, type: ColumnType])[] = [
  ["ride", "whole"],
  ["rig", "text"],
  ["boat", "text"],
  ["weather", "text"],
  ["seed", "whole"],
  ["wind_m_per_s", "number"],
  ["seaHeight_m", "number"],
  ["seaPeriod_s", "number"],
  ["current_m_per_s", "number"],
  ["outcome", "text"],
  ["seconds_s", "number"],
  ...load("bow"),
  ...load("anchor"),
  ["anchorAngle_mean_deg", "number"],
  ["anchorAngle_largest_deg", "number"],
  ["anchorAngle_atLargestLoad_deg", "number"],
  ["liftedShare", "number"],
  ["snatches", "number"],
  ["circle_m", "number"],
  ["sideways_m", "number"],
  ["sheer_deg", "number"],
  ["still_bow_N", "number"],
  ["still_anchor_N", "number"],
  ["bowOverStill", "number"],
  ["anchorOverStill", "number"],
  ["highestOfWorkingLoad", "number"],
];

/** One ride of a sweep, by the names of its columns. */
export type SweepRow = Readonly<Record<string, number | string | null>>;

/** Seconds of a ride between two words on how far it has come. */
const STRIDE = 60;
/** Samples an answer needs: a minute. */
const FEWEST = 600;

/** Rides one ride of a sweep to its end. @param tell is called now and then with the share that is done, 0 to 1 */
export function rideOfSweep(sweep: Sweep, number: number, tell: (share: number) => void = () => {}): SweepRow {
  const question = sweepQuestion(sweep, number);
  const place = sweepPlace(sweep, number);
  const { setting } = question.rig;
  const row: Record<string, number | string | null> = {
    ride: number,
    rig: question.rig.name,
    boat: question.boat.name,
    weather: sweep.weathers[place.weather]!.name,
    seed: place.seed,
    wind_m_per_s: question.wind[0]!.speed,
    seaHeight_m: question.sea?.significantHeight ?? null,
    seaPeriod_s: question.sea?.peakPeriod ?? null,
    current_m_per_s: setting.medium === "water" ? setting.current : null,
  };
  const under = ride(question);
  let outcome: SweepOutcome = "ridden";
  if ("kind" in under) outcome = "noEquilibrium";
  else {
    while (under.goOn(STRIDE)) tell(under.counted() / question.duration);
    if (under.brokeOffAt() !== null) outcome = "brokeOff";
    if (under.series().time.length >= FEWEST) Object.assign(row, answered(under, sweep.storm));
  }
  row.outcome = outcome;
  return Object.fromEntries(SWEEP_COLUMNS.map(([name]) => [name, row[name] ?? null]));
}

function answered(under: Ride, storm: number): SweepRow {
  const answer = rideAnswer(under, storm);
  const end = (name: string, s: SeriesStatistics, e: Extremes | null): SweepRow => ({
    [`${name}_mean_N`]: s.mean,
    [`${name}_mean_u_N`]: s.u,
    [`${name}_deviation_N`]: s.deviation,
    [`${name}_largest_N`]: s.largest,
    [`${name}_mostProbable_N`]: e?.mostProbable.value ?? null,
    [`${name}_mostProbable_u_N`]: e?.mostProbable.u ?? null,
    [`${name}_nineInTen_N`]: e?.ninety.value ?? null,
    [`${name}_nineInTen_u_N`]: e?.ninety.u ?? null,
  });
  return {
    seconds_s: answer.seconds,
    ...end("bow", answer.bow, answer.bowExtremes),
    ...end("anchor", answer.anchor, answer.anchorExtremes),
    anchorAngle_mean_deg: answer.angle.mean * DEGREES,
    anchorAngle_largest_deg: answer.angle.largest * DEGREES,
    anchorAngle_atLargestLoad_deg: answer.angleAtLargest * DEGREES,
    liftedShare: answer.liftedShare,
    snatches: answer.snatches,
    circle_m: answer.circle,
    sideways_m: answer.sideways,
    sheer_deg: answer.sheer * DEGREES,
    still_bow_N: answer.atRest?.bow.tension ?? null,
    still_anchor_N: answer.atRest?.anchor.tension ?? null,
    bowOverStill: answer.overStill?.bow ?? null,
    anchorOverStill: answer.overStill?.anchor ?? null,
    highestOfWorkingLoad: ofWorkingLoad(under),
  };
}

/** Highest load of a part over its working load limit; null where no part has one. */
function ofWorkingLoad(under: Ride): number | null {
  let most: number | null = null;
  under.question.rig.rode.forEach((part, i) => {
    if (part.workingLoad === undefined || part.kind !== "line") return;
    most = Math.max(most ?? 0, under.highest[i]! / part.workingLoad);
  });
  return most;
}
