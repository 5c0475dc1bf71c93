/**
 * Between the record of a pull and what is concluded from it: a pull with its log, marks, rig, day and depth becomes evidence.
 *
 *     const cases = pullCases(records, pulls, logVerdicts);   // records of a book, pulls to look at, logs reduced (by pull)
 *     const { rows, leftOut, evidence } = holdingRows(cases);  // the pulls table that comparing anchors reads
 *     const one = pullEvidence(cases[0]);                      // one pull: deployment, verdict, carried loads, doubts
 *
 * - `deploymentOf(rig, { depth, scope, paidOut })` puts a rig file into a pull's own water; `asFiled(rig)` leaves it as it is.
 * - `carryLoad(deployment, load, readAt)` gives a load at both ends, with the angle to the bottom at the anchor and every ±.
 * - `standingMarks` lays corrections over a book's automatic marks, `correctionsOf` hands them to the reduction.
 * - `reducePullLog` reduces a log with its marks as corrected and carries what it says; `foundMarks` are those not yet in a book.
 * - A doubt is a cause with its numbers; sentences are made elsewhere. Everything is SI and radians but where a name ends in
 *   another unit, and plain data throughout, so that it goes to a worker or over the wire as it is.
 */
export { ASSUMED } from "./assumptions.ts";
export { type CarriedLoad, carryLoad, type UncertaintySource } from "./carried.ts";
export { type ClockRemark, clockRemarks, isOfClocks } from "./clock-remarks.ts";
export { type Comparable, comparablePulls, type NotComparable } from "./comparable.ts";
export { asFiled, type Deployment, type DeploymentRecord, deploymentOf, type PaidOut } from "./deployment.ts";
export type { DeploymentInput, Doubt, PaidOutAt } from "./doubt.ts";
export { type Drift, driftOf, type Fix } from "./drift.ts";
export {
  type AddableMark,
  addableMarks,
  type BookMark,
  changedMark,
  correctionsOf,
  type EffectiveMark,
  effectiveMarks,
  type MarkChange,
} from "./effective-marks.ts";
export { deploymentRecordOf, deploymentVeered, type PullEvidence, pullEvidence } from "./evidence.ts";
export { foundMarks, type KnownMark } from "./found-marks.ts";
export {
  type HoldRule,
  holdRuleOfSeries,
  holdRuleStated,
  isPlan,
  SERIES_FORMAT,
  usualHoldRule,
} from "./hold-rule.ts";
export { type HoldEvent, type HoldSoFar, holdSoFar } from "./hold-so-far.ts";
export { type HoldingInput, type HoldingRow, holdingRows, type LeftOut, type LeftOutCause } from "./holding-rows.ts";
export { asPulled, fieldsOfHow, type HowPulled, howJudged, howPulled } from "./how-pulled.ts";
export {
  type BookChannel,
  type BookLog,
  clockBetween,
  kindOfChannel,
  loadChannelOf,
  logsBeside,
  placeChannelsOf,
  type TrackApart,
  trackApartOf,
  trackLogOf,
  trackSpanOf,
} from "./log-channels.ts";
export { type LogOfPull, leavesToLog, logVerdictOf, MOST_LOG_READINGS } from "./log-evidence.ts";
export { type LogReadings, type PlaceColumns, traceBesideVeers, traceOfLog } from "./log-trace.ts";
export { type PullCase, pullCases, type StudyRecords } from "./pull-case.ts";
export { type PullLogQuestion, plannedSteps, type ReducedLog, reducePullLog } from "./pull-log.ts";
export { lengthOutAt, type Veer, veeredWithin, veersOf, veersTogether } from "./veers.ts";
export { type LogVerdict, loadOf, type ReadVerdict, type Verdict, verdictOf } from "./verdict.ts";
