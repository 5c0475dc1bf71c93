// Which anchor holds more, from pulls that mostly ended while it held. Loads are newtons at the anchor, along the rode.

export {
  type AftFit,
  AftFitter,
  type AftProblem,
  type Estimate,
  fitAft,
  type Grouping,
  type NoMaximum,
  type Terms,
} from "./aft.ts";
export { type AnchorInWind, anchorsInWind, type WindAsked } from "./anchors-in-wind.ts";
export { type AngleCurve, angleCurves, anglesPulledAt } from "./angle-curve.ts";
export { type AnchorPulls, type Asked, type Compared, compare, type Finding, type Fitted } from "./compare.ts";
export { comparedFields } from "./compared-json.ts";
export {
  type Conclusion,
  conclude,
  type Holds,
  type Influence,
  type OfTester,
  type Pair,
  type Testers,
  type Wanted,
} from "./conclude.ts";
export { exactShare, type Share } from "./exact-share.ts";
export { type HoldRuleOfPulls, holdRulesOf } from "./hold-rules.ts";
export type { Between, Conditions } from "./holding-draws.ts";
export {
  drawsInWind,
  holdingInWind,
  type PeakFrom,
  type PeakLoad,
  peakLoad,
  type WindPoint,
  type WindQuestion,
} from "./in-wind.ts";
export { type Incidence, type IncidenceStep, incidence } from "./incidence.ts";
export {
  cannotTell,
  type DrawChains,
  type Inquired,
  type Inquiry,
  inquire,
  type LawWeighed,
  type Sensitivity,
  TOLD_APART,
} from "./inquire.ts";
export { allExactOrHeldOn, kaplanMeier } from "./kaplan-meier.ts";
export { LAWS, type Law } from "./law.ts";
export { type LogRank, type LogRankInput, logRank } from "./log-rank.ts";
export { Model, type ModelInput, REFERENCE_ANGLE } from "./model.ts";
export { type MorePulls, morePulls } from "./more-pulls.ts";
export { type Observations, observations } from "./observations.ts";
export {
  gather,
  type ParameterSummary,
  type Posterior,
  patient,
  type SamplingPlan,
  type Soundness,
  type Spread,
  sampleOneChain,
  spreadOf,
  USUAL_PLAN,
} from "./posterior.ts";
export { chanceAbove, chanceAhead, scatterQuantile } from "./predict.ts";
export { type PredictiveDraws, predictiveDraws } from "./predictive-draws.ts";
export { PRIOR_FIELDS, PRIOR_RANGE, type PriorField, type Priors, USUAL_PRIORS, widened } from "./priors.ts";
export { boundsOf, type Hold, loadError, type Pull, type Tally, tally } from "./pull.ts";
export { type LeftOut, MOST_PULLS, type PullsTable, readPullsTable } from "./pulls-table.ts";
export { loadAtChance, type Step } from "./survival-curve.ts";
export { type ChosenTerms, chooseTerms, type RandomTerm, TERMS, type Term, type TermDropped } from "./terms.ts";
export { type Turnbull, turnbull } from "./turnbull.ts";
export { type HoldingVerdict, holdingVerdicts } from "./verdict.ts";
