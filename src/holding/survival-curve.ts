// The step curve of what is still held, as Kaplan–Meier and Turnbull both draw it, with its limits.
import { normalQuantile } from "../statistics/index.ts";

/** One step down of a curve. */
export interface Step {
  /** Load at which (by which, for Turnbull) the chance has fallen to `chance`, N. */
  readonly load: number;
  /** For Turnbull: where within the loads the fall lies is not known; it begins above this one, N. */
  readonly from?: number;
  /** Pulls that had held to here (expected number of them for Turnbull). */
  readonly atRisk: number;
  readonly gaveWay: number;
  /** Chance of holding more than this load. */
  readonly chance: number;
  /** Greenwood's standard error of that chance; none once the curve is at zero, where the formula has no value. */
  readonly se?: number;
  /** 95 % limits, log-log; none where there is no se. */
  readonly low?: number;
  readonly high?: number;
}

/**
 * Steps from counts: S = Π (1 − d/n), Greenwood's variance of ln S, Σ d / (n (n − d)), and limits
 * S^exp(±z se(ln S) / ln S), which stay between 0 and 1 (log-log; Kalbfleisch & Prentice, 1980, 1.3).
 */
export function stepsOf(
  counts: readonly { load: number; from?: number; atRisk: number; gaveWay: number }[],
  coverage = 0.95,
): Step[] {
  const z = normalQuantile(0.5 + coverage / 2);
  let chance = 1;
  let variance = 0;
  return counts.map((count) => {
    const { atRisk, gaveWay } = count;
    // Expected counts of Turnbull may miss zero by rounding alone.
    const left = atRisk - gaveWay <= 1e-9 * atRisk ? 0 : atRisk - gaveWay;
    chance *= left / atRisk;
    if (left === 0) return { ...count, chance: 0 };
    variance += gaveWay / (atRisk * left);
    const spread = Math.sqrt(variance);
    const bend = (z * spread) / Math.log(chance);
    return {
      ...count,
      chance,
      se: chance * spread,
      low: chance ** Math.exp(-bend),
      high: chance ** Math.exp(bend),
    };
  });
}

/**
 * Load up to which at least a share `chance` of pulls held: the least load at which the curve is at or below it.
 *
 * @returns undefined where the curve never falls so far.
 */
export function loadAtChance(steps: readonly Step[], chance: number): number | undefined {
  return steps.find((step) => step.chance <= chance + 1e-12)?.load;
}
