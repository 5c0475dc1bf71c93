export type { FitProblem, Prior } from "./fit-problem.ts";
export { type Fit, type FitOptions, type FitOutcome, levenbergMarquardt } from "./levenberg-marquardt.ts";
