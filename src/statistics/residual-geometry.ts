/**
 * What a least-squares fit leaves of an observation, told from the Jacobian J (whitened) and the covariance C at its end:
 *
 *     h(i, j) = Jᵢ C Jⱼᵀ          of a kept observation, its pull on the fitted value of another
 *     t(i) = zᵢ / √(1 − h(i, i))  kept,      t(i) = zᵢ / √(1 + h(i, i))  left out
 *
 * with z the residual in standard uncertainties. t is standard normal where the uncertainties tell the truth, for both: it
 * is the residual against a fit that did not have the observation (Cook and Weisberg 1982, section 2.2).
 * Σ h(i, i) over the kept ones is the effective number of unknowns: one that a prior holds does not count.
 */
import { type FitProblem, whiten } from "./fit-problem.ts";
import type { Fit } from "./levenberg-marquardt.ts";

export interface ResidualGeometry {
  /** Residuals in standard uncertainties of their observations, and standardised by what the fit leaves of them. */
  readonly z: Float64Array;
  readonly t: Float64Array;
  /** Effective number of unknowns. */
  readonly effectiveUnknowns: number;
  /** Sum of z² over the kept observations. */
  readonly chiSquared: number;
  /** Share of an error of observation i (kept) that stays in its own residual, 1 − h(i, i). */
  left(i: number): number;
  /** Correlation of the residuals of two kept observations. */
  correlation(i: number, j: number): number;
  /** Leverage h(i, i). */
  leverage(i: number): number;
  /** How far believing an observation that was left out would move each parameter, C Jᵢᵀ zᵢ / (1 + h(i, i)). */
  shift(i: number): Float64Array;
}

/**
 * @param scale factor on the stated uncertainties with which `fit` was made
 * @param kept observations that the fit believed
 */
export function residualGeometry(
  problem: FitProblem,
  fit: Fit,
  kept: readonly boolean[],
  scale: number,
  typical: Float64Array,
): ResidualGeometry {
  const n = problem.observed.length;
  const p = fit.parameters.length;
  const priors = problem.priors?.length ?? 0;
  const jacobian = new Float64Array((n + priors) * p);
  whiten(problem, typical, undefined).jacobian(Float64Array.from(fit.parameters), false, jacobian);
  const h = (i: number, j: number): number => {
    let sum = 0;
    for (let a = 0; a < p; a++)
      for (let b = 0; b < p; b++) sum += jacobian[i * p + a]! * finite(fit.covariance[a]![b]!) * jacobian[j * p + b]!;
    return sum / scale ** 2;
  };
  const z = Float64Array.from(fit.residuals, (residual, i) => residual / (problem.uncertainty![i]! * scale));
  const own = Float64Array.from(z, (_, i) => h(i, i));
  const left = (i: number): number => Math.max(1e-12, 1 - own[i]!);
  let effectiveUnknowns = 0;
  let chiSquared = 0;
  for (let i = 0; i < n; i++) {
    if (!kept[i]) continue;
    effectiveUnknowns += Math.min(1, own[i]!);
    chiSquared += z[i]! ** 2;
  }
  return {
    z,
    t: z.map((one, i) => one / Math.sqrt(kept[i] ? left(i) : 1 + own[i]!)),
    effectiveUnknowns,
    chiSquared,
    left,
    correlation: (i, j) => -h(i, j) / Math.sqrt(left(i) * left(j)),
    leverage: (i) => own[i]!,
    shift: (i) =>
      Float64Array.from({ length: p }, (_, a) => {
        let sum = 0;
        for (let b = 0; b < p; b++) sum += finite(fit.covariance[a]![b]!) * jacobian[i * p + b]!;
        return (sum * z[i]!) / (scale * (1 + own[i]!));
      }),
  };
}

/** A parameter that nothing determines pulls nowhere. */
const finite = (value: number): number => (Number.isFinite(value) ? value : 0);
