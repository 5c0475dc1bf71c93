import type { Fit } from "./levenberg-marquardt.ts";

/**
 * Cook's distance (Technometrics 19 (1977) 15) of each observation: how far the parameters would move without it, squared
 * and over their covariance and number. Above about 1 a single reading decides the answer.
 *   D = z² · h / (p · (1 − h)²),   z = residual / uncertainty,   h its leverage
 * The uncertainty is the stated one; without, the residual standard deviation. Infinity for a reading that alone
 * determines a parameter.
 */
export function cooksDistances(fit: Fit, uncertainty?: ArrayLike<number>): number[] {
  const p = fit.parameters.length;
  return fit.residuals.map((residual, i) => {
    const h = fit.leverages[i]!;
    const z = residual / (uncertainty?.[i] ?? fit.residualStandardDeviation);
    if (residual === 0) return 0;
    return (z ** 2 * h) / (p * (1 - h) ** 2);
  });
}
