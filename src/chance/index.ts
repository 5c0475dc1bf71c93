// General statistics: random numbers, distributions, uncertainty budgets, Monte Carlo, fitting. Knows nothing of anchors.
export { brent, minimise } from "./brent.ts";
export { type Budget, type BudgetOptions, budget, type Model, type Source } from "./budget.ts";
export { type Line, mad, mean, median, normalMad, quantile, standardDeviation, theilSen } from "./centre.ts";
export { type Comparison, compareBudget, type EndOfInterval } from "./compare-budget.ts";
export type { Correlation } from "./correlation.ts";
export { type Interval, shortestInterval, symmetricInterval } from "./coverage-interval.ts";
export {
  chiSquaredBelow,
  chiSquaredQuantile,
  normalBelow,
  normalQuantile,
  tBelow,
  tQuantile,
} from "./distributions.ts";
export type { FitProblem, Prior } from "./fit-problem.ts";
export { cooksDistances } from "./influence.ts";
export { type Fit, type FitOptions, type FitOutcome, levenbergMarquardt } from "./levenberg-marquardt.ts";
export { type PropagateOptions, type PropagateOutcome, type Propagation, propagate } from "./propagate.ts";
export { type Rng, rng } from "./rng.ts";
export { type RobustFit, type RobustOptions, robustFit } from "./robust-fit.ts";
export { betweenLimits, fromReadings, type Shape, type UncertainInput } from "./uncertain-input.ts";
