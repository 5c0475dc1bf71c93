export {
  type AnswerUncertainty,
  foundUncertainty,
  matchedUncertainty,
  sharedLineCorrelation,
} from "./answer-uncertainty.ts";
export {
  type Certainty,
  certaintyOf,
  drawsOf,
  isUneven,
  moveBoth,
  pullAt,
  pullInput,
  type SettledUncertainty,
  type Spread,
  settlesFast,
  UNCERTAIN,
  UNCERTAIN_NAMES,
  uncertaintyOf,
} from "./certainty.ts";
export { type CompiledRode, compile } from "./compile.ts";
export type { Near } from "./contact/close-legs.ts";
export { DRAG, dragDiameter } from "./contact/drag-stepper.ts";
export { type EndForces, endForcesOf } from "./end-forces.ts";
export { type Found, find, type Goal, type Question, workingLoadUsed } from "./find.ts";
export type { RodeIntegrals } from "./integrals.ts";
export { loadSweep, type SweepRow, type SweepRowOrNone, stiffnessAt, sweepRows } from "./load-sweep.ts";
export { type Matched, match } from "./match.ts";
export type {
  AirSetting,
  Answer,
  LinePart,
  NoCause,
  NoEquilibrium,
  Part,
  PointPart,
  Pull,
  Rig,
  RigUncertainty,
  Setting,
  Settled,
  StretchLaw,
  WaterSetting,
} from "./model.ts";
export { GRAVITY, inStillWater, riseOf } from "./model.ts";
export { isRope, movedRig, perturbed, RIG_INPUTS, type RigMove, rigInputs } from "./moved-rig.ts";
export { noEquilibrium } from "./no-equilibrium.ts";
export { type PulledAt, pullForAngle } from "./pull-for-angle.ts";
export { type Remark, remarksOn } from "./remarks.ts";
export { readRig, readRigFile, rigFrom } from "./rig-file.ts";
export { RIG_FORMAT, type RigFile, rigFileSchema } from "./rig-file-shape.ts";
export { rigToFields, rigToFile, writeRigFile } from "./rig-file-writer.ts";
export { partLoads, type RodeShape, shapeOf } from "./rode-shape.ts";
export { settle, settleTraced } from "./settle.ts";
export { SETTLED_FORMAT, type SettledFields, settledFields } from "./settled-json.ts";
export type { SettledTrace } from "./settled-trace.ts";
export { lowestWorkingLoad, type PartStrength, strengthOf } from "./strength.ts";
export {
  boundsOf,
  checkUnknown,
  currentValue,
  lengthOf,
  longestLine,
  readUnknown,
  UNKNOWNS,
  type Unknown,
  withValue,
} from "./unknown.ts";
