// The rode and the boat moving in time: a rode cut into elements, stepped implicitly; a boat riding to it in wind and sea.
export { atRest, quieten } from "./at-rest.ts";
export { hullInWaves } from "./boat-bow.ts";
export { type Bow, bodyBow, ledBow } from "./bow.ts";
export { cutIntoElements, ELEMENT_SLOTS, type Elements, HIGH, LOW } from "./elements.ts";
export {
  ANCHOR_ANGLE,
  ANCHOR_LIFTED,
  ANCHOR_TENSION,
  BOW_ANGLE,
  BOW_TENSION,
  END_SLOTS,
  endForces,
} from "./ends.ts";
export { type Extreme, type Extremes, extremes, fitTail, peaksBetweenRises, type TailFit } from "./extremes.ts";
export {
  type Ride,
  type RideQuestion,
  type RideSeries,
  ride,
  SAMPLED,
  USUAL_ELEMENTS,
  USUAL_LEFT_OUT,
  USUAL_STEP,
} from "./ride.ts";
export { type RideAnswer, rideAnswer } from "./ride-answer.ts";
export {
  afloat,
  checkRideCost,
  depthOf,
  GUSTS,
  type GustsName,
  gustSpectrum,
  type MeasuredWind,
  readHours,
  readMeanWind,
  readRideCurrent,
  readWindShifts,
  windOfSeries,
  withCurrent,
  withWindage,
} from "./ride-inputs.ts";
export { type RodeState, rodeState } from "./rode-state.ts";
export { type SeriesStatistics, seriesStatistics } from "./series-statistics.ts";
export { generalisedAlpha, type Method, step } from "./step.ts";
export { type RunOptions, runSurge, type SurgePeak, type SurgeRun } from "./surge-run.ts";
export { type Surroundings, surroundingsOf } from "./surroundings.ts";
export {
  type Shard,
  type Sweep,
  shardRide,
  shardRides,
  sweepRides,
  WHOLE,
} from "./sweep.ts";
export { readSweep, type SweepFiles, sweepFileSchema, sweepPaths } from "./sweep-file.ts";
export { type ColumnType, rideOfSweep, SWEEP_COLUMNS, type SweepRow } from "./sweep-row.ts";
export { type CaseTotals, deviationOf, type Running, sweepTotals, uncertaintyOf } from "./sweep-totals.ts";
export type { WindTurn } from "./wind-in-time.ts";
