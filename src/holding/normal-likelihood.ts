/**
 * The likelihood of `PullByPull` for lognormal loads, column by column: the same numbers (to 1e-11), without a call, an
 * exponential or a logarithm a pull.
 */
import * as statistics from "../statistics/index.ts";
import { BETWEEN, lawTerms } from "./law.ts";
import type { Likelihood, LikelihoodSum } from "./likelihood.ts";
import type { PullColumns } from "./pull-columns.ts";

// A name of this file: some loaders make every use of an import a look-up.
const { sumLogNormalBelow } = statistics;
const LOG_ROOT_2PI = 0.5 * Math.log(2 * Math.PI);
const between = BETWEEN;

export function normalLikelihood(columns: PullColumns): Likelihood {
  const { length, exactTo, aboveTo, belowTo, cell, angle: above, low, high, error, rise, gap, plain } = columns;
  const terms = lawTerms("lognormal");
  const bounds = new Float64Array(6);
  const scales = new Float64Array(length);
  const w = new Float64Array(length);
  const slopes = new Float64Array(length);
  return (centres, pushes, scatter, angle, out) => {
    out.value = -exactTo * LOG_ROOT_2PI;
    out.byLogScatter = 0;
    out.byAngle = 0;
    if (plain) out.value -= exactTo * Math.log(scatter);
    else out.value += widen(scatter, angle);
    exact(centres, pushes, 1 / scatter, angle, out);
    oneSided(centres, pushes, 1 / scatter, angle, out);
    if (belowTo < length) twoSided(centres, pushes, 1 / scatter, angle, out);
    if (!plain) out.byLogScatter *= scatter * scatter;
  };

  /** Adds what the slope of ln L by a row's ln scale says of ln σ (over σ²) and, by v = u (1 − β dθ/d ln T), of β. */
  function byScale(i: number, byLogScale: number, r: number, angle: number, out: LikelihoodSum): void {
    const own = byLogScale * r * r;
    out.byLogScatter += own;
    out.byAngle -= own * (1 - angle * rise[i]!) * error[i]! * error[i]! * rise[i]!;
  }

  function exact(centres: Float64Array, pushes: Float64Array, inverse: number, angle: number, out: LikelihoodSum) {
    let squares = 0;
    let byAngle = 0;
    for (let i = 0; i < exactTo; i++) {
      const own = cell[i]!;
      const r = plain ? inverse : scales[i]!;
      const x = (low[i]! - centres[own]! - angle * above[i]!) * r;
      const push = x * r;
      squares += x * x;
      byAngle += push * above[i]!;
      pushes[own] = pushes[own]! + push;
      if (plain) continue;
      byScale(i, x * x - 1, r, angle, out);
      byAngle -= rise[i]! / (1 - angle * rise[i]!);
    }
    out.value -= 0.5 * squares;
    out.byAngle += byAngle;
    if (plain) out.byLogScatter += squares - exactTo;
  }

  function oneSided(centres: Float64Array, pushes: Float64Array, inverse: number, angle: number, out: LikelihoodSum) {
    for (let i = exactTo; i < aboveTo; i++) {
      w[i] = (centres[cell[i]!]! + angle * above[i]! - low[i]!) * (plain ? inverse : scales[i]!);
    }
    for (let i = aboveTo; i < belowTo; i++) {
      w[i] = (high[i]! - centres[cell[i]!]! - angle * above[i]!) * (plain ? inverse : scales[i]!);
    }
    out.value += sumLogNormalBelow(w, slopes, exactTo, belowTo);
    let byLogScale = 0;
    let byAngle = 0;
    for (let i = exactTo; i < belowTo; i++) {
      const own = cell[i]!;
      const r = plain ? inverse : scales[i]!;
      const slope = slopes[i]!;
      const push = i < aboveTo ? slope * r : -slope * r;
      byAngle += push * above[i]!;
      pushes[own] = pushes[own]! + push;
      byLogScale -= w[i]! * slope;
      if (!plain) byScale(i, -w[i]! * slope, r, angle, out);
    }
    out.byAngle += byAngle;
    if (plain) out.byLogScatter += byLogScale;
  }

  function twoSided(centres: Float64Array, pushes: Float64Array, inverse: number, angle: number, out: LikelihoodSum) {
    for (let i = belowTo; i < length; i++) {
      const own = cell[i]!;
      const centre = centres[own]! + angle * above[i]!;
      const r = plain ? inverse : scales[i]!;
      const w1 = (low[i]! - angle * gap[i]! - centre) * r;
      const w2 = (high[i]! - centre) * r;
      terms(between, w1, w2, bounds);
      out.value += bounds[0]!;
      const push = -(bounds[1]! + bounds[3]!) * r;
      pushes[own] = pushes[own]! + push;
      out.byAngle += push * above[i]! - gap[i]! * bounds[1]! * r;
      const byLogScale = -(w1 * bounds[1]! + w2 * bounds[3]!);
      if (plain) out.byLogScatter += byLogScale;
      else byScale(i, byLogScale, r, angle, out);
    }
  }

  /** Inverse scales of all rows; returns what they and the growth of the threshold add for exact loads. */
  function widen(scatter: number, angle: number): number {
    let sum = 0;
    let product = 1;
    for (let i = 0; i < length; i++) {
      const grows = 1 - angle * rise[i]!;
      const v = error[i]! * grows;
      const r = 1 / Math.sqrt(scatter * scatter + v * v);
      scales[i] = r;
      if (i >= exactTo) continue;
      if (!(grows > 0)) sum = Number.NEGATIVE_INFINITY;
      product *= r * grows;
      // One logarithm for as many rows as a double bears.
      if (product > 1e100 || product < 1e-100) {
        sum += Math.log(product);
        product = 1;
      }
    }
    return sum + Math.log(product);
  }
}
