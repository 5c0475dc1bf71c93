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
export { settle } from "./settle.ts";
