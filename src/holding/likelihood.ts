/**
 * What one pull says of ln H = c + β (θ − 5) + σ ε, where the load T it is known by was read with an error and the angle
 * may be the one that very load made.
 *
 * **Threshold.** Holding falls as the angle θ rises, and θ rises with the load: the anchor gives way where the load first
 * meets what it holds at the angle of that load, at the root of ln T − β (θ(T) − 5) = c + σ ε. So held to T says that ε
 * lies above w = (ln T − β (θ(T) − 5) − c) / σ, with the angle at T; gave way at T is the density of w times how the left
 * side grows with ln T,
 *
 *     1 − β dθ/d ln T.
 *
 * Without that factor a steep angle that comes of a high load would count as evidence that steep angles hold more. Where
 * it is not above zero the load would not meet its threshold once: such β have no likelihood.
 *
 * **Error.** ln T is read with a normal error of deviation u, which moves the left side by v = u (1 − β dθ/d ln T). The
 * likelihood is the mean over it: for the normal law the same with √(σ² + v²) in place of σ (exactly so: normal and
 * normal convolved, probit with a wider scale); for others by Gauss–Hermite nodes, within 1e-6 while v is below σ / 2.
 * Both ends of an interval share their error: they are read by one gauge.
 */
import { gaussHermite } from "../numeric/index.ts";
import { BELOW, BETWEEN, EXACT, type Law, lawTerms } from "./law.ts";
import type { PullColumns } from "./pull-columns.ts";

/** Of the pulls together: value, and its slopes by ln σ and by β. */
export interface LikelihoodSum {
  value: number;
  byLogScatter: number;
  byAngle: number;
}

/**
 * Adds up the pulls.
 * @param centres of ln H at the reference angle, a cell each
 * @param pushes to which the slopes by the centres are added
 */
export type Likelihood = (
  centres: Float64Array,
  pushes: Float64Array,
  scatter: number,
  angle: number,
  out: LikelihoodSum,
) => void;

const NODES = 7;

export class PullByPull {
  readonly #columns: PullColumns;
  readonly #law: ReturnType<typeof lawTerms>;
  readonly #widens: boolean;
  readonly #nodes: Float64Array;
  readonly #logWeights: Float64Array;
  readonly #out = new Float64Array(6);
  readonly #value = new Float64Array(NODES);
  readonly #push = new Float64Array(NODES);
  readonly #scatter = new Float64Array(NODES);
  readonly #angle = new Float64Array(NODES);
  /** Slopes of the last pull asked for: by its centre, by ln σ, by β. */
  byCentre = 0;
  byLogScatter = 0;
  byAngle = 0;

  constructor(columns: PullColumns, law: Law) {
    this.#columns = columns;
    this.#law = lawTerms(law);
    this.#widens = law === "lognormal";
    const { nodes, weights } = gaussHermite(NODES);
    this.#nodes = Float64Array.from(nodes);
    this.#logWeights = Float64Array.from(weights, Math.log);
  }

  readonly sum: Likelihood = (centres, pushes, scatter, angle, out) => {
    const { length, cell } = this.#columns;
    out.value = 0;
    out.byLogScatter = 0;
    out.byAngle = 0;
    for (let row = 0; row < length; row++) {
      const own = cell[row]!;
      out.value += this.one(row, centres[own]!, scatter, angle);
      pushes[own] = pushes[own]! + this.byCentre;
      out.byLogScatter += this.byLogScatter;
      out.byAngle += this.byAngle;
    }
  };

  /**
   * ln of the likelihood of one row's ln load.
   * @param atReference centre of ln H at the reference angle
   */
  one(row: number, atReference: number, scatter: number, angle: number): number {
    const { kind, error, rise, angle: above } = this.#columns;
    const centre = atReference + angle * above[row]!;
    const grows = 1 - angle * rise[row]!;
    const v = error[row]! * grows;
    let value: number;
    if (this.#widens || v === 0) {
      const scale = Math.sqrt(scatter * scatter + v * v);
      value = this.#at(row, centre, scale, angle);
      const byLogScale = this.byLogScatter;
      this.byLogScatter = (byLogScale * scatter * scatter) / (scale * scale);
      this.byAngle -= (byLogScale * v * error[row]! * rise[row]!) / (scale * scale);
    } else value = this.#overError(row, centre, scatter, angle, v);
    if (kind[row] === EXACT && rise[row] !== 0) {
      value += grows > 0 ? Math.log(grows) : Number.NEGATIVE_INFINITY;
      this.byAngle -= rise[row]! / grows;
    }
    this.byAngle += this.byCentre * above[row]!;
    return value;
  }

  /** As if without error, at a scale. */
  #at(row: number, centre: number, scale: number, angle: number): number {
    const { kind, low, high, gap } = this.#columns;
    const out = this.#out;
    const what = kind[row]!;
    const w1 = (low[row]! - angle * gap[row]! - centre) / scale;
    const w2 = (high[row]! - centre) / scale;
    this.#law(what, w1, w2, out);
    this.byAngle = 0;
    if (what === BETWEEN) {
      this.byCentre = -(out[1]! + out[3]!) / scale;
      this.byLogScatter = -(w1 * out[1]! + w2 * out[3]!);
      this.byAngle = (-gap[row]! * out[1]!) / scale;
      return out[0]!;
    }
    const w = what === BELOW ? w2 : w1;
    this.byCentre = -out[1]! / scale;
    this.byLogScatter = -w * out[1]!;
    if (what !== EXACT) return out[0]!;
    this.byLogScatter -= 1;
    return out[0]! - Math.log(scale);
  }

  /** The mean over the error of ln load. */
  #overError(row: number, centre: number, scatter: number, angle: number, v: number): number {
    let top = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < NODES; k++) {
      this.#value[k] = this.#logWeights[k]! + this.#at(row, centre - v * this.#nodes[k]!, scatter, angle);
      this.#push[k] = this.byCentre;
      this.#scatter[k] = this.byLogScatter;
      this.#angle[k] = this.byAngle;
      if (this.#value[k]! > top) top = this.#value[k]!;
    }
    let total = 0;
    let byCentre = 0;
    let byLogScatter = 0;
    let byAngle = 0;
    const { error, rise } = this.#columns;
    const vByAngle = -error[row]! * rise[row]!;
    for (let k = 0; k < NODES; k++) {
      const share = Math.exp(this.#value[k]! - top);
      total += share;
      byCentre += share * this.#push[k]!;
      byLogScatter += share * this.#scatter[k]!;
      byAngle += share * (this.#angle[k]! - this.#push[k]! * this.#nodes[k]! * vByAngle);
    }
    this.byCentre = byCentre / total;
    this.byLogScatter = byLogScatter / total;
    this.byAngle = byAngle / total;
    return top + Math.log(total);
  }
}
