// Quantiles and probabilities of the normal, Student's t and chi-squared distributions, by @stdlib.
// Accuracy: the quantiles agree with 30-digit ones to 1e-12 relative (test/chance/distributions.test.ts).

import chiSquaredBy from "@stdlib/stats-base-dists-chisquare";
import normalBy from "@stdlib/stats-base-dists-normal";
import tBy from "@stdlib/stats-base-dists-t";
import { InputError, quoted } from "../quantity/index.ts";

/** The standard normal value below which a share `p` lies. */
export function normalQuantile(p: number): number {
  return normalBy.quantile(share(p), 0, 1);
}

/** Share of a standard normal below `x`. */
export function normalBelow(x: number): number {
  return normalBy.cdf(x, 0, 1);
}

/** Student's t below which a share `p` lies; the normal one for infinitely many degrees of freedom. */
export function tQuantile(p: number, dof: number): number {
  return dof === Number.POSITIVE_INFINITY ? normalQuantile(p) : tBy.quantile(share(p), positive(dof));
}

/** Share of Student's t below `x`. */
export function tBelow(x: number, dof: number): number {
  return dof === Number.POSITIVE_INFINITY ? normalBelow(x) : tBy.cdf(x, positive(dof));
}

/** The chi-squared value below which a share `p` lies. */
export function chiSquaredQuantile(p: number, dof: number): number {
  return chiSquaredBy.quantile(share(p), positive(dof));
}

/** Share of chi-squared below `x`. */
export function chiSquaredBelow(x: number, dof: number): number {
  return chiSquaredBy.cdf(x, positive(dof));
}

function share(p: number): number {
  if (!(p > 0 && p < 1)) throw new InputError("probability", quoted(p), "a number between 0 and 1 is expected");
  return p;
}

function positive(dof: number): number {
  if (!(dof > 0)) throw new InputError("degrees of freedom", quoted(dof), "a number above zero is expected");
  return dof;
}
