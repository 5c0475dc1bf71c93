/**
 * A law of load over wind, F = F₀ (V/V₀)ⁿ, V₀ the middle of the points' winds.
 *
 * In logarithms it is a straight line, ln F = c + n ln(V/V₀), with relative uncertainties as its weights:
 *   σᵢ² = (u(F)/F)² + n² (u(V)/V)²
 * The square law, n = 2, stands by default, with an uncertainty of its own (a rough sea, a wilder swing or a change of
 * drag bends it). From three points on, the winds of which span a factor of 1.5 or more, n is fitted freely, and the fit
 * taken where it tells more: its u is at most 0.25, or it lies more than 2 u from 2. Otherwise the square law is kept and
 * the fit shown beside it.
 * Where the points scatter more than their uncertainties say, all uncertainties grow by that much (Birge's ratio s). What
 * was stated is taken as known, what the points add to it as estimated from their ν degrees of freedom: the band's own are
 * ν s⁴/(s² − 1)² (Welch and Satterthwaite, JCGM 100:2008, G.4), none beyond stated at s = 1 and ν where s is large, and move
 * with the scatter without a step.
 */
import { combined, levenbergMarquardt } from "../statistics/index.ts";
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

/** Load over wind as measured points give it: factor, exponent and their uncertainties. */
export interface LoadLaw {
  /** m/s, N: the law goes through this point. */
  readonly wind: number;
  readonly load: number;
  readonly exponent: Measured;
  readonly exponentFrom: "square law" | "fitted";
  /** What a free fit gave and why it was not taken. */
  readonly setAside?: Measured & { readonly because: "tellsLess" | "noLawOfWind" };
  /** Variances of ln F at `wind` and of n, and their covariance. */
  readonly variance: { readonly level: number; readonly exponent: number; readonly both: number };
  /** √(χ²/ν), at least 1; 1 without degrees of freedom. */
  readonly scatter: number;
  readonly dof: number;
  /** Standard uncertainties of a reading at each point, by rising wind: N, and m/s of its wind; not yet grown by the scatter. */
  readonly readings: readonly {
    readonly wind: number;
    readonly load: number;
    readonly u: number;
    readonly windU: number;
  }[];
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
  const because = isLaw ? "tellsLess" : "noLawOfWind";
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
    readings: points
      .map(({ wind, level: l, loadU, windU }) => ({
        wind,
        load: Math.exp(l),
        u: loadU * Math.exp(l),
        windU: windU * wind,
      }))
      .sort((a, b) => a.wind - b.wind),
    residuals,
  };
}

/** Load at a wind (m/s at 10 m) by a law, N; first order (JCGM 100), the bands in logarithms. */
export function predictLoad(law: LoadLaw, wind: Measured): Prediction {
  const x = Math.log(wind.value / law.wind);
  const value = law.load * Math.exp(law.exponent.value * x);
  const n = law.exponent.value;
  const relative = relativeU(law, x, n * (wind.u / wind.value));
  const k = coverage(freedom(law));
  const own = readingAt(law, wind.value);
  // The wind of a new reading is read once: by what was stated for it, or as the points' winds were, whichever is the larger.
  const windU = Math.max(wind.u, law.scatter * own.windU) / wind.value;
  const times = relativeU(law, x, n * windU);
  // Law and wind err in proportion, a cell in newtons: each has its own band, and their halves are joined by squares.
  const cell = k * law.scatter * own.u;
  return {
    value,
    u: value * relative,
    low: value * Math.exp(-k * relative),
    high: value * Math.exp(k * relative),
    newReading: {
      // A rode cannot push: nothing is read below no load.
      low: Math.max(0, value - Math.hypot(value - value * Math.exp(-k * times), cell)),
      high: value + Math.hypot(value * Math.exp(k * times) - value, cell),
    },
  };
}

/** Mean wind (m/s at 10 m) whose load by the law is this one. */
export function windForLoad(law: LoadLaw, load: Measured): Estimate {
  const x = Math.log(load.value / law.load) / law.exponent.value;
  const value = law.wind * Math.exp(x);
  const relative = relativeU(law, x, load.u / load.value) / law.exponent.value;
  const k = coverage(freedom(law));
  return { value, u: value * relative, low: value * Math.exp(-k * relative), high: value * Math.exp(k * relative) };
}

/** Degrees of freedom of a band of the law; Infinity where the points scatter no more than was stated. */
function freedom({ scatter, dof }: LoadLaw): number {
  if (!(scatter > 1) || dof === 0) return Number.POSITIVE_INFINITY;
  const grown = scatter ** 2;
  return Math.min(MOST_FREEDOM, dof * (grown / (grown - 1)) ** 2);
}

/** Beyond so many a Student's t is the normal law to six digits. */
const MOST_FREEDOM = 1e7;

/**
 * How unsure a reading at a wind is: N, and m/s of its wind. A cell errs in newtons, the same in light winds as at its lowest
 * point; beyond the highest point both grow with what is read.
 */
function readingAt({ readings }: LoadLaw, wind: number): { readonly u: number; readonly windU: number } {
  const [first, last] = [readings[0]!, readings.at(-1)!];
  if (wind <= first.wind) return first;
  if (wind >= last.wind) {
    const times = wind / last.wind;
    return { u: last.u * times ** 2, windU: last.windU * times };
  }
  let i = 1;
  while (readings[i]!.wind < wind) i++;
  const [a, b] = [readings[i - 1]!, readings[i]!];
  const share = (wind - a.wind) / (b.wind - a.wind);
  return { u: a.u + share * (b.u - a.u), windU: a.windU + share * (b.windU - a.windU) };
}

/**
 * Standard uncertainty of ln F at ln(V/V₀) = x: of the law, whose level and exponent err together, and of what stands beside it.
 * @param beside what else ln F may be off by, of the law's own errors independent
 */
function relativeU({ variance }: LoadLaw, x: number, beside: number): number {
  const [level, exponent] = [Math.sqrt(variance.level), Math.sqrt(variance.exponent)];
  const r = variance.both === 0 ? 0 : variance.both / (level * exponent);
  const first = { values: [0], contributions: [[level], [exponent * x], [beside]] };
  return combined(first, [
    [1, r, 0],
    [r, 1, 0],
    [0, 0, 1],
  ]).u[0]!;
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
