export type { AnchorMovement, AnchorPath, ClockOffset, Direction, Moved } from "./anchor/index.ts";
export { type CarriedRow, type CarryOutcome, carry, type NotCarried } from "./run/carry.ts";
export { fittedCertainty } from "./run/fitted-certainty.ts";
export { fittedRig } from "./run/fitted-rig.ts";
export { type AngleShortCut, type Judgement, judge } from "./run/judgement.ts";
export { type Mistaken, type MixUp, mistakenReadings } from "./run/mistaken.ts";
export {
  type Fitted,
  type FittedValue,
  type ReducedReading,
  type ReducedRelease,
  type Reduction,
  reduce,
} from "./run/reduce.ts";
export {
  type Reading,
  type Release,
  RUN_FORMAT,
  type Run,
  type RunFile,
  type RunUncertainty,
  readRun,
  runFileSchema,
} from "./run/run-file.ts";
export { writeRun } from "./run/run-file-writer.ts";
export { carryFields, reduceFields, type WordedJudgement, type WordedShortCut } from "./run/run-json.ts";
export { type Effect, judgeShortCuts, type ShortCut, type Verdict } from "./run/simplifications.ts";
export { type TheoryPoint, theoryCurve } from "./run/theory-curve.ts";
export { firstUnsettled, type Unsettled, UnsettledRun } from "./run/unsettled.ts";
export { type HeldCause, type MarkCause, type NotHeldCause, type OpenStretch, readMarkCause } from "./trace/cause.ts";
export {
  CORRECTIONS_FORMAT,
  correctionsFileSchema,
  correctionsSchema,
  correctionsToJson,
  readCorrections,
} from "./trace/corrections-file.ts";
export type { Drag, Easing } from "./trace/drags.ts";
export { placesOfRows, type TraceOfRows, traceFromRows } from "./trace/from-rows.ts";
export { giveOf } from "./trace/give.ts";
export { type HeldLoad, heldLoad, type ReadAt } from "./trace/held.ts";
export { heldToJson, TRACED_FORMAT, type TraceWords, tracedToJson } from "./trace/json.ts";
export { gainAt, type LowPass, lowPass, lowPassOf, peakKept } from "./trace/low-pass.ts";
export {
  type Attribution,
  applyCorrections,
  type CorrectedMark,
  type CorrectedMarks,
  type Correction,
  type Mark,
  type MarkKind,
  type MarkPlace,
  markKinds,
} from "./trace/marks.ts";
export type { Above, Peak } from "./trace/peaks.ts";
export { onPlaneOf, planeAt } from "./trace/plane.ts";
export type { Plateau } from "./trace/plateaus.ts";
export { reduceTrace } from "./trace/reduce-trace.ts";
export type { TraceQuestion, TraceReduction, TrackClock } from "./trace/reduction.ts";
export type { NoSetCause, Reversal, SetDistance } from "./trace/set-and-reset.ts";
export { type SettingsChange, settingsWith, type TraceSettings, usualSettings } from "./trace/settings.ts";
export { type MatchedStep, matchSteps, type PlannedStep, type StepOutcome } from "./trace/steps.ts";
export type { Headings, Measured, Span, Trace, Track } from "./trace/trace.ts";
export { trackLater } from "./trace/track-clock.ts";
export type { NoZeroCause, SlackRead, Zero } from "./trace/zero.ts";
