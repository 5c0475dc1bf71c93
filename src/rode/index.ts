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
export { readRig, readRigFile, rigFrom } from "./rig-file.ts";
export { RIG_FORMAT, type RigFile, rigFileSchema } from "./rig-file-shape.ts";
export { rigToFields, rigToFile, writeRigFile } from "./rig-file-writer.ts";
export { settle } from "./settle.ts";
