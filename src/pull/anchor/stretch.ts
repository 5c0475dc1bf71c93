import { type ConstantState, constantStates, dot } from "./constant-states.ts";
import { fixErrors, type Whitener, whitenerOf } from "./fix-error.ts";
import type { FixGrid } from "./fix-grid.ts";
import type { Ramp, Stretch } from "./ramp.ts";
import type { RodeGive } from "./rode-give.ts";

/** On one axis the boat goes back by no more than this many times what the rode was thought to give. */
const SLOPE = 0.9;
/** Nothing is known beforehand of how far an anchor goes, m. */
const ANY = 50;
/** A boat sways across her pull by so much, m, over so long, s. */
const SWAY = { size: 0.4, time: 8 };

/** A movement, or any other state, by one kind of error of the fix. */
export interface ByError {
  readonly value: number;
  readonly u: number;
  readonly evidence: number;
}

/**
 * The state-space model of one stretch. Where the boat is along the pull is where the anchor is, and what the rode gives
 * at the load of that moment, and the slow error of the fix; the anchor stays, but for movements at one speed. A load
 * read on the rode makes the boat's own mass and thrust known: only the distance they make counts.
 */
export class StretchModel {
  readonly stretch: Stretch;
  readonly grid: FixGrid;
  private readonly give: RodeGive;
  private readonly there: Uint8Array;
  private readonly whiteners: (Whitener | undefined)[] = [];
  private readonly acrossWhiteners: (Whitener | undefined)[] = [];

  constructor(grid: FixGrid, stretch: Stretch, give: RodeGive) {
    this.grid = grid;
    this.stretch = stretch;
    this.give = give;
    this.there = grid.tight.slice(stretch.from, stretch.to);
  }

  get fixes(): number {
    return this.there.reduce((n, one) => n + one, 0);
  }

  whitener(error: number): Whitener {
    this.whiteners[error] ??= whitenerOf(fixErrors[error]!, this.there, this.grid.step, this.grid.white);
    return this.whiteners[error];
  }

  private acrossWhitener(error: number): Whitener {
    const { step, white } = this.grid;
    this.acrossWhiteners[error] ??= whitenerOf(fixErrors[error]!, this.there, step, white, SWAY);
    return this.acrossWhiteners[error];
  }

  /** Places along a direction, m from the middle one. */
  along(angle: number): Float64Array {
    const [s, c] = [Math.sin(angle), Math.cos(angle)];
    const { from, to } = this.stretch;
    const out = new Float64Array(to - from);
    let sum = 0;
    for (let k = from; k < to; k++)
      if (this.there[k - from] === 1) sum += out[k - from] = s * this.grid.east[k]! + c * this.grid.north[k]!;
    const mean = sum / Math.max(1, this.fixes);
    return out.map((v, i) => (this.there[i] === 1 ? v - mean : 0));
  }

  rampColumn(ramp: Ramp): Float64Array {
    const { from } = this.stretch;
    const long = Math.max(1, ramp.to - ramp.from);
    return Float64Array.from(this.there, (_, i) => Math.min(1, Math.max(0, (i + 0.5 + from - ramp.from) / long)));
  }

  /** States of every stretch: where it begins, and the rode's give. */
  private own(): ConstantState[] {
    const one = new Float64Array(this.there.length).fill(1);
    return [{ column: one, mean: 0, u: 100 }, ...this.give.states(this.grid, this.stretch)];
  }

  /** The same on one axis of the plane, where the pull's direction is not known. */
  private onAxis(): ConstantState[] {
    const one = new Float64Array(this.there.length).fill(1);
    return [
      { column: this.giveColumn(), mean: 0, u: SLOPE },
      { column: one, mean: 0, u: 100 },
    ];
  }

  private whitened(error: number, ramps: readonly Ramp[], plane = false): ConstantState[] {
    const w = this.whitener(error);
    return [
      ...(plane ? this.onAxis() : this.own()),
      ...ramps.map((r) => ({ column: this.rampColumn(r), mean: 0, u: ANY })),
    ].map((s) => ({
      ...s,
      column: w.whiten(s.column),
    }));
  }

  /** All states by one kind of error, `ramps` last. */
  fit(error: number, y: Float64Array, ramps: readonly Ramp[]) {
    const w = this.whitener(error);
    return constantStates(w.whiten(y), this.whitened(error, ramps), w.logDeterminant);
  }

  /** The first of `ramps` by one kind of error. */
  ramp(error: number, y: Float64Array, ramps: readonly Ramp[]): ByError {
    const fitted = this.fit(error, y, ramps);
    const n = fitted.value.length;
    const i = n - ramps.length;
    return { value: fitted.value[i]!, u: Math.sqrt(fitted.covariance[i * n + i]!), evidence: fitted.evidence };
  }

  /** ln of how likely the places across the pull are by one kind of error: nothing but it and the boat's sway moves them. */
  acrossEvidence(error: number, angle: number): number {
    const w = this.acrossWhitener(error);
    const one = new Float64Array(this.there.length).fill(1);
    const y = this.along(angle + Math.PI / 2);
    return constantStates(w.whiten(y), [{ column: w.whiten(one), mean: 0, u: 100 }], w.logDeterminant).evidence;
  }

  /** What the rode gives at each step by what is known of it beforehand, m. */
  giveColumn(): Float64Array {
    const out = new Float64Array(this.there.length);
    for (const s of this.give.states(this.grid, this.stretch))
      for (let i = 0; i < out.length; i++) out[i]! += s.mean * s.column[i]!;
    return out;
  }

  /** Slope of places on one axis over a column, by one kind of error, movements free. @param sways the boat's sway is in it */
  slope(error: number, y: Float64Array, column: Float64Array, ramps: readonly Ramp[], sways = true): ByError {
    const w = sways ? this.acrossWhitener(error) : this.whitener(error);
    const one = new Float64Array(this.there.length).fill(1);
    const states = [
      { column, mean: 0, u: SLOPE },
      { column: one, mean: 0, u: 100 },
      ...ramps.map((r) => ({ column: this.rampColumn(r), mean: 0, u: ANY })),
    ];
    const fitted = constantStates(
      w.whiten(y),
      states.map((s) => ({ ...s, column: w.whiten(s.column) })),
      w.logDeterminant,
    );
    return { value: fitted.value[0]!, u: Math.sqrt(fitted.covariance[0]!), evidence: fitted.evidence };
  }

  /** What the states found make of the boat's way, without where it begins: the rode's give and the ramps. */
  wayOf(error: number, y: Float64Array, ramps: readonly Ramp[]): Float64Array {
    const fitted = this.fit(error, y, ramps);
    const columns = [...this.own().map((s) => s.column), ...ramps.map((r) => this.rampColumn(r))];
    const out = new Float64Array(this.there.length);
    columns.forEach((column, j) => {
      if (j > 0) for (let i = 0; i < out.length; i++) out[i]! += fitted.value[j]! * column[i]!;
    });
    return out;
  }

  /** Rest of y and each candidate ramp after the states of `ramps`, orthogonal to them: for a search over many ramps. @param plane on an axis */
  residual(error: number, y: Float64Array, ramps: readonly Ramp[], plane = false): (ramp: Ramp) => ByError {
    const w = this.whitener(error);
    const basis: { v: Float64Array; rows: number[] }[] = [];
    const states = this.whitened(error, ramps, plane);
    // What is known of a state beforehand is one more observation of it: rows below the fixes.
    const withPrior = (v: Float64Array, rows: number[]) => ({ v: Float64Array.from(v), rows });
    const product = (p: { v: Float64Array; rows: number[] }, q: { v: Float64Array; rows: number[] }): number =>
      dot(p.v, q.v) + p.rows.reduce((sum, x, i) => sum + x * q.rows[i]!, 0);
    const project = (p: { v: Float64Array; rows: number[] }): void => {
      for (const q of basis) {
        const c = product(p, q);
        for (let k = 0; k < p.v.length; k++) p.v[k]! -= c * q.v[k]!;
        p.rows = p.rows.map((x, i) => x - c * q.rows[i]!);
      }
    };
    states.forEach((s, j) => {
      const p = withPrior(
        s.column,
        states.map((_, i) => (i === j ? 1 / s.u : 0)),
      );
      project(p);
      const size = Math.sqrt(product(p, p));
      if (!(size > 1e-9)) return;
      for (let k = 0; k < p.v.length; k++) p.v[k]! /= size;
      basis.push({ v: p.v, rows: p.rows.map((x) => x / size) });
    });
    const target = withPrior(
      w.whiten(y),
      states.map((s) => s.mean / s.u),
    );
    project(target);
    return (ramp) => {
      const p = withPrior(
        w.whiten(this.rampColumn(ramp)),
        states.map(() => 0),
      );
      const whole = product(p, p);
      project(p);
      const left = product(p, p);
      if (!(left > 1e-6 * whole)) return { value: 0, u: ANY, evidence: 0 };
      const value = product(p, target) / left;
      return { value, u: 1 / Math.sqrt(left), evidence: 0.5 * value * value * left };
    };
  }
}

/** Lengths of movements that are tried, s. */
const LENGTHS = [1, 2, 3, 5, 8, 12, 18, 27, 40, 60, 90, 130];

/** Movements to try: of many lengths, beginning at many times, under load all along. */
export function* windows(model: StretchModel): Generator<Ramp> {
  const { grid, stretch } = model;
  const loaded = new Int32Array(stretch.to - stretch.from + 1);
  for (let k = stretch.from; k < stretch.to; k++)
    loaded[k - stretch.from + 1] = loaded[k - stretch.from]! + grid.tight[k]!;
  for (const seconds of LENGTHS) {
    const long = Math.max(1, Math.round(seconds / grid.step));
    const pace = Math.max(1, Math.floor(long / 5));
    for (let k = 0; k + long <= stretch.to - stretch.from; k += pace)
      if (loaded[k + long]! - loaded[k]! >= 0.9 * long) yield { from: stretch.from + k, to: stretch.from + k + long };
  }
}
