/**
 * Loads at a site, on a day and by a tester not pulled with yet: ln H = η + s z + σ w, z standard normal (s the spread of
 * sites, days and testers together) and w of the law.
 */
import { bracketedRoot, type Differentiable, gaussHermite } from "../numeric/index.ts";
import { normalBelow, normalQuantile } from "../statistics/index.ts";
import { type Law, lawQuantile } from "./law.ts";

const { nodes, weights } = gaussHermite(16);

/**
 * x of ln H = η + x below which a share `p` of pulls lies. Closed for the normal law; for Weibull the share is a mean over
 * z by quadrature and x is found by Newton between brackets, to 1e-9.
 */
export function scatterQuantile(law: Law, p: number, spread: number, sigma: number): number {
  if (law === "lognormal") return normalQuantile(p) * Math.hypot(spread, sigma);
  const alone = sigma * lawQuantile(law, p, normalQuantile);
  if (spread < 1e-6 * sigma) return alone;
  const missing = ((x: number): number => {
    let below = -p;
    let slope = 0;
    for (let k = 0; k < nodes.length; k++) {
      const w = (x - spread * nodes[k]!) / sigma;
      below += weights[k]! * shareBelow(law, w);
      slope += (weights[k]! * density(law, w)) / sigma;
    }
    missing.slope = slope;
    return below;
  }) as Differentiable;
  // No node lies 8 spreads out, so that there the share is below p, and above it.
  return bracketedRoot(missing, alone - 8 * spread, alone + 8 * spread, 1e-9);
}

/**
 * Chance, 0 to 1, that a pull at a new site and day holds more than `exp(x + η)`.
 * @param x ln of a load over the middle one
 * @param spread of sites and days together, and sigma of one pull: standard deviations of ln load
 */
export function chanceAbove(law: Law, x: number, spread: number, sigma: number): number {
  let above = 0;
  for (let k = 0; k < nodes.length; k++) above += weights[k]! * (1 - shareBelow(law, (x - spread * nodes[k]!) / sigma));
  return above;
}

/**
 * Chance, 0 to 1, that a pull whose centre is `ahead` higher holds more than another on the same site and day.
 * @param ahead difference of the centres of ln load
 * @param sigma scale of one pull in ln load
 */
export function chanceAhead(law: Law, ahead: number, sigma: number): number {
  // The difference of two normals is normal; of two extreme values, or two nearly of logistics, logistic.
  return law === "lognormal"
    ? shareBelow("lognormal", ahead / (sigma * Math.SQRT2))
    : 1 / (1 + Math.exp(-ahead / sigma));
}

function shareBelow(law: Law, w: number): number {
  if (law === "weibull") return -Math.expm1(-Math.exp(w));
  if (law === "loglogistic") return 1 / (1 + Math.exp(-w));
  return normalBelow(w);
}

function density(law: Law, w: number): number {
  if (law === "weibull") return Math.exp(w - Math.exp(w));
  if (law === "loglogistic") return shareBelow(law, w) * (1 - shareBelow(law, w));
  return Math.exp(-0.5 * w * w) / Math.sqrt(2 * Math.PI);
}
