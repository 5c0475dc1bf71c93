// One descent to a least-squares point, in the trust-region form of Levenberg's and Marquardt's method (Moré 1978).

import { type Factored, factorise, norm } from "../numeric/index.ts";
import { InputError } from "../quantity/index.ts";
import type { Whitened } from "./fit-problem.ts";
import { solveNormal, trustStep } from "./trust-step.ts";

export type SearchOutcome =
  | { readonly kind: "converged"; readonly by: "offset" | "exact fit" | "rounding" }
  /** The observations do not tell these parameters apart from the others. */
  | { readonly kind: "undetermined"; readonly parameters: readonly number[] }
  | { readonly kind: "stalled"; readonly why: StallCause };

/**
 * What stood in the way: the model has no derivative at the start, or at the best point met; so many turns did not suffice;
 * or rounding in the model's values hides which way the sum of squares falls.
 */
export type StallCause = "noDerivativeAtStart" | "noDerivativeAtBest" | "tooFewTurns" | "rounding";

export interface SearchSettings {
  /** Relative offset at which the search is done. */
  readonly offset: number;
  readonly turns: number;
  /** First radius of trust over the size of the start. */
  readonly firstRadius: number;
}

/** A step is bent only while half the bend is below this share of it (Transtrum & Sethna advise 0.75). */
const mostBend = 0.75;

/** The place the search stands at, and what it knows there. */
export class Search {
  private readonly system: Whitened;
  private readonly settings: SearchSettings;
  /** Parameters. */
  x: Float64Array;
  /** Whitened residuals at x, and their sum of squares. */
  residuals: Float64Array;
  sum: number;
  /** Scale of each column: the largest norm met, so that steps are measured alike in all units. */
  readonly scale: Float64Array;
  /** Scaled Jacobian at x, its QR, and Qᵀ·residuals. */
  scaled: Float64Array;
  turned: Float64Array;
  factored: Factored;
  offset = Number.POSITIVE_INFINITY;
  iterations = 0;

  constructor(system: Whitened, start: Float64Array, settings: SearchSettings) {
    const { rows, columns } = system;
    this.system = system;
    this.settings = settings;
    this.x = start;
    this.residuals = new Float64Array(rows);
    this.scale = new Float64Array(columns);
    this.scaled = new Float64Array(rows * columns);
    this.turned = new Float64Array(rows);
    this.factored = { r: new Float64Array(columns * columns), order: new Int32Array(columns), rank: 0 };
    if (!system.residuals(start, this.residuals)) {
      throw new InputError(
        "start",
        `[${Array.from(start).join(", ")}]`,
        "a start at which the model exists is expected",
      );
    }
    this.sum = square(this.residuals);
  }

  run(): SearchOutcome {
    if (!this.look(false)) return { kind: "stalled", why: "noDerivativeAtStart" };
    let radius = this.settings.firstRadius * (this.scaledLength(this.x) || 1);
    for (this.iterations = 0; this.iterations < this.settings.turns; this.iterations++) {
      if (this.sum === 0) return this.settled("exact fit");
      if (this.offset <= this.settings.offset) return this.settled("offset");
      // One turn: shorten the step until one keeps its promise.
      for (;;) {
        const { step, length, lambda, promised } = trustStep(this.factored, this.head(), radius);
        if (promised <= 1e-14 * this.sum || length <= 1e-15 * this.scaledLength(this.x))
          return this.settled("rounding");
        this.bend(step, length, lambda);
        const next = this.moved(step);
        const residuals = new Float64Array(this.system.rows);
        const exists = this.system.residuals(next, residuals);
        const sum = exists ? square(residuals) : Number.POSITIVE_INFINITY;
        const kept = Number.isFinite(sum) ? (this.sum - sum) / promised : Number.NEGATIVE_INFINITY;
        if (kept < 0.25) radius = Math.min(radius, length) * (kept > -1 ? 0.5 : 0.1);
        else if (kept > 0.75) radius = Math.max(radius, 2 * length);
        if (kept > 1e-4) {
          this.x = next;
          this.residuals = residuals;
          this.sum = sum;
          break;
        }
      }
      if (!this.look(false)) return { kind: "stalled", why: "noDerivativeAtBest" };
    }
    return { kind: "stalled", why: "tooFewTurns" };
  }

  /**
   * The end of the search: below about 1e-8 the sum of squares no longer tells two points apart, but its gradient does,
   * so full steps go on as long as each brings the offset down. A numeric Jacobian is taken with care here. A search that
   * was asked for a rough answer skips all this.
   */
  private settled(by: "offset" | "exact fit" | "rounding"): SearchOutcome {
    const careful = this.settings.offset < 1e-6;
    if (careful && !this.look(true)) this.look(false);
    const known = this.factored.rank === this.x.length;
    for (let polish = 0; careful && known && polish < 100 && this.sum > 0 && this.offset > 1e-13; polish++) {
      const before = { x: this.x, residuals: this.residuals, sum: this.sum, offset: this.offset };
      const { step } = trustStep(this.factored, this.head(), Number.POSITIVE_INFINITY);
      this.x = this.moved(step);
      this.residuals = new Float64Array(this.system.rows);
      const exists = this.system.residuals(this.x, this.residuals);
      this.sum = square(this.residuals);
      if (exists && this.look(true) && this.offset <= 0.9 * before.offset) continue;
      Object.assign(this, before);
      this.look(true);
      break;
    }
    const { order, rank } = this.factored;
    if (rank < order.length) {
      const parameters = Array.from(order.subarray(rank)).sort((a, b) => a - b);
      return {
        kind: "undetermined",
        parameters,
      };
    }
    if (by === "rounding" && this.offset > 0.01) {
      const { length } = trustStep(this.factored, this.head(), Number.POSITIVE_INFINITY);
      if (length > 1e-10 * this.scaledLength(this.x)) {
        return { kind: "stalled", why: "rounding" };
      }
    }
    return { kind: "converged", by };
  }

  /** Jacobian, QR and offset at x. */
  private look(careful: boolean): boolean {
    const { rows, columns } = this.system;
    if (!this.system.jacobian(this.x, careful, this.scaled)) return false;
    for (let j = 0; j < columns; j++) {
      let largest = 0;
      for (let i = 0; i < rows; i++) largest = Math.max(largest, Math.abs(this.scaled[i * columns + j]!));
      let sum = 0;
      for (let i = 0; i < rows; i++) sum += (this.scaled[i * columns + j]! / (largest || 1)) ** 2;
      this.scale[j] = Math.max(this.scale[j]!, largest * Math.sqrt(sum)) || 1;
    }
    for (let i = 0; i < rows; i++) for (let j = 0; j < columns; j++) this.scaled[i * columns + j]! /= this.scale[j]!;
    this.turned.set(this.residuals);
    this.factored = factorise(Float64Array.from(this.scaled), rows, columns, this.turned, this.system.noise);
    const { rank } = this.factored;
    const removable = norm(this.turned, rank);
    const remaining = norm(this.turned, rows, rank);
    const dof = rows - rank;
    this.offset =
      dof > 0 && remaining > 0
        ? (removable / remaining) * Math.sqrt(dof / Math.max(1, rank))
        : Number.POSITIVE_INFINITY;
    if (removable === 0) this.offset = 0;
    return true;
  }

  /**
   * Bends the step along the valley floor: geodesic acceleration (Transtrum & Sethna, arXiv:1201.5885). The second
   * derivative of the residuals along the step is had for one evaluation; where it is large the step stays straight.
   */
  private bend(step: Float64Array, length: number, lambda: number): void {
    const { rows, columns } = this.system;
    const h = 0.1;
    const ahead = new Float64Array(rows);
    const probe = Float64Array.from(this.x, (value, j) => value + (h * step[j]!) / this.scale[j]!);
    if (!this.system.residuals(probe, ahead)) return;
    const pulled = new Float64Array(columns);
    for (let i = 0; i < rows; i++) {
      let along = 0;
      for (let j = 0; j < columns; j++) along += this.scaled[i * columns + j]! * step[j]!;
      const second = (2 / h) * ((ahead[i]! - this.residuals[i]!) / h + along);
      for (let j = 0; j < columns; j++) pulled[j]! += this.scaled[i * columns + j]! * second;
    }
    const bent = solveNormal(this.factored, lambda, pulled);
    if (2 * norm(bent) > mostBend * length) return;
    for (let j = 0; j < columns; j++) step[j]! += 0.5 * bent[j]!;
  }

  private head(): Float64Array {
    return this.turned.subarray(0, this.x.length);
  }

  private moved(step: Float64Array): Float64Array {
    const next = new Float64Array(this.x.length);
    for (let j = 0; j < next.length; j++) next[j] = this.x[j]! + step[j]! / this.scale[j]!;
    return next;
  }

  private scaledLength(x: Float64Array): number {
    return norm(Float64Array.from(x, (value, j) => value * this.scale[j]!));
  }
}

function square(x: Float64Array): number {
  return norm(x) ** 2;
}
