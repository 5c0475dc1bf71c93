/**
 * What is believed of the pulls of a series before the next: the terms of the model of `holding`, as a normal law with the
 * scatter held fixed.
 *
 *   ln H = m + α_a + β (θ − 5°) + κ after + σ ε,   prior N(μ₀, Λ₀⁻¹) as that model's
 *
 * Pulls held already move it: a load it gave way at counts as it is; one it held to, as the mean of what lies above it,
 * worked out anew until nothing moves (expectation and maximisation, Dempster, Laird & Rubin 1977, recalled). How much a
 * pull that is ended at ln load c tells of its centre η, against one that is not:
 *
 *   i(z) = Φ(z) + φ(z) (λ(z) − z),   z = (c − η)/σ,  λ = φ/(1 − Φ)
 */
import { boundsOf, type Pull, REFERENCE_ANGLE, USUAL_PRIORS } from "../holding/index.ts";
import { choleskyInPlace, choleskySolve } from "../numeric/index.ts";
import { DEGREES } from "../quantity/index.ts";
import { normalAbove, normalBelow, normalDensity } from "../statistics/index.ts";
import type { Series } from "./series.ts";

const G0 = 9.80665;

/** Terms as a normal law. */
export interface Belief {
  /** Anchors, then the angle, then after a veer; the intercept comes first. */
  readonly size: number;
  readonly mean: Float64Array;
  /** Lower Cholesky factor of the precision. */
  readonly factor: Float64Array;
  readonly sigma: number;
  /** Pulls of the book that count. */
  readonly pulls: number;
}

/** Share of a free pull's information that one ended at z has, from 0 to 1. */
export function informationAt(z: number): number {
  if (z > 8) return 1;
  if (z < -8) return 0;
  const above = normalAbove(z);
  const density = normalDensity(z);
  return normalBelow(z) + density * (density / above - z);
}

/** The row of the terms of a pull. @param angle rad */
export function rowOf(series: Series, anchor: string, angle: number, after: boolean): Float64Array {
  const k = series.anchors.length;
  const row = new Float64Array(k + 3);
  row[0] = 1;
  const at = series.anchors.findIndex(({ name }) => name === anchor);
  if (at >= 0) row[1 + at] = 1;
  row[k + 1] = angle * DEGREES - REFERENCE_ANGLE;
  row[k + 2] = after ? 1 : 0;
  return row;
}

/** ln of the load about which the prior lies: that of the anchors' middle mass; null where none is told. */
export function priorMiddle({ anchors }: Series): number | null {
  const masses = anchors.flatMap(({ mass }) => (mass === undefined ? [] : [Math.log(mass)]));
  if (masses.length === 0) return null;
  return Math.log(30 * G0) + masses.reduce((sum, value) => sum + value, 0) / masses.length;
}

/** What the prior and the pulls so far say; null where neither a mass nor a pull tells about which load it lies. */
export function beliefOf(series: Series): Belief | null {
  const own = series.pulls.filter((pull) => series.anchors.some(({ name }) => name === pull.anchor));
  const middle = priorMiddle(series) ?? middleOf(own);
  if (middle === null) return null;
  const k = series.anchors.length;
  const size = k + 3;
  const sd = Float64Array.from({ length: size }, (_, i) => priorSd(i, k));
  const mean = new Float64Array(size);
  mean[0] = middle;
  mean[k + 1] = USUAL_PRIORS.angle.mean;
  const rows = own.map((pull) => rowOf(series, pull.anchor, pull.anchorAngle ?? REFERENCE_ANGLE / DEGREES, false));
  let sigma = PRIOR_SIGMA;
  let belief = solved(mean, sd, mean, rows, [], sigma);
  // So few terms settle within some tens of rounds; more would move nothing that is shown.
  for (let round = 0; round < 60; round++) {
    const filled = own.map((pull, i) => expected(pull, dot(rows[i]!, belief.mean), sigma));
    belief = solved(
      mean,
      sd,
      belief.mean,
      rows,
      filled.map(({ y }) => y),
      sigma,
    );
    if (own.length > size) {
      const squares = filled.reduce(
        (sum, { y, variance }, i) => sum + (y - dot(rows[i]!, belief.mean)) ** 2 + variance,
        0,
      );
      // The prior's own scatter weighs as so many pulls.
      sigma = Math.sqrt((squares + WEIGHT * PRIOR_SIGMA ** 2) / (own.length + WEIGHT));
    }
  }
  return { ...belief, pulls: own.length };
}

/** The middle of the half-normal law of σ, deviation 0.5. */
export const PRIOR_SIGMA = 0.337;
const WEIGHT = 4;

function priorSd(at: number, anchors: number): number {
  if (at === 0) return 1.5;
  if (at <= anchors) return 0.7;
  return at === anchors + 1 ? 0.05 : 0.3;
}

function middleOf(pulls: readonly Pull[]): number | null {
  if (pulls.length === 0) return null;
  const known = pulls.map(({ hold }) => {
    const { low, high } = boundsOf(hold);
    return Math.log(
      Number.isFinite(high) && low > 0 ? Math.sqrt(low * high) : Math.max(low, Number.isFinite(high) ? high : 0),
    );
  });
  return known.reduce((sum, value) => sum + value, 0) / known.length;
}

/** Mean and variance of ln load of a pull, given its centre and what is known of it. */
function expected({ hold }: Pull, eta: number, sigma: number): { y: number; variance: number } {
  const { low, high } = boundsOf(hold);
  const a = low > 0 ? (Math.log(low) - eta) / sigma : -Infinity;
  const b = Number.isFinite(high) ? (Math.log(high) - eta) / sigma : Infinity;
  if (b - a < 1e-9) return { y: eta + sigma * a, variance: 0 };
  const belowA = Number.isFinite(a) ? normalBelow(a) : 0;
  const aboveB = Number.isFinite(b) ? normalAbove(b) : 0;
  const mass = a > 0 ? normalAbove(a) - aboveB : 1 - aboveB - belowA;
  // Far out in a tail the load lies at its bound.
  if (!(mass > 1e-12)) return { y: eta + sigma * (Math.abs(a) < Math.abs(b) ? a : b), variance: 0 };
  const fa = Number.isFinite(a) ? normalDensity(a) : 0;
  const fb = Number.isFinite(b) ? normalDensity(b) : 0;
  const m = (fa - fb) / mass;
  const spread = 1 + ((Number.isFinite(a) ? a * fa : 0) - (Number.isFinite(b) ? b * fb : 0)) / mass - m * m;
  return { y: eta + sigma * m, variance: sigma * sigma * Math.max(0, spread) };
}

function solved(
  prior: Float64Array,
  sd: Float64Array,
  about: Float64Array,
  rows: readonly Float64Array[],
  y: readonly number[],
  sigma: number,
): Omit<Belief, "pulls"> {
  const size = prior.length;
  const factor = new Float64Array(size * size);
  const right = Float64Array.from(prior, (value, i) => value / sd[i]! ** 2);
  for (let i = 0; i < size; i++) factor[i * size + i] = 1 / sd[i]! ** 2;
  y.forEach((value, n) => {
    const row = rows[n]!;
    for (let i = 0; i < size; i++) {
      right[i] = right[i]! + (row[i]! * value) / sigma ** 2;
      for (let j = 0; j <= i; j++) factor[i * size + j] = factor[i * size + j]! + (row[i]! * row[j]!) / sigma ** 2;
    }
  });
  choleskyInPlace(factor, size, 0);
  const mean = y.length === 0 ? about.slice() : solve(factor, right);
  return { size, mean, factor, sigma };
}

/** P⁻¹ x. */
export function solve(factor: Float64Array, x: Float64Array): Float64Array {
  const out = x.slice();
  choleskySolve(factor, x.length, out);
  return out;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
