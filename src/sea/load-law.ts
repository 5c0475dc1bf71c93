/**
 * A law of load over wind, F = F₀ (V/V₀)ⁿ, V₀ the middle of the points' winds.
 *
 * In logarithms it is a straight line, ln F = c + n ln(V/V₀), with relative uncertainties as its weights:
 *   σᵢ² = (u(F)/F)² + n² (u(V)/V)²
 * The square law, n = 2, stands by default, with an uncertainty of its own (a rough sea, a wilder swing or a change of
 * drag bends it). From three points on, the winds of which span a factor of 1.5 or more, n is fitted freely, and the fit
 * taken where it tells more: its u is at most 0.25, or it lies more than 2 u from 2. Otherwise the square law is kept and
 * the fit shown beside it.
 * Where the points scatter more than their uncertainties say, all uncertainties grow by that much (Birge's ratio).
 */
import { levenbergMarquardt } from "../chance/index.ts";
import { coverage, type Estimate, type Measured } from "./estimate.ts";

const fewestPoints = 3;
const leastSpan = 1.5;
/** A fitted exponent wider than this tells less than the square law. */
const telling = 0.25;
/** A fitted exponent outside this is no law of wind on a hull: the points say something else, and the square law stands. */
const credible = { low: 1, high: 3 };
/** A point stated as exact still needs a weight. */
const leastSigma = 1e-9;

/** One point in logarithms. */
export interface LogPoint {
  readonly wind: number;
  /** ln F */
  readonly level: number;
  /** Relative standard uncertainties. */
  readonly windU: number;
  readonly loadU: number;
}

export interface LoadLaw {
  /** m/s, N: the law goes through this point. */
  readonly wind: number;
  readonly load: number;
  readonly exponent: Measured;
  readonly exponentFrom: "square law" | "fitted";
  /** What a free fit gave and why it was not taken. */
  readonly setAside?: Measured & { readonly because: "tells less than the square law" | "is no law of wind" };
  /** Variances of ln F at `wind` and of n, and their covariance. */
  readonly variance: { readonly level: number; readonly exponent: number; readonly both: number };
  /** √(χ²/ν), at least 1; 1 without degrees of freedom. */
  readonly scatter: number;
  readonly dof: number;
  /** Relative standard deviation of one reading about the law. */
  readonly reading: number;
  /** Residual of each point in its standard uncertainties. */
  readonly residuals: readonly number[];
}

/** What a law predicts at a wind: the law's value with its u, and the band that holds a new reading 95 times in 100. */
export interface Prediction extends Estimate {
  readonly newReading: { readonly low: number; readonly high: number };
}

/**
 * The law through points of one kind.
 * @param squareU standard uncertainty of the exponent while it is held at 2
 */
export function fitLaw(points: readonly LogPoint[], squareU: number): LoadLaw {
  const winds = points.map((p) => p.wind);
  if (points.length < fewestPoints || Math.max(...winds) < leastSpan * Math.min(...winds)) {
    return lineThrough(points, squareU, false);
  }
  const fitted = lineThrough(points, squareU, true);
  const { value, u } = fitted.exponent;
  const isLaw = value >= credible.low && value <= credible.high;
  if (isLaw && (u <= telling || Math.abs(value - 2) > 2 * u)) return fitted;
  const because = isLaw ? "tells less than the square law" : "is no law of wind";
  return { ...lineThrough(points, squareU, false), setAside: { value, u, because } };
}

function lineThrough(points: readonly LogPoint[], squareU: number, free: boolean): LoadLaw {
  const logs = points.map((p) => Math.log(p.wind));
  const sigmas = (n: number): number[] => points.map((p) => Math.hypot(p.loadU, n * p.windU) || leastSigma);
  let exponent = 2;
  let sigma = sigmas(exponent);
  let middle = weightedMean(logs, sigma);
  let level = weightedMean(
    points.map((p) => p.level),
    sigma,
  );
  let variance = { level: 1 / sigma.reduce((sum, s) => sum + s ** -2, 0), exponent: squareU ** 2, both: 0 };
  if (free) {
    // The weights hold n themselves; a few turns settle both.
    for (let turn = 0; turn < 50; turn++) {
      const x = logs.map((l) => l - middle);
      const fit = levenbergMarquardt(
        {
          observed: points.map((p) => p.level),
          uncertainty: sigma,
          predict: ([c, n], out) => {
            for (const [i, xi] of x.entries()) out[i] = c! + n! * xi;
          },
          jacobian: (_, out) => {
            for (const [i, xi] of x.entries()) out.set([1, xi], 2 * i);
          },
        },
        [level, exponent],
      );
      const before = exponent;
      [level, exponent] = fit.parameters as [number, number];
      const [[a, b], [, d]] = fit.covariance as [[number, number], [number, number]];
      variance = { level: a, exponent: d, both: b };
      if (Math.abs(exponent - before) < 1e-12) break;
      sigma = sigmas(exponent);
      const moved = weightedMean(logs, sigma);
      level += exponent * (moved - middle);
      middle = moved;
    }
  }
  const residuals = points.map((p, i) => (p.level - level - exponent * (logs[i]! - middle)) / sigma[i]!);
  const dof = points.length - (free ? 2 : 1);
  const chi2 = residuals.reduce((sum, r) => sum + r * r, 0);
  const scatter = dof > 0 ? Math.max(1, Math.sqrt(chi2 / dof)) : 1;
  const grow = scatter ** 2;
  return {
    wind: Math.exp(middle),
    load: Math.exp(level),
    exponent: { value: exponent, u: free ? scatter * Math.sqrt(variance.exponent) : squareU },
    exponentFrom: free ? "fitted" : "square law",
    variance: {
      level: variance.level * grow,
      exponent: free ? variance.exponent * grow : variance.exponent,
      both: variance.both * grow,
    },
    scatter,
    dof,
    reading: scatter * Math.sqrt(sigma.reduce((sum, s) => sum + s * s, 0) / sigma.length),
    residuals,
  };
}

/** Load at a wind (m/s at 10 m) by a law, N; first order (JCGM 100), the bands in logarithms. */
export function predictLoad(law: LoadLaw, wind: Measured): Prediction {
  const x = Math.log(wind.value / law.wind);
  const value = law.load * Math.exp(law.exponent.value * x);
  const relative = Math.sqrt(lawVariance(law, x) + (law.exponent.value * (wind.u / wind.value)) ** 2);
  const k = coverage(law.scatter > 1 ? law.dof : Number.POSITIVE_INFINITY);
  const reading = Math.hypot(relative, law.reading);
  return {
    value,
    u: value * relative,
    low: value * Math.exp(-k * relative),
    high: value * Math.exp(k * relative),
    newReading: { low: value * Math.exp(-k * reading), high: value * Math.exp(k * reading) },
  };
}

/** Mean wind (m/s at 10 m) whose load by the law is this one. */
export function windWorth(law: LoadLaw, load: Measured): Estimate {
  const x = Math.log(load.value / law.load) / law.exponent.value;
  const value = law.wind * Math.exp(x);
  const relative = Math.sqrt(lawVariance(law, x) + (load.u / load.value) ** 2) / law.exponent.value;
  const k = coverage(law.scatter > 1 ? law.dof : Number.POSITIVE_INFINITY);
  return { value, u: value * relative, low: value * Math.exp(-k * relative), high: value * Math.exp(k * relative) };
}

/** Variance of ln F of the law itself at ln(V/V₀) = x. */
function lawVariance(law: LoadLaw, x: number): number {
  return law.variance.level + 2 * law.variance.both * x + law.variance.exponent * x * x;
}

function weightedMean(values: readonly number[], sigma: readonly number[]): number {
  let sum = 0;
  let weights = 0;
  values.forEach((value, i) => {
    const w = sigma[i]! ** -2;
    sum += w * value;
    weights += w;
  });
  return sum / weights;
}
