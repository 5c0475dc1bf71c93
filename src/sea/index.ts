export { groupRatio, shoaling, waveLength, waveNumber } from "./airy.ts";
export { type Assumption, assumptions } from "./assumptions.ts";
export { type BeaufortForce, beaufort, beaufortFromKnots, beaufortSpeed } from "./beaufort.ts";
export type {
  Boat,
  BoatUncertainty,
  HeadingShare,
  LoadEnd,
  MeasuredPoint,
  Veering,
  WindArea,
  Windage,
  WindageShape,
} from "./boat.ts";
export { BOAT_FORMAT, boatFileSchema, readBoat } from "./boat-file.ts";
export { ASSUMED_EXPONENT_U, ASSUMED_POINT, type Calibration, calibrate } from "./calibrate.ts";
export {
  acrossCoefficient,
  type CurrentForce,
  currentForce,
  DEEP_SEA_WATER,
  frictionCoefficient,
  type WaterSetting,
} from "./current-force.ts";
export { type CurveRow, type WindLoadCurve, windLoadCurve } from "./curve.ts";
export { designLoadTables } from "./design-loads.gen.ts";
export {
  type DesignLoadRow,
  type DesignLoads,
  type DesignLoadTable,
  type Disagreement,
  designLoadsFor,
  disagreements,
} from "./design-loads.ts";
export type { Estimate, Measured, Shared } from "./estimate.ts";
export { AIR_DENSITY, SEA_WATER_DENSITY, SEA_WATER_VISCOSITY } from "./fluids.ts";
export {
  froyaHourMean,
  froyaIntensity,
  froyaWind,
  type Gust,
  type GustModel,
  type GustQuestion,
  gust,
  peakFactor,
} from "./gust.ts";
export {
  bodyDraughtOf,
  type Derivation,
  type Guess,
  type Inertia,
  inertiaOf,
  spheroidAddedMass,
  waterlineOf,
} from "./hull.ts";
export { type LoadLaw, type Prediction, predictLoad, windForLoad } from "./load-law.ts";
export { DESIGN_LOADS_FORMAT, readDesignLoads } from "./read-design-loads.ts";
export { readSea } from "./read-sea.ts";
export { type RoadsBeside, roadsBeside, type TablesBeside, tablesBeside } from "./roads-beside.ts";
export { type Harmonic, harmonics, valueAt } from "./series.ts";
export { type SheeringLoad, sheeringLoad } from "./sheering.ts";
export { bowSurge, type Surge, surgeTransfer } from "./surge.ts";
export { usualShape } from "./usual-shape.ts";
export {
  elevationDensity,
  exactNormalisation,
  fittedNormalisation,
  fullyDevelopedSea,
  jonswap,
  meanPeriods,
  moment,
  piersonMoskowitz,
  type WaveSpectrum,
} from "./wave-spectrum.ts";
export { type MeasuredLoads, type Weather, type WindageLoads, weather } from "./weather.ts";
export {
  engineThrustOf,
  type WindForLoad,
  type WindsForLoad,
  windForLoadByWindage,
  windsForLoad,
} from "./wind-for-load.ts";
export { dragArea, headingShare, USUAL_AIR, type WindForce, type WindSetting, windForce } from "./wind-force.ts";
export {
  meanSquareWind,
  OPEN_WATER,
  profiles,
  REFERENCE_HEIGHT,
  toReferenceHeight,
  type WindProfile,
  windAt,
} from "./wind-profile.ts";
export {
  froyaDensity,
  kaimalDensity,
  kaimalDeviation,
  kaimalLength,
  ochiShinDensity,
  ochiShinDrag,
  type TurbulenceClass,
  type WindSpectrum,
  windDensity,
  windVariance,
} from "./wind-spectrum.ts";
export { type Face, type Surface, surfaces } from "./windage.ts";
export { ASSUMED, CALM_SURROUNDINGS, type Conditions, gustOf, steadyLoad } from "./windage-load.ts";
export { writeBoat } from "./write-boat.ts";
