// General statistics: random numbers, distributions, uncertainty budgets, Monte Carlo, fitting. Knows nothing of anchors.
export { type Budget, type BudgetOptions, budget, type Model, type Source } from "./budget.ts";
export { type Line, mad, mean, median, normalMad, quantile, standardDeviation, theilSen } from "./centre.ts";
export { type ChainDiagnosis, diagnoseChains } from "./chain-diagnostics.ts";
export { chiSquaredAbove, chiSquaredBelow, chiSquaredQuantile, chiSquaredQuantileAbove } from "./chi-squared.ts";
export { type Comparison, compareBudget, type EndOfInterval } from "./compare-budget.ts";
export type { Correlation } from "./correlation.ts";
export { type Interval, shortestInterval, symmetricInterval } from "./coverage-interval.ts";
export { type Bounds, boundsOf, type Drawn, drawResults } from "./draws.ts";
export type { FitProblem, Prior } from "./fit-problem.ts";
export { incompleteBeta } from "./incomplete-beta.ts";
export { cooksDistances } from "./influence.ts";
export { combined, type Jacobian, jacobian, type NoJacobian, type VectorModel } from "./jacobian.ts";
export { type LeaveOneOut, leaveOneOut, paretoFit } from "./leave-one-out.ts";
export { type Fit, type FitOptions, type FitOutcome, levenbergMarquardt } from "./levenberg-marquardt.ts";
export { likelyMean, type Tried } from "./likely-mean.ts";
export { logAdd, logSum } from "./log-sum.ts";
export { type Chain, type ChainOptions, type LogDensity, sampleChain } from "./no-u-turn.ts";
export {
  logNormalBelow,
  logNormalBelowWithSlope,
  logNormalDensity,
  normalAbove,
  normalBelow,
  normalDensity,
  normalQuantile,
} from "./normal.ts";
export { type NotNegative, notNegative } from "./not-negative.ts";
export { type OutlierFit, type OutlierOptions, outlierFit, type Scatter } from "./outlier-fit.ts";
export { type PropagateOptions, type PropagateOutcome, type Propagation, propagate } from "./propagate.ts";
export { type Cycle, type CycleClass, classes, rainflow, turns } from "./rainflow.ts";
export { type Rng, rng } from "./rng.ts";
export { tAbove, tBelow, tQuantile } from "./student-t.ts";
export { sumLogNormalBelow, tabledLogNormalBelow } from "./tabled-log-normal.ts";
export { betweenLimits, type DistributionShape, fromReadings, type UncertainInput } from "./uncertain-input.ts";
