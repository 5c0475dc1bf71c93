export type {
  AirSetting,
  Answer,
  LinePart,
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
