import { normalBelow } from "../../statistics/index.ts";
import { type ConstantState, constantStates, type Estimated } from "./constant-states.ts";
import { fixErrors, type Whitener, whitenerOf } from "./fix-error.ts";
import type { FixGrid } from "./fix-grid.ts";
import type { Ramp, Stretch } from "./ramp.ts";
import { restAfter } from "./rest-after.ts";
import type { RodeGive } from "./rode-give.ts";
import { type Windows, windowsOf } from "./windows.ts";

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
  private readonly whiteOwn: ConstantState[][] = [];
  private readonly whiteOnAxis: ConstantState[][] = [];
  private readonly windowPowers: (Float64Array | undefined)[] = [];
  private readonly scratch: Float64Array;
  private allWindows: Windows | undefined;

  constructor(grid: FixGrid, stretch: Stretch, give: RodeGive) {
    this.grid = grid;
    this.stretch = stretch;
    this.give = give;
    this.there = grid.tight.slice(stretch.from, stretch.to);
    this.scratch = new Float64Array(this.there.length);
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
    const white = (s: ConstantState): ConstantState => ({ ...s, column: w.whiten(s.column) });
    const known = plane ? this.whiteOnAxis : this.whiteOwn;
    known[error] ??= (plane ? this.onAxis() : this.own()).map(white);
    return [...known[error], ...ramps.map((r) => white({ column: this.rampColumn(r), mean: 0, u: ANY }))];
  }

  /** All states by one kind of error, `ramps` last; a rode that would give less under more load is none. */
  fit(error: number, y: Float64Array, ramps: readonly Ramp[]): Estimated {
    const w = this.whitener(error);
    const states = this.whitened(error, ramps);
    const fitted = constantStates(w.whiten(y), states, w.logDeterminant);
    return { ...fitted, evidence: fitted.evidence + this.logRises(states, fitted) };
  }

  /** ln of how much likelier than beforehand the rode gives more under more load, by the states as they were found. */
  private logRises(states: readonly ConstantState[], { value, covariance }: Estimated): number {
    const n = value.length;
    let [before, after, uBefore, uAfter] = [0, 0, 0, 0];
    this.give.rises.forEach((each, i) => {
      // The first state is where the stretch begins.
      const { mean, u } = states[i + 1]!;
      before += each * mean;
      uBefore += (each * u) ** 2;
      after += each * value[i + 1]!;
      this.give.rises.forEach((other, j) => {
        uAfter += each * other * covariance[(i + 1) * n + j + 1]!;
      });
    });
    // A rode that gives nothing at all tells nothing.
    const chance = (mean: number, square: number): number =>
      square > 0 ? Math.max(1e-9, normalBelow(mean / Math.sqrt(square))) : 1;
    return Math.log(chance(after, uAfter) / chance(before, uBefore));
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

  /** Movements to try. */
  get windows(): readonly Ramp[] {
    return this.tried().windows;
  }

  /** ln of the share of chance that each has beforehand. */
  get shares(): Float64Array {
    return this.tried().shares;
  }

  private tried(): Windows {
    this.allWindows ??= windowsOf(this);
    return this.allWindows;
  }

  /** Sum of squares of each window's column, whitened by one kind of error. */
  powers(error: number): Float64Array {
    this.windowPowers[error] ??= Float64Array.from(this.windows, (ramp) => this.power(error, ramp));
    return this.windowPowers[error];
  }

  private power(error: number, ramp: Ramp): number {
    const n = this.there.length;
    const first = Math.min(n, Math.max(0, Math.ceil(ramp.from - this.stretch.from - 0.5)));
    const long = Math.max(1, ramp.to - ramp.from);
    for (let i = first; i < n; i++) this.scratch[i] = Math.min(1, (i + 0.5 + this.stretch.from - ramp.from) / long);
    return this.whitener(error).power(this.scratch, first);
  }

  /**
   * A movement of a size nobody knows, in any window, beside the states and `ramps`: all but the window itself is worked
   * out before, for a search over many. @param plane on an axis @returns the same object each time
   */
  residual(
    error: number,
    y: Float64Array,
    ramps: readonly Ramp[],
    plane = false,
  ): (ramp: Ramp, power?: number) => ByError {
    const rest = restAfter(this.whitener(error), y, this.whitened(error, ramps, plane));
    const { from } = this.stretch;
    const out = { value: 0, u: ANY, evidence: 0 };
    return (ramp, power = this.power(error, ramp)) => {
      const { value, left } = rest(ramp.from - from, Math.max(1, ramp.to - ramp.from), power);
      out.value = value;
      out.u = left > 0 ? 1 / Math.sqrt(left) : ANY;
      out.evidence = 0.5 * value * value * left;
      return out;
    };
  }
}
