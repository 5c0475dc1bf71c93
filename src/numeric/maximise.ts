/**
 * The maximum of a smooth log-likelihood by Newton's method with its own gradient and Hessian: where the Hessian does not
 * bend down a ridge is added until it does, and a step that gains nothing is halved. Nothing is allocated between steps.
 */
import { choleskyInPlace, choleskyInverse, choleskySolve } from "./cholesky.ts";

/**
 * Returns the value at `at` (n parameters); writes the gradient (n) and the whole Hessian (n × n, row by row, both
 * triangles). Not finite where the likelihood is zero.
 */
export type LogLikelihood = (at: Float64Array, gradient: Float64Array, hessian: Float64Array) => number;

/** Where a function is largest, and how it was found. */
export type Maximum =
  | {
      readonly kind: "maximum";
      readonly at: Float64Array;
      readonly value: number;
      /** Inverse of the observed information. */
      readonly covariance: Float64Array;
      readonly steps: number;
    }
  /** The likelihood goes on rising, or is flat: no best value, or more than one. */
  | { readonly kind: "none"; readonly at: Float64Array; readonly value: number };

/** Room for Newton steps toward the largest value of a likelihood, used again from fit to fit. */
export class Newton {
  readonly #n: number;
  readonly #gradient: Float64Array;
  readonly #hessian: Float64Array;
  readonly #factor: Float64Array;
  readonly #step: Float64Array;
  readonly #here: Float64Array;
  readonly #trial: Float64Array;

  constructor(parameters: number) {
    this.#n = parameters;
    this.#gradient = new Float64Array(parameters);
    this.#hessian = new Float64Array(parameters * parameters);
    this.#factor = new Float64Array(parameters * parameters);
    this.#step = new Float64Array(parameters);
    this.#here = new Float64Array(parameters);
    this.#trial = new Float64Array(parameters);
  }

  /**
   * The best place from a start; ends where a full step would gain less than 1e-13 and change no parameter by more than
   * 1e-7 of its deviation (the square of which is the next step's, Newton converging so).
   */
  maximise(f: LogLikelihood, start: ArrayLike<number>, most = 200): Maximum {
    const n = this.#n;
    const here = this.#here;
    for (let i = 0; i < n; i++) here[i] = start[i]!;
    let value = f(here, this.#gradient, this.#hessian);
    for (let turn = 0; turn < most; turn++) {
      if (!Number.isFinite(value)) break;
      const bent = this.#solve();
      let gain = 0;
      for (let i = 0; i < n; i++) gain += this.#step[i]! * this.#gradient[i]!;
      if (bent && gain < 1e-14) {
        if (!choleskyInPlace(this.#factor, n)) break;
        return { kind: "maximum", at: here.slice(), value, covariance: this.#inverse(), steps: turn };
      }
      let share = 1;
      let next = Number.NEGATIVE_INFINITY;
      for (; share > 1e-12; share /= 2) {
        for (let i = 0; i < n; i++) this.#trial[i] = here[i]! + share * this.#step[i]!;
        next = f(this.#trial, this.#gradient, this.#hessian);
        // Close to the top rounding hides the gain: a full step is taken on trust.
        if (next >= value || (bent && gain < 1e-9 && next > value - 1e-9)) break;
      }
      if (share <= 1e-12) break;
      here.set(this.#trial);
      value = next;
    }
    return { kind: "none", at: here.slice(), value };
  }

  /** Step = (−H + ridge)⁻¹ g. @returns whether no ridge was needed. */
  #solve(): boolean {
    const n = this.#n;
    let ridge = 0;
    for (let turn = 0; turn < 60; turn++) {
      for (let k = 0; k < n * n; k++) this.#factor[k] = -this.#hessian[k]!;
      for (let i = 0; i < n; i++) {
        const diagonal = Math.abs(this.#hessian[i * n + i]!);
        this.#factor[i * n + i] = this.#factor[i * n + i]! + ridge * (diagonal > 0 ? diagonal : 1);
      }
      if (choleskyInPlace(this.#factor, n, 1e-13)) {
        this.#step.set(this.#gradient);
        choleskySolve(this.#factor, n, this.#step);
        // The factor is wanted again as the matrix it came from.
        for (let k = 0; k < n * n; k++) this.#factor[k] = -this.#hessian[k]!;
        return ridge === 0;
      }
      ridge = ridge === 0 ? 1e-3 : ridge * 4;
    }
    this.#step.fill(0);
    return false;
  }

  #inverse(): Float64Array {
    return choleskyInverse(this.#factor, this.#n);
  }
}
