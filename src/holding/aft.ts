/**
 * Accelerated-failure fits: ln H = x·β + σ w, by maximum likelihood, with loads known exactly, from below, from above or
 * between two. The likelihood is that of the load, not of its logarithm: an exact load brings f(w) / (σ H), others the
 * probability of what is known. With a random intercept, ln H = x·β + ω z + σ w with z standard normal, one z a group:
 * each group's likelihood is the integral over z by Gauss–Hermite nodes laid about its own mode and as wide as its own
 * curvature (adaptive quadrature; Pinheiro & Bates, J. Comput. Graph. Stat. 4, 1995, 12).
 *
 * Gradient and Hessian are exact: without random intercept in closed form, with it as means over the nodes' weights (the
 * score is the mean of the whole data's score; the Hessian its mean Hessian and the variance of that score; Louis, J. R.
 * Stat. Soc. B 44, 1982, 226).
 *
 * Equals R's survreg to 1e-8 relative (test/holding/aft-against-r.test.ts, test/published/survival.test.ts).
 */
import { choleskyInPlace, choleskySolve, gaussHermite, type Maximum, Newton } from "../numeric/index.ts";
import { ABOVE, BELOW, BETWEEN, EXACT, type Law, type LawTerms, lawTerms } from "./law.ts";

import type { Observations } from "./observations.ts";

/** Rows of terms, row after row; a first column of ones is not implied. */
export interface Terms {
  readonly names: readonly string[];
  /** length · names.length numbers */
  readonly rows: Float64Array;
}

/** Group of each observation, 0 … groups − 1. */
export interface Grouping {
  readonly groups: number;
  readonly of: Int32Array;
}

/** Loads held, terms and groups, as a fit takes them. */
export interface AftProblem {
  readonly law: Law;
  readonly observations: Observations;
  readonly terms: Terms;
  readonly random?: Grouping;
}

/** A fitted term with its standard error. */
export interface Estimate {
  readonly value: number;
  /** Standard error, from the observed information. */
  readonly u: number;
}

/** An accelerated-failure fit, or why there is none. */
export type AftFit =
  | {
      readonly kind: "fitted";
      readonly law: Law;
      readonly terms: readonly (Estimate & { readonly name: string })[];
      /** ln σ */
      readonly logScale: Estimate;
      /** ln ω of the random intercept. */
      readonly logRandom?: Estimate;
      readonly logLikelihood: number;
      /** Of the terms, ln σ and, where fitted, ln ω, in this order. */
      readonly covariance: Float64Array;
    }
  /** No spread between groups: the likelihood is highest at ω = 0, where the fit without it stands. */
  | { readonly kind: "noSpreadBetweenGroups"; readonly without: AftFit }
  | { readonly kind: "noMaximum"; readonly law: Law; readonly why: NoMaximum };

/** Why the likelihood has no maximum. */
export type NoMaximum =
  /** No pull gave way: any higher load is likelier. */
  | { readonly kind: "noneGaveWay" }
  /** No pull held anything. */
  | { readonly kind: "noneHeld" }
  /** The pulls can all be met without scatter: it goes to zero. */
  | { readonly kind: "noScatter" }
  /** The likelihood rises without end along some term. */
  | { readonly kind: "endless" };

/** Nodes of the quadrature: groups of a hundred pulls and ω of several σ come to 1e-9 of the log-likelihood. */
const NODES = 40;

/** A fit that can be made again on other loads of the same number without allocating: simulations refit thousands. */
export class AftFitter {
  readonly #problem: AftProblem;
  readonly #law: LawTerms;
  readonly #newton: Newton;
  readonly #out = new Float64Array(6);
  readonly #p: number;
  readonly #random: RandomWork | undefined;
  readonly #sparse: SparseRows;
  /** Factor of the products of the terms: of the rows alone, so the same for any loads. */
  readonly #squares: Float64Array;
  readonly #isSolvable: boolean;

  constructor(problem: AftProblem) {
    this.#problem = problem;
    this.#law = lawTerms(problem.law);
    this.#p = problem.terms.names.length;
    this.#random = problem.random === undefined ? undefined : randomWork(problem, problem.random);
    this.#newton = new Newton(this.#p + (this.#random === undefined ? 1 : 2));
    this.#sparse = sparseRows(problem.terms, problem.observations.length);
    this.#squares = productsOf(this.#sparse, this.#p);
    this.#isSolvable = choleskyInPlace(this.#squares, this.#p, 1e-12);
  }

  /** The maximum as numbers: terms, ln σ and, with a random intercept, ln ω. */
  maximise(): Maximum {
    const start = this.start();
    if (this.#random === undefined) return this.#newton.maximise(this.logLikelihood, start);
    const fixed = new AftFitter(withoutRandom(this.#problem)).maximise();
    start.set(fixed.at.subarray(0, this.#p + 1));
    const sigma = start[this.#p]!;
    let best: Maximum | undefined;
    // From a spread like the scatter, then from a small one: the likelihood may have a maximum at either.
    for (const share of [0.6, 0.15, 1.5]) {
      start[this.#p + 1] = sigma + Math.log(share);
      const found = this.#newton.maximise(this.logLikelihood, start);
      if (best === undefined || (found.kind === "maximum" && (best.kind === "none" || found.value > best.value + 1e-9)))
        best = found;
    }
    return best!;
  }

  /** Least squares of the middles of what is known. */
  start(): Float64Array {
    const { observations } = this.#problem;
    const p = this.#p;
    const n = observations.length;
    const { begin, column, value } = this.#sparse;
    const y = middles(observations);
    const start = new Float64Array(p + (this.#random === undefined ? 1 : 2));
    if (this.#isSolvable) {
      const right = start.subarray(0, p);
      for (let i = 0; i < n; i++) {
        for (let k = begin[i]!; k < begin[i + 1]!; k++) {
          right[column[k]!] = right[column[k]!]! + value[k]! * y[i]!;
        }
      }
      choleskySolve(this.#squares, p, right);
    }
    let squares = 0;
    for (let i = 0; i < n; i++) {
      let eta = 0;
      for (let k = begin[i]!; k < begin[i + 1]!; k++) eta += value[k]! * start[column[k]!]!;
      squares += (y[i]! - eta) ** 2;
    }
    start[p] = Math.log(Math.max(1e-3, Math.sqrt(squares / n)));
    return start;
  }

  readonly logLikelihood = (at: Float64Array, gradient: Float64Array, hessian: Float64Array): number => {
    gradient.fill(0);
    hessian.fill(0);
    const value = this.#random === undefined ? this.#fixed(at, gradient, hessian) : this.#mixed(at, gradient, hessian);
    mirror(hessian, gradient.length);
    return value;
  };

  #fixed(at: Float64Array, gradient: Float64Array, hessian: Float64Array): number {
    const { kind, low, high, length } = this.#problem.observations;
    const p = this.#p;
    const { begin, column, value } = this.#sparse;
    const out = this.#out;
    const law = this.#law;
    const size = p + 1;
    const last = p * size;
    const exact = EXACT;
    const logScale = at[p]!;
    const inverse = Math.exp(-logScale);
    let sum = 0;
    let byScale = 0;
    let byScaleTwice = 0;
    for (let i = 0; i < length; i++) {
      const from = begin[i]!;
      const to = begin[i + 1]!;
      let eta = 0;
      for (let k = from; k < to; k++) eta += value[k]! * at[column[k]!]!;
      const what = kind[i]!;
      const w1 = (low[i]! - eta) * inverse;
      const w2 = (high[i]! - eta) * inverse;
      law(what, w1, w2, out);
      sum += out[0]!;
      if (what === exact) sum -= logScale + low[i]!;
      bend(what, w1, w2, inverse, out);
      const g = out[0]!;
      const gg = out[1]!;
      const gs = out[3]!;
      byScale += out[2]!;
      byScaleTwice += out[4]!;
      for (let k = from; k < to; k++) {
        const x = value[k]!;
        const a = column[k]!;
        const ggx = gg * x;
        const row = a * size;
        gradient[a] = gradient[a]! + g * x;
        hessian[last + a] = hessian[last + a]! + gs * x;
        for (let j = from; j <= k; j++) {
          const cell = row + column[j]!;
          hessian[cell] = hessian[cell]! + ggx * value[j]!;
        }
      }
    }
    gradient[p] = byScale;
    hessian[last + p] = byScaleTwice;
    return sum;
  }

  #mixed(at: Float64Array, gradient: Float64Array, hessian: Float64Array): number {
    const work = this.#random!;
    const { observations, terms } = this.#problem;
    const { kind, low, high } = observations;
    const { begin, order, nodes, logWeights, eta, weight, score, mean, second, value } = work;
    const p = this.#p;
    const rows = terms.rows;
    const out = this.#out;
    const size = p + 2;
    const logScale = at[p]!;
    const inverse = Math.exp(-logScale);
    const omega = Math.exp(at[p + 1]!);
    let sum = 0;
    for (let i = 0; i < observations.length; i++) {
      let x = 0;
      for (let a = 0; a < p; a++) x += rows[i * p + a]! * at[a]!;
      eta[i] = x;
    }
    for (let group = 0; group + 1 < begin.length; group++) {
      // Mode of Σ ln f + ln φ(z) over z, and how it bends there.
      let z = 0;
      let curvature = 1;
      for (let turn = 0; turn < 60; turn++) {
        let slope = -z;
        curvature = 1;
        for (let k = begin[group]!; k < begin[group + 1]!; k++) {
          const i = order[k]!;
          const shift = eta[i]! + omega * z;
          const w1 = (low[i]! - shift) * inverse;
          const w2 = (high[i]! - shift) * inverse;
          this.#law(kind[i]!, w1, w2, out);
          bend(kind[i]!, w1, w2, inverse, out);
          slope += omega * out[0]!;
          curvature -= omega * omega * out[1]!;
        }
        const step = Math.max(-2, Math.min(2, slope / Math.max(curvature, 0.5)));
        z += step;
        if (Math.abs(step) < 1e-10) break;
      }
      const width = 1 / Math.sqrt(Math.max(curvature, 1));
      let top = Number.NEGATIVE_INFINITY;
      // At each node the group's value, score and Hessian as whole data.
      const half = (size * (size + 1)) / 2;
      score.fill(0);
      second.fill(0);
      for (let q = 0; q < nodes.length; q++) {
        const zq = z + width * nodes[q]!;
        let here = 0;
        for (let k = begin[group]!; k < begin[group + 1]!; k++) {
          const i = order[k]!;
          const shift = eta[i]! + omega * zq;
          const w1 = (low[i]! - shift) * inverse;
          const w2 = (high[i]! - shift) * inverse;
          this.#law(kind[i]!, w1, w2, out);
          here += out[0]!;
          if (kind[i] === EXACT) here -= logScale + low[i]!;
          bend(kind[i]!, w1, w2, inverse, out);
          whole(rows, i * p, p, omega * zq, out, score, q * size, second, q * half);
        }
        // Nodes are those of the normal about the mode: their own density is taken out, the prior's put in.
        value[q] = here + logWeights[q]! + Math.log(width) - 0.5 * zq * zq + 0.5 * nodes[q]! * nodes[q]!;
        if (value[q]! > top) top = value[q]!;
      }
      let total = 0;
      for (let q = 0; q < nodes.length; q++) {
        weight[q] = Math.exp(value[q]! - top);
        total += weight[q]!;
      }
      sum += top + Math.log(total);
      mean.fill(0);
      for (let q = 0; q < nodes.length; q++) {
        const share = weight[q]! / total;
        for (let a = 0; a < size; a++) mean[a] = mean[a]! + share * score[q * size + a]!;
      }
      for (let a = 0; a < size; a++) gradient[a] = gradient[a]! + mean[a]!;
      for (let q = 0; q < nodes.length; q++) {
        const share = weight[q]! / total;
        let at2 = q * half;
        for (let a = 0; a < size; a++) {
          const da = score[q * size + a]! - mean[a]!;
          for (let b = 0; b <= a; b++, at2++) {
            const db = score[q * size + b]! - mean[b]!;
            hessian[a * size + b] = hessian[a * size + b]! + share * (second[at2]! + da * db);
          }
        }
      }
    }
    return sum;
  }
}

/** From the law's derivatives by w to those by η and ln σ: [0] η, [1] ηη, [2] ln σ, [3] η ln σ, [4] ln σ ln σ. */
function bend(kind: number, w1: number, w2: number, inverse: number, out: Float64Array): void {
  if (kind === BETWEEN) {
    const d1 = out[1]!;
    const d11 = out[2]!;
    const d2 = out[3]!;
    const d22 = out[4]!;
    const d12 = out[5]!;
    out[0] = -(d1 + d2) * inverse;
    out[1] = (d11 + 2 * d12 + d22) * inverse * inverse;
    out[2] = -(w1 * d1 + w2 * d2);
    out[3] = (d11 * w1 + d12 * w2 + d1 + d22 * w2 + d12 * w1 + d2) * inverse;
    out[4] = d11 * w1 * w1 + 2 * d12 * w1 * w2 + d22 * w2 * w2 + d1 * w1 + d2 * w2;
    return;
  }
  const w = kind === BELOW ? w2 : w1;
  const d = out[1]!;
  const dd = out[2]!;
  out[0] = -d * inverse;
  out[1] = dd * inverse * inverse;
  out[2] = -w * d - (kind === EXACT ? 1 : 0);
  out[3] = (dd * w + d) * inverse;
  out[4] = dd * w * w + d * w;
}

/** Adds one observation's score and lower Hessian in (terms, ln σ, ln ω); `reach` is ω z, which ln ω moves η by. */
function whole(
  rows: Float64Array,
  row: number,
  p: number,
  reach: number,
  out: Float64Array,
  score: Float64Array,
  s: number,
  second: Float64Array,
  h: number,
): void {
  const g = out[0]!;
  const gg = out[1]!;
  let at = h;
  for (let a = 0; a < p; a++) {
    const x = rows[row + a]!;
    score[s + a] = score[s + a]! + g * x;
    for (let b = 0; b <= a; b++, at++) second[at] = second[at]! + gg * x * rows[row + b]!;
  }
  score[s + p] = score[s + p]! + out[2]!;
  for (let b = 0; b < p; b++, at++) second[at] = second[at]! + out[3]! * rows[row + b]!;
  second[at] = second[at]! + out[4]!;
  at++;
  score[s + p + 1] = score[s + p + 1]! + g * reach;
  for (let b = 0; b < p; b++, at++) second[at] = second[at]! + gg * reach * rows[row + b]!;
  second[at] = second[at]! + out[3]! * reach;
  at++;
  second[at] = second[at]! + gg * reach * reach + g * reach;
}

function mirror(hessian: Float64Array, n: number): void {
  for (let a = 0; a < n; a++) for (let b = 0; b < a; b++) hessian[b * n + a] = hessian[a * n + b]!;
}

/** What of each row is not zero, columns rising: most terms are of one anchor or seabed. */
interface SparseRows {
  /** First entry of each row, and the end. */
  readonly begin: Int32Array;
  readonly column: Int32Array;
  readonly value: Float64Array;
}

function sparseRows({ names, rows }: Terms, length: number): SparseRows {
  const p = names.length;
  const begin = new Int32Array(length + 1);
  const column: number[] = [];
  const value: number[] = [];
  for (let i = 0; i < length; i++) {
    for (let a = 0; a < p; a++) {
      const x = rows[i * p + a]!;
      if (x === 0) continue;
      column.push(a);
      value.push(x);
    }
    begin[i + 1] = column.length;
  }
  return { begin, column: Int32Array.from(column), value: Float64Array.from(value) };
}

/** Σ x xᵀ over the rows. */
function productsOf({ begin, column, value }: SparseRows, p: number): Float64Array {
  const products = new Float64Array(p * p);
  for (let i = 0; i + 1 < begin.length; i++) {
    for (let k = begin[i]!; k < begin[i + 1]!; k++) {
      for (let j = begin[i]!; j < begin[i + 1]!; j++) {
        const cell = column[k]! * p + column[j]!;
        products[cell] = products[cell]! + value[k]! * value[j]!;
      }
    }
  }
  return products;
}

type RandomWork = ReturnType<typeof randomWork>;

function randomWork({ observations, terms }: AftProblem, { groups, of }: Grouping) {
  const begin = new Int32Array(groups + 1);
  for (let i = 0; i < of.length; i++) begin[of[i]! + 1] = begin[of[i]! + 1]! + 1;
  for (let g = 0; g < groups; g++) begin[g + 1] = begin[g + 1]! + begin[g]!;
  const next = begin.slice();
  const order = new Int32Array(of.length);
  for (let i = 0; i < of.length; i++) {
    const g = of[i]!;
    order[next[g]!] = i;
    next[g] = next[g]! + 1;
  }
  const { nodes, weights } = gaussHermite(NODES);
  const size = terms.names.length + 2;
  return {
    begin,
    order,
    nodes,
    logWeights: weights.map(Math.log),
    eta: new Float64Array(observations.length),
    weight: new Float64Array(NODES),
    value: new Float64Array(NODES),
    score: new Float64Array(NODES * size),
    second: new Float64Array((NODES * size * (size + 1)) / 2),
    mean: new Float64Array(size),
  };
}

function withoutRandom({ law, observations, terms }: AftProblem): AftProblem {
  return { law, observations, terms };
}

/** ln of a load in the middle of what is known: half above one that held on, half below one that never held. */
function middles({ kind, low, high, length }: Observations): Float64Array {
  const y = new Float64Array(length);
  for (let i = 0; i < length; i++) {
    if (kind[i] === BELOW) y[i] = high[i]! - 0.4;
    else if (kind[i] === ABOVE) y[i] = low[i]! + 0.4;
    else y[i] = (low[i]! + high[i]!) / 2;
  }
  return y;
}

/** Fits, or says why there is no best fit. */
export function fitAft(problem: AftProblem): AftFit {
  const { law, observations, terms } = problem;
  const none = (why: NoMaximum): AftFit => ({ kind: "noMaximum", law, why });
  if (observations.kind.every((kind) => kind === ABOVE)) return none({ kind: "noneGaveWay" });
  if (observations.kind.every((kind) => kind === BELOW)) return none({ kind: "noneHeld" });
  const found = new AftFitter(problem).maximise();
  const p = terms.names.length;
  const size = p + (problem.random === undefined ? 1 : 2);
  const spread = found.at[p + 1] ?? 0;
  if (problem.random !== undefined && (found.kind === "none" || spread < found.at[p]! - 7)) {
    const without = fitAft(withoutRandom(problem));
    if (without.kind !== "fitted") return without;
    // A ridge that runs to ω = 0, or a search that stopped on it.
    return { kind: "noSpreadBetweenGroups", without };
  }
  if (found.kind === "none" || !isSound(found.covariance, size)) {
    const scatter = found.at[p]!;
    return none({ kind: scatter < -6 ? "noScatter" : "endless" });
  }
  if (found.at[p]! < -12) return none({ kind: "noScatter" });
  const estimate = (k: number): Estimate => ({ value: found.at[k]!, u: Math.sqrt(found.covariance[k * size + k]!) });
  return {
    kind: "fitted",
    law,
    terms: terms.names.map((name, k) => ({ name, ...estimate(k) })),
    logScale: estimate(p),
    ...(problem.random === undefined ? {} : { logRandom: estimate(p + 1) }),
    logLikelihood: found.value,
    covariance: found.covariance,
  };
}

/** A term whose standard error is beyond any load's logarithm has no end: the likelihood only seems to. */
function isSound(covariance: Float64Array, size: number): boolean {
  for (let k = 0; k < size; k++) {
    const variance = covariance[k * size + k]!;
    if (!(variance > 0 && variance < 1e6)) return false;
  }
  return true;
}
