/**
 * The laws of the error in ln H = η + σ w: normal (loads lognormal), logistic (loads log-logistic) and least extreme
 * value (loads Weibull), as what one pull adds to the log-likelihood and how that bends with w. Written into an array
 * handed in, so that a fit allocates nothing.
 */
import * as normalLaw from "../statistics/index.ts";

// Names of this file: some loaders make every use of an import a look-up, which a loop of millions feels.
const { tabledLogNormalBelow: belowWithSlope, logNormalBelow: logBelow, logNormalDensity: logDensity } = normalLaw;

/** A law of scatter of the logarithm of the load. */
export type Law = "weibull" | "lognormal" | "loglogistic";
/** The laws of scatter, by name. */
export const LAWS: readonly Law[] = ["lognormal", "weibull", "loglogistic"];

/** Kind of what is known of a load: exact; above `low`; below `high`; between the two. */
export const EXACT = 0;
export const ABOVE = 1;
export const BELOW = 2;
export const BETWEEN = 3;

/**
 * Value of the log-likelihood of w and its derivatives: [0] value, [1] ∂/∂w₁, [2] ∂²/∂w₁², and between two loads [3] ∂/∂w₂,
 * [4] ∂²/∂w₂², [5] ∂²/∂w₁∂w₂ (zero otherwise). For EXACT the value is ln f(w), without the 1 / (σ · load) of the load's
 * own density.
 */
export type LawTerms = (kind: number, low: number, high: number, out: Float64Array) => void;

export function lawTerms(law: Law): LawTerms {
  return { lognormal: normal, weibull: extreme, loglogistic: logistic }[law];
}

function normal(kind: number, low: number, high: number, out: Float64Array): void {
  out[3] = 0;
  out[4] = 0;
  out[5] = 0;
  if (kind === EXACT) {
    out[0] = logDensity(low);
    out[1] = -low;
    out[2] = -1;
  } else if (kind === ABOVE) {
    belowWithSlope(-low, out);
    const hazard = out[1]!;
    out[1] = -hazard;
    out[2] = -hazard * (hazard - low);
  } else if (kind === BELOW) {
    belowWithSlope(high, out);
    const slope = out[1]!;
    out[2] = -slope * (slope + high);
  } else {
    // By the tail both ends are in, where one is the smaller number; across zero by either.
    const upper = low > 0;
    const near = upper ? logBelow(-low) : logBelow(high);
    const far = upper ? logBelow(-high) : logBelow(low);
    const value = near + Math.log1p(-Math.exp(far - near));
    between(value, logDensity(low), -low, logDensity(high), -high, out);
  }
}

function logistic(kind: number, low: number, high: number, out: Float64Array): void {
  out[3] = 0;
  out[4] = 0;
  out[5] = 0;
  if (kind === EXACT) {
    const share = logisticBelow(low);
    out[0] = logisticLogBelow(low) + logisticLogBelow(-low);
    out[1] = 1 - 2 * share;
    out[2] = -2 * share * (1 - share);
  } else if (kind === ABOVE) {
    const share = logisticBelow(low);
    out[0] = logisticLogBelow(-low);
    out[1] = -share;
    out[2] = -share * (1 - share);
  } else if (kind === BELOW) {
    const share = logisticBelow(high);
    out[0] = logisticLogBelow(high);
    out[1] = 1 - share;
    out[2] = -share * (1 - share);
  } else {
    // F(b) − F(a) = F(b) S(a) (1 − e^(a − b))
    const value = logisticLogBelow(high) + logisticLogBelow(-low) + Math.log(-Math.expm1(low - high));
    const f1 = logisticLogBelow(low) + logisticLogBelow(-low);
    const f2 = logisticLogBelow(high) + logisticLogBelow(-high);
    between(value, f1, 1 - 2 * logisticBelow(low), f2, 1 - 2 * logisticBelow(high), out);
  }
}

/** ln of the logistic share below w. */
function logisticLogBelow(w: number): number {
  return w < 0 ? w - Math.log1p(Math.exp(w)) : -Math.log1p(Math.exp(-w));
}

function logisticBelow(w: number): number {
  if (w >= 0) return 1 / (1 + Math.exp(-w));
  const e = Math.exp(w);
  return e / (1 + e);
}

function extreme(kind: number, low: number, high: number, out: Float64Array): void {
  out[3] = 0;
  out[4] = 0;
  out[5] = 0;
  if (kind === EXACT) {
    const u = Math.exp(low);
    out[0] = low - u;
    out[1] = 1 - u;
    out[2] = -u;
  } else if (kind === ABOVE) {
    const u = Math.exp(low);
    out[0] = -u;
    out[1] = -u;
    out[2] = -u;
  } else if (kind === BELOW) {
    const u = Math.exp(high);
    // u / (e^u − 1), 1 as u goes to zero.
    const slope = u < 1e-300 ? 1 : u > 700 ? 0 : u / Math.expm1(u);
    out[0] = u < 1e-8 ? high - 0.5 * u : Math.log(-Math.expm1(-u));
    out[1] = slope;
    // slope (1 − slope − u), whose first two terms cancel as u goes to zero: −u/2 there.
    out[2] = u < 1e-5 ? -0.5 * u : slope * (1 - slope - u);
  } else {
    const u1 = Math.exp(low);
    const u2 = Math.exp(high);
    // S(a) − S(b) = e^(−u₁) (1 − e^(−(u₂ − u₁))), u₂ − u₁ without cancelling.
    const gap = u1 * Math.expm1(high - low);
    const value = -u1 + (gap < 1e-300 ? low + Math.log(Math.expm1(high - low)) : Math.log(-Math.expm1(-gap)));
    between(value, low - u1, 1 - u1, high - u2, 1 - u2, out);
  }
}

/** From ln(F₂ − F₁), the logarithms of both densities, and the slopes of those logarithms. */
function between(value: number, f1: number, slope1: number, f2: number, slope2: number, out: Float64Array): void {
  const a = Math.exp(f1 - value);
  const b = Math.exp(f2 - value);
  out[0] = value;
  out[1] = -a;
  out[2] = -a * slope1 - a * a;
  out[3] = b;
  out[4] = b * slope2 - b * b;
  out[5] = a * b;
}

/** Standardised error below which a share `p` lies. */
export function lawQuantile(law: Law, p: number, normalQuantile: (p: number) => number): number {
  switch (law) {
    case "lognormal":
      return normalQuantile(p);
    case "weibull":
      return Math.log(-Math.log1p(-p));
    case "loglogistic":
      return Math.log(p) - Math.log1p(-p);
  }
}
