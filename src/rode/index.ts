export { type Certainty, certaintyOf, perturbed } from "./certainty.ts";
export { type CompiledRode, compile } from "./compile.ts";
export { type Found, find, type Goal, type Question, workingLoadUsed } from "./find.ts";
export { type Glance, glancer } from "./glance.ts";
export { integrate } from "./integrate.ts";
export { ladder, type Rung, type RungOrNone, stiffnessAt } from "./ladder.ts";
export { longestLine, type Matched, match } from "./match.ts";
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
export { GRAVITY, riseOf } from "./model.ts";
export { noEquilibrium, sayWhy } from "./no-equilibrium.ts";
export { type PulledAt, pullForAngle } from "./pull-for-angle.ts";
export { readRig, readRigFile, rigFrom } from "./rig-file.ts";
export { RIG_FORMAT, type RigFile, rigFileSchema } from "./rig-file-shape.ts";
export { rigToFields, rigToFile, writeRigFile } from "./rig-file-writer.ts";
export { type SettledTrace, settle, settleTraced } from "./settle.ts";
export { SETTLED_FORMAT, type SettledFields, settledFields } from "./settled-json.ts";
export { partLoads, type Shape, shapeOf } from "./shape.ts";
export { type Survey, survey } from "./survey.ts";
export { boundsOf, checkUnknown, currentValue, lengthOf, readUnknown, type Unknown, withValue } from "./unknown.ts";
