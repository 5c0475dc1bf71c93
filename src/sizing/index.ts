export { type Bridle, type BridleAt, bridleAt, bridleLine, bridleReach } from "./bridle.ts";
export { type Certain, fadeCertainty, type InputsU, snatchCertainty } from "./certainty.ts";
export { facts } from "./facts.gen.ts";
export {
  catenaryFade,
  type Fade,
  type FadeQuestion,
  type GivePerLoad,
  givePerLoad,
  type LoadEnd,
  readAt,
} from "./fade.ts";
export { type Amount, type Give, type GiveShares, giveBetween, type PartGive } from "./give.ts";
export { type GiveCurve, giveCurve } from "./give-curve.ts";
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
export { type Loop, loopDistance, loopPull } from "./loop.ts";
export { type Fact, type Facts, readFacts } from "./read-facts.ts";
export { type Rope, readDiameter, readRopeName, ropeOf, ropesOf, rowsOf } from "./rope-choice.ts";
export { type GiveRow, type Shock, type ShockQuestion, type SnubberQuestion, shockOf } from "./shock.ts";
export { type NotTaken, type Snatch, type SteadyLoad, type Surge, snatch, snatchForce } from "./snatch.ts";
export { type Division, divide, type NotSnubbed, type Snubbed, type Snubber, withSnubber } from "./snubber.ts";
export type { SnubberKind } from "./snubber-column.ts";
export { type MapQuestion, type SnubberMap, snubberMap } from "./snubber-map.ts";
export { type Spring, springOf } from "./spring.ts";
export { type Tried, trySnubber } from "./try-snubber.ts";
