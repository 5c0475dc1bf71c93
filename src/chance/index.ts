export { type Budget, type BudgetOptions, budget, type Model, type Source } from "./budget.ts";
export { type Line, mad, mean, median, normalMad, quantile, standardDeviation, theilSen } from "./centre.ts";
export type { Correlation } from "./correlation.ts";
export {
  chiSquaredBelow,
  chiSquaredQuantile,
  normalBelow,
  normalQuantile,
  tBelow,
  tQuantile,
} from "./distributions.ts";
export type { FitProblem, Prior } from "./fit-problem.ts";
export { type Fit, type FitOptions, type FitOutcome, levenbergMarquardt } from "./levenberg-marquardt.ts";
export { betweenLimits, fromReadings, type Shape, type UncertainInput } from "./uncertain-input.ts";
