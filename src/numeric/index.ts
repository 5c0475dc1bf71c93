// Numerical methods that know nothing of anchors: roots, minima, integrals, derivatives, linear algebra.
export { type Curve, integrateAdaptively, integrateCurve } from "./adaptive-simpson.ts";
export {
  type BlockTridiagonal,
  blockTridiagonal,
  FULL_BLOCK,
  SYMMETRIC_BLOCK,
  solveBlockTridiagonal,
} from "./block-tridiagonal.ts";
export { bracketedRoot, type Differentiable } from "./bracketed-root.ts";
export { brent, minimise } from "./brent.ts";
export { broydenUpdate, inverseJacobian, product } from "./broyden.ts";
export { choleskyInPlace, choleskyInverse, choleskySolve } from "./cholesky.ts";
export { extrapolatedStep, type Stepped } from "./extrapolated-step.ts";
export { gaussHermite } from "./gauss-hermite.ts";
export { gaussLegendre, integrate, integrateOverDecades, type Place } from "./gauss-legendre.ts";
export { type Factored, factorise, norm, solveUpper, solveUpperTransposed } from "./householder.ts";
export { type Maximum, Newton } from "./maximise.ts";
export { type Shifted, slope } from "./slope.ts";
export { roundAbove, roundBelow, roundStep, ticks } from "./ticks.ts";
