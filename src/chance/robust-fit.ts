// Fitting that a few wild readings do not carry away: iteratively reweighted least squares (Holland & Welsch 1977).
// First Huber's weights, which have one answer whatever the start; then, from there, Tukey's biweight, which lets go of
// far readings altogether but could settle on the wrong ones from a poor start. Nothing is dropped: every observation
// keeps its place in the answer, with the weight it ended at.
//   Huber  w = 1 for |z| ≤ 1.345, else 1.345 / |z|           Tukey  w = (1 − (z / 4.685)²)², 0 beyond
// with z = (observed − predicted) / (uncertainty · scale). Both constants lose 5 % on normal errors.

import { InputError, quoted } from "../quantity/index.ts";
import { median, normalMad } from "./centre.ts";
import type { FitProblem } from "./fit-problem.ts";
import { cooksDistances } from "./influence.ts";
import { type Fit, type FitOptions, levenbergMarquardt } from "./levenberg-marquardt.ts";

export interface RobustOptions extends Omit<FitOptions, "weights"> {
  /** Last weights used: `tukey` (after Huber's) without. */
  readonly weight?: "huber" | "tukey";
  /**
   * What a unit of scaled residual is. `stated`: the stated uncertainty. `spread`: the spread of the residuals (median
   * absolute deviation). `wider`: the larger of the two, so that neither a lucky half of the readings nor too modest an
   * uncertainty makes outliers. Without: `wider` where uncertainties are given, else `spread`, the only one there is.
   */
  readonly scale?: "stated" | "spread" | "wider";
  /** Scaled residual beyond which an observation is flagged; 3 without. */
  readonly flagBeyond?: number;
}

export interface RobustFit extends Fit {
  /** Last weight of each observation, 0 … 1. */
  readonly weights: number[];
  /** (observed − predicted) / (uncertainty · scale). */
  readonly scaledResiduals: number[];
  /** Factor on the stated uncertainties; without those, the spread itself in the observations' unit. */
  readonly scale: number;
  /** Places of the observations whose scaled residual is beyond `flagBeyond`. They are in all lists like any other. */
  readonly flagged: number[];
  /** Cook's distance of each observation in the plain fit: how far it alone would pull the parameters there. */
  readonly cooksDistances: number[];
  /** Plain least squares on the same problem, to set beside. */
  readonly plain: Fit;
}

const huberAt = 1.345;
const tukeyAt = 4.685;

/**
 * Robust fit with the weight, scaled residual and influence of every observation.
 *
 * Standard deviations are those of least squares with the last weights and scaled uncertainties: a reading let go of
 * informs no more. On clean normal data they are within a few per cent of the scatter of repeated fits
 * (test/chance/robust-fit.test.ts).
 * @throws InputError as `levenbergMarquardt`, and for a scale of `stated` or `wider` without stated uncertainties.
 */
export function robustFit(problem: FitProblem, start: ArrayLike<number>, options: RobustOptions = {}): RobustFit {
  const stated = problem.uncertainty;
  const kind = options.scale ?? (stated === undefined ? "spread" : "wider");
  if (stated === undefined && kind !== "spread") {
    throw new InputError("scale", quoted(kind), "stated uncertainties are expected for it, or the scale spread");
  }
  const flagBeyond = options.flagBeyond ?? 3;
  const n = problem.observed.length;
  const p = start.length;
  const plain = levenbergMarquardt(problem, start, options);

  const standardised = (fit: Fit): Float64Array =>
    Float64Array.from(fit.residuals, (residual, i) => residual / (stated?.[i] ?? 1));
  const scaleOf = (fit: Fit): number => {
    if (kind === "stated") return 1;
    const found = Math.max(spread(standardised(fit), Math.min(p, n - 1)), smallest(problem));
    return kind === "wider" ? Math.max(1, found) : found;
  };
  const turn = (from: Fit, scale: number, weight: (z: number) => number, offset: number): Fit => {
    const weights = standardised(from).map((z) => weight(z / scale));
    const uncertainty = Float64Array.from({ length: n }, (_, i) => (stated?.[i] ?? 1) * scale);
    return levenbergMarquardt({ ...problem, uncertainty }, from.parameters, { ...options, offset, weights });
  };
  /** Turns of fit and weights, then of scale, until the parameters stand still. */
  const settle = (from: Fit, weight: (z: number) => number): { fit: Fit; still: boolean; scale: number } => {
    let fit = from;
    let scale = scaleOf(fit);
    for (let round = 0; round < 100; round++) {
      const next = turn(fit, scale, weight, 1e-6);
      const move = Math.max(
        ...next.parameters.map((value, j) => Math.abs(value - fit.parameters[j]!) / (next.standardDeviations[j]! || 1)),
      );
      fit = next;
      if (!(move > 1e-5)) return { fit: turn(fit, scale, weight, options.offset ?? 1e-8), still: true, scale };
      // With a scale that goes on changing the turns may circle; after twenty it is held.
      if (round < 20) scale = scaleOf(fit);
    }
    return { fit, still: false, scale };
  };

  const first = settle(plain, huber);
  const last = options.weight === "huber" ? first : settle(first.fit, tukey);
  const weight = options.weight === "huber" ? huber : tukey;
  const scaledResiduals = Array.from(standardised(last.fit), (z) => z / last.scale);
  return {
    ...last.fit,
    outcome: last.still ? last.fit.outcome : { kind: "stalled", why: "the robust weights did not stand still" },
    weights: scaledResiduals.map(weight),
    scaledResiduals,
    scale: last.scale,
    flagged: scaledResiduals.flatMap((z, i) => (Math.abs(z) > flagBeyond ? [i] : [])),
    cooksDistances: cooksDistances(plain, stated),
    plain,
  };
}

function huber(z: number): number {
  return Math.abs(z) <= huberAt ? 1 : huberAt / Math.abs(z);
}

function tukey(z: number): number {
  return Math.abs(z) >= tukeyAt ? 0 : (1 - (z / tukeyAt) ** 2) ** 2;
}

/** Median absolute residual of the larger n − p: as many of the smallest as there are parameters are fitted, not scattered. */
function spread(z: Float64Array, fitted: number): number {
  return normalMad * median(z.map(Math.abs).sort().subarray(fitted));
}

/** Below this a residual is rounding of the observations. */
function smallest(problem: FitProblem): number {
  let largest = 0;
  for (let i = 0; i < problem.observed.length; i++) {
    largest = Math.max(largest, Math.abs(problem.observed[i]!) / (problem.uncertainty?.[i] ?? 1));
  }
  return Math.max(8 * Number.EPSILON * largest, Number.MIN_VALUE * 2 ** 60);
}
