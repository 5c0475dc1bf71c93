export { type BridleAt, bridleAt, bridleLine } from "./bridle.ts";
export { type Bridle, bridleReach } from "./bridle-shape.ts";
export type { NotWeighed, NotWeighedCause, PartStrength, Weighed } from "./candidate.ts";
export {
  type CatenaryEnd,
  type CatenaryEndQuestion,
  catenaryEnd,
  type GivePerLoad,
  givePerLoad,
  type LoadEnd,
  readAt,
} from "./catenary-end.ts";
export { type Certain, catenaryEndCertainty, type InputsU, snatchCertainty } from "./certainty.ts";
export { type Choice, type ChoiceCell, type ChoiceRow, choose, type LimitWind } from "./choose.ts";
export { type DesignLoad, designLoad } from "./design-load.ts";
export { facts } from "./facts.gen.ts";
export { type Amount, type Give, type GiveShares, giveBetween, type PartGive } from "./give.ts";
export { type GiveCurve, giveCurve } from "./give-curve.ts";
export { type GiveOverLoads, giveOverLoads } from "./give-over-loads.ts";
export { type RopeHeat, ropeHeat } from "./heat.ts";
export { energyAt, loadAt } from "./law.ts";
export {
  judge,
  REASONS,
  type Reason,
  type RopeEnds,
  reasonsOf,
  type SnubberLimits,
  type SnubberLoads,
  strengthInUse,
  type Verdict,
} from "./limits.ts";
export { type Stowed, stowed } from "./locker.ts";
export { type Loop, loopDistance, loopPull } from "./loop.ts";
export { notBeaten } from "./pareto.ts";
export {
  type Candidate,
  CRITERIA,
  type Criterion,
  PLAN_FORMAT,
  type Plan,
  type PlanLimits,
  type PlanLoad,
} from "./plan.ts";
export { planPaths, readPlan } from "./plan-file.ts";
export type { PlanFiles } from "./plan-files.ts";
export { planFileSchema } from "./plan-shape.ts";
export { type Fact, type Facts, readFacts } from "./read-facts.ts";
export { type RopeWork, rideHeat } from "./ride-heat.ts";
export { type Rope, readDiameter, readRopeName, ropeOf, ropesOf, rowsOf } from "./rope-choice.ts";
export { type GiveRow, type Shock, type ShockQuestion, type SnubberQuestion, shockOf } from "./shock.ts";
export {
  type EnergySnatch,
  type NotTaken,
  type Snatch,
  type SteadyLoad,
  type Surge,
  snatch,
  snatchByEnergy,
  surgePeak,
  USUAL_STROKE,
  type WaveSurge,
} from "./snatch.ts";
export { type Division, divide, type NotSnubbed, type Snubbed, type Snubber, withSnubber } from "./snubber.ts";
export type { SnubberKind } from "./snubber-column.ts";
export { type MapQuestion, type SnubberMap, snubberMap } from "./snubber-map.ts";
export { type NoSpeed, type SpeedBehind, speedBehind } from "./speed-behind.ts";
export { type Spring, springOf } from "./spring.ts";
export { surgeInWaves } from "./surge-in-waves.ts";
export { type Tried, trySnubber } from "./try-snubber.ts";
