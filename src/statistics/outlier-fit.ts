/**
 * Least squares that tells wild readings from good ones, and says when it cannot.
 *
 * A reading is either good, its error normal with the stated uncertainty, or wild, and then anything. Of all ways to divide
 * them the one with the least
 *
 *     Q = Σ good (residual / u s)² + Σ priors + c² · (wild) + 2 n ln s
 *
 * is taken (c the limit of a good reading; s = 1 unless the readings themselves say clearly that they scatter more, for
 * which Q is charged, as it is for more than one wild reading in eight). Good readings count in full, so that values and ±
 * are those of plain least squares: exact for normal errors. A wild one counts by the chance that it is good after all,
 *
 *     w = 1 / (1 + exp((t² − c²) / 2)),     t its standardised residual,
 *
 * a half at the limit and 1e-4 at 5, and the ± is that of the mixture of both divisions: the mean of their variances by
 * that chance, and what lies between their values, w (1 − w) Δx Δxᵀ. Else the few good ones beyond the limit, let go of,
 * would make the ± too small (model averaging: Hoeting, Madigan, Raftery and Volinsky, Statist. Sci. 14, 1999, recalled).
 *
 * Where another reading would explain the disagreement nearly as well, nobody can tell which is wrong: both are suspects,
 * left out and not called wild. The scale is not widened while few readings are left over the unknowns.
 */
import { InputError } from "../quantity/index.ts";
import { median, normalMad } from "./centre.ts";
import { chiSquaredAbove, chiSquaredBelow } from "./chi-squared.ts";
import type { FitProblem } from "./fit-problem.ts";
import { cooksDistances } from "./influence.ts";
import { type Fit, type FitOptions, levenbergMarquardt } from "./levenberg-marquardt.ts";
import { type ResidualGeometry, residualGeometry } from "./residual-geometry.ts";

/** A fit that leaves wild readings out, and says which. */
export interface OutlierFit extends Fit {
  /** How far an observation was believed: 1, or less than a half for one that is wild, 0 for a suspect. */
  readonly weights: number[];
  /** Residuals standardised by what the fit leaves of each, and by the scale: standard normal for good readings. */
  readonly standardised: number[];
  /** Places of wild observations, beyond `limit`. */
  readonly outliers: number[];
  /** Places of observations of which at least one is wild, nobody can tell which. */
  readonly suspects: number[];
  /** Standardised residual beyond which an observation is wild. */
  readonly limit: number;
  /** Factor on the stated uncertainties, 1 or more; deviations and covariance have it in them. */
  readonly scale: number;
  readonly scatter: Scatter;
  /** Effective number of unknowns: how many observations it takes up to fit them, those held by priors not counting. */
  readonly effectiveUnknowns: number;
  /** Places of observations of which a gross error (8 standard uncertainties) would most likely not be told from another's. */
  readonly untold: number[];
  /** Cook's distance of each observation in the plain fit of all. */
  readonly cooksDistances: number[];
  /** Plain least squares of all observations. */
  readonly plain: Fit;
}

/** How believed readings scatter about the fit against their stated uncertainties, where that can be told. */
export type Scatter =
  | { readonly kind: "asStated" | "more" | "less"; readonly ratio: number }
  /** Too few over the unknowns. */
  | { readonly kind: "tooFew" };

/** How wild readings are told. */
export interface OutlierOptions extends Omit<FitOptions, "weights"> {
  /** Standardised residual beyond which an observation is wild; 2.7 without: 7 good ones in 1000 lie beyond. */
  readonly limit?: number;
}

/** Difference of Q below which one reading is no better explanation than another: odds of e³, 20 to 1. */
const TELLING = 6;
/** A disagreement that could be any of several readings' is spoken of beyond this standardised residual. */
const SUSPICIOUS = 3.3;
/** Chance with which clean readings are wrongly told to scatter more, or less, than stated. */
const FALSE_SCATTER = 0.01;
/** Readings over the effective unknowns below which nothing is widened. */
const LEAST_OVER = 3;
/** What a scale of its own has to gain in Q: a further unknown, and rarely needed. */
const PRICE_OF_SCALE = 4;
/** What each wild reading past one in eight costs more: where many are wild, the uncertainty stated is what is wrong. */
const PRICE_OF_MANY = 6;
/** Weight of what is left out: none but for rounding, so that no column of the problem vanishes. */
const NONE = 1e-12;
/** How near the search for a division goes to each least-squares point. */
const ROUGH = 1e-4;

interface Division {
  readonly kept: boolean[];
  readonly fit: Fit;
  readonly geometry: ResidualGeometry;
  readonly scale: number;
  readonly Q: number;
}

/**
 * The fit of the head of this file: values and ± of the readings believed, which are wild, which may be.
 * @param problem with a stated standard uncertainty for each reading, in its unit
 * @throws InputError as `levenbergMarquardt`, and without stated uncertainties
 */
export function outlierFit(problem: FitProblem, start: ArrayLike<number>, options: OutlierOptions = {}): OutlierFit {
  const stated = problem.uncertainty;
  if (stated === undefined)
    throw new InputError("uncertainty", "none", "stated uncertainties are expected, to know a wild reading by");
  const limit = options.limit ?? 2.7;
  const n = problem.observed.length;
  const typical = Float64Array.from(start, (value, j) => Math.abs(options.typical?.[j] ?? value) || 1);
  let from: ArrayLike<number> = start;

  const fitOf = (weights: readonly number[], scale: number, offset = ROUGH): Fit =>
    levenbergMarquardt(
      scale === 1 ? problem : { ...problem, uncertainty: Array.from(stated, (u) => u * scale) },
      from,
      { ...options, typical, offset, weights: weights.map((one) => Math.max(NONE, one)) },
    );
  const divide = (kept: boolean[], scale: number, offset = ROUGH): Division => {
    const fit = fitOf(kept.map(Number), scale, offset);
    const geometry = residualGeometry(problem, fit, kept, scale, typical);
    const wild = kept.filter((one) => !one).length;
    const held = fit.priorResiduals.reduce((sum, one) => sum + one * one, 0);
    return {
      kept,
      fit,
      geometry,
      scale,
      Q:
        geometry.chiSquared +
        held +
        limit ** 2 * wild +
        PRICE_OF_MANY * Math.max(0, wild - Math.max(1, Math.ceil(n / 8))) +
        2 * n * Math.log(scale) +
        (scale > 1 ? PRICE_OF_SCALE : 0),
    };
  };
  /** Lets go of the farthest, takes back what fits, until nothing changes; the best division met. */
  const improve = (first: Division): Division => {
    let best = first;
    let here = first;
    for (let round = 0; round < 40; round++) {
      const size = here.geometry.t.map(Math.abs);
      const beyond = Math.max(0, ...here.kept.map((one, i) => (one && size[i]! > limit ? size[i]! : 0)));
      // One at a time where one stands out, so that a wild reading takes no good one with it; together where many do.
      const kept = here.kept.map((one, i) =>
        one ? !(size[i]! > limit && size[i]! >= 0.8 * beyond) : beyond === 0 && size[i]! <= limit,
      );
      if (kept.every((one, i) => one === here.kept[i]) || !enough(kept)) break;
      here = divide(kept, here.scale);
      if (here.Q < best.Q) best = here;
    }
    return best;
  };
  const enough = (kept: readonly boolean[]): boolean => kept.filter(Boolean).length >= Math.max(1, Math.ceil(n / 2));

  const everything = new Array<boolean>(n).fill(true);
  const all = divide(everything, 1, options.offset ?? 1e-8);
  const plain = all.fit;
  from = plain.parameters;
  const farthest = [...all.geometry.t.keys()].sort(
    (a, b) => Math.abs(all.geometry.t[b]!) - Math.abs(all.geometry.t[a]!),
  );
  const candidates = [all, improve(all)];
  if (Math.abs(all.geometry.t[farthest[0]!]!) > limit) {
    const starts = farthest.slice(0, 4).map((i) => everything.map((_, k) => k !== i));
    const robust = robustlyKept(fitOf, stated, everything, limit);
    if (robust.some((one) => !one)) starts.push(robust);
    for (const kept of starts) if (enough(kept)) candidates.push(improve(divide(kept, 1)));
    for (const scale of widerScales(all.geometry, n)) candidates.push(improve(divide(everything, scale)));
  }
  let best = candidates.reduce((a, b) => (b.Q < a.Q ? b : a));
  const suspects = suspectsOf(best, divide, limit);
  if (suspects.length > 0) {
    // Not believed, any of them: the rest then says nothing wrong, whichever it was.
    const kept = best.kept.map((one, i) => one && !suspects.includes(i));
    best = divide(kept, best.scale);
  }
  let scatter = scatterOf(best.geometry, best.kept, best.fit.parameters.length);
  let { scale } = best;
  if (scatter.kind === "more") {
    // Told apart from chance: the ± follow.
    scale *= scatter.ratio;
    best = divide(best.kept, scale);
  }
  if (scale > 1) scatter = { kind: "more", ratio: scale };
  const last = divide(best.kept, scale, options.offset ?? 1e-8);
  const { t } = last.geometry;
  const weights = last.kept.map((one, i) =>
    one ? 1 : suspects.includes(i) ? 0 : 1 / (1 + Math.exp((t[i]! ** 2 - limit ** 2) / 2)),
  );
  const doubtful = weights.some((weight) => weight > 1e-6 && weight < 1);
  return {
    ...(doubtful ? averaged(last, weights, (own) => fitOf(own, scale, options.offset ?? 1e-8)) : last.fit),
    weights,
    standardised: Array.from(t),
    outliers: last.kept.flatMap((one, i) => (one || suspects.includes(i) ? [] : [i])),
    suspects,
    limit,
    scale,
    scatter,
    effectiveUnknowns: last.geometry.effectiveUnknowns,
    untold: untoldOf(last, limit),
    cooksDistances: cooksDistances(plain, stated),
    plain,
  };
}

/**
 * The fit over both divisions of each doubtful reading. A weight w/(1 + (1 − w) h) in least squares gives the mean of the
 * values with and without it, by their chances, and of their variances; what lies between them is added.
 */
function averaged(last: Division, weights: readonly number[], fitWith: (weights: readonly number[]) => Fit): Fit {
  const { geometry, kept } = last;
  const fit = fitWith(weights.map((w, i) => (kept[i] ? w : w / (1 + (1 - w) * geometry.leverage(i)))));
  const covariance = fit.covariance.map((row) => [...row]);
  weights.forEach((w, i) => {
    if (kept[i] || !(w > 1e-6)) return;
    const shift = geometry.shift(i);
    for (const [a, row] of covariance.entries())
      for (const b of row.keys()) row[b]! += w * (1 - w) * shift[a]! * shift[b]!;
  });
  return { ...fit, covariance, standardDeviations: covariance.map((row, a) => Math.sqrt(row[a]!)) };
}

/** The readings within the limit of the fit to their nearer half, in turns (Rousseeuw and Van Driessen 1999): where many wild ones mask each other. */
function robustlyKept(
  fitOf: (weights: readonly number[], scale: number) => Fit,
  stated: ArrayLike<number>,
  everything: readonly boolean[],
  limit: number,
): boolean[] {
  let kept = [...everything];
  for (let round = 0; round < 10; round++) {
    const z = fitOf(kept.map(Number), 1).residuals.map((residual, i) => Math.abs(residual / stated[i]!));
    const middle = median(Float64Array.from(z));
    const next = z.map((one) => one <= Math.max(middle, limit / 2));
    if (next.every((one, i) => one === kept[i])) break;
    kept = next;
  }
  const z = fitOf(kept.map(Number), 1).residuals.map((residual, i) => Math.abs(residual / stated[i]!));
  return z.map((one) => one <= limit);
}

/** Scales worth trying: of the plain scatter, and of the middle half. */
function widerScales(geometry: ResidualGeometry, n: number): number[] {
  const over = n - geometry.effectiveUnknowns;
  if (over < LEAST_OVER) return [];
  const middle = normalMad * median(geometry.t.map(Math.abs));
  return [Math.sqrt(geometry.chiSquared / over), middle].filter((scale) => scale > 1.2);
}

/**
 * For each wild reading: the kept ones that would explain the disagreement nearly as well, if it were believed again.
 * In a linear fit letting go of one reading takes t² off the sum of squares.
 */
function suspectsOf(best: Division, divide: (kept: boolean[], scale: number) => Division, limit: number): number[] {
  const suspects = new Set<number>();
  best.kept.forEach((one, i) => {
    if (one) return;
    const withIt = divide(
      best.kept.map((kept, k) => kept || k === i),
      best.scale,
    );
    const t = withIt.geometry.t;
    const rivals = [...t.keys()].filter((k) => {
      if (k === i || !withIt.kept[k] || t[i]! ** 2 - t[k]! ** 2 >= TELLING) return false;
      // Without the rival, reading i has to fit.
      const r = withIt.geometry.correlation(i, k);
      return Math.abs(t[i]! - r * t[k]!) <= limit * Math.sqrt(Math.max(0, 1 - r * r));
    });
    if (rivals.length === 0) return;
    // Of a small disagreement nothing is said: one reading may be a little far off.
    if (Math.abs(t[i]!) > Math.max(limit, SUSPICIOUS)) for (const k of [i, ...rivals]) suspects.add(k);
  });
  return [...suspects].sort((a, b) => a - b);
}

/** Σ z² against chi-squared: at most with n − effective unknowns (truths as the priors say), at least with n − unknowns. */
function scatterOf(geometry: ResidualGeometry, kept: readonly boolean[], unknowns: number): Scatter {
  const count = kept.filter(Boolean).length;
  const over = count - geometry.effectiveUnknowns;
  if (over < LEAST_OVER) return { kind: "tooFew" };
  const ratio = Math.sqrt(geometry.chiSquared / over);
  if (ratio > 1 && chiSquaredAbove(geometry.chiSquared, over) < FALSE_SCATTER) return { kind: "more", ratio };
  const least = count - unknowns;
  if (least >= 1 && chiSquaredBelow(geometry.chiSquared, least) < FALSE_SCATTER) return { kind: "less", ratio };
  return { kind: "asStated", ratio };
}

/** A gross error, in standard uncertainties, and the chance's quantile it is to stand clear by: 95 %. */
const GROSS = { size: 8, clear: 1.645 };

function untoldOf({ geometry, kept }: Division, limit: number): number[] {
  const places = kept.flatMap((one, i) => (one ? [i] : []));
  // With many readings over the unknowns each is checked by the others; the square of them need not be looked at.
  if (places.length > 40) return [];
  return places.filter((i) => {
    const nearest = Math.max(0, ...places.filter((j) => j !== i).map((j) => geometry.correlation(i, j) ** 2));
    return GROSS.size ** 2 * geometry.left(i) * (1 - nearest) < (limit + GROSS.clear) ** 2;
  });
}
