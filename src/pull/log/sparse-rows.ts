/**
 * Rows from readings that come one at a time and not all at once, as sentences and deltas do: readings of one moment
 * stand in one row, and a channel that speaks twice opens the next.
 */
import { batchOf, type MarkedBatch } from "./batch.ts";
import type { ChannelKind } from "./channel.ts";
import { type OrderState, TimeOrder } from "./time-order.ts";

/** One reading, in the unit of its channel. */
export interface ChannelReading {
  readonly kind: ChannelKind;
  readonly value: number;
}

export interface SparseState {
  readonly rows: number;
  readonly order: OrderState;
  readonly now: number | null;
  /** Readings of the row not yet closed. */
  readonly open: readonly (number | null)[];
}

export class SparseRows {
  readonly kinds: readonly ChannelKind[];
  /** Time of the readings that come, s; NaN before the first is known. */
  now: number;
  private readonly time: Float64Array;
  private readonly values: readonly Float64Array[];
  private readonly row: Float64Array;
  private readonly order: TimeOrder;
  private readonly place = new Map<ChannelKind, number>();
  private filled = false;
  private count = 0;
  private done: number;

  constructor(kinds: readonly ChannelKind[], capacity: number, from?: SparseState) {
    this.kinds = kinds;
    this.time = new Float64Array(capacity);
    this.values = kinds.map(() => new Float64Array(capacity));
    this.row = Float64Array.from(kinds, (_, k) => from?.open[k] ?? Number.NaN);
    this.filled = this.row.some((value) => !Number.isNaN(value));
    this.order = new TimeOrder(0, false, from?.order);
    this.now = from?.now ?? Number.NaN;
    this.done = from?.rows ?? 0;
    for (const [k, kind] of kinds.entries()) this.place.set(kind, k);
  }

  /** The readings that come belong to another moment. */
  at(time: number, line: number): void {
    if (time === this.now) return;
    this.close(line);
    this.now = time;
  }

  /** Takes readings of this moment. @returns how many were taken; none before a time is known. */
  add(readings: readonly ChannelReading[], line: number): number {
    if (Number.isNaN(this.now)) return 0;
    let taken = 0;
    for (const { kind, value } of readings) {
      const k = this.place.get(kind);
      // What no instrument can mean (1e12 of any unit) is no reading.
      if (k === undefined || !(Math.abs(value) < 1e12)) continue;
      if (!Number.isNaN(this.row[k]!)) this.close(line);
      this.row[k] = value;
      this.filled = true;
      taken++;
    }
    return taken;
  }

  /** Rows closed and not yet taken. */
  get ready(): number {
    return this.count;
  }

  get room(): boolean {
    // One line may close a few rows.
    return this.count < this.time.length - 64;
  }

  close(line: number): void {
    if (!this.filled) return;
    this.time[this.count] = this.order.next(this.now, this.done + this.count, line);
    for (let k = 0; k < this.row.length; k++) this.values[k]![this.count] = this.row[k]!;
    this.count++;
    this.row.fill(Number.NaN);
    this.filled = false;
  }

  take(): MarkedBatch {
    const batch = batchOf(this.time, this.values, this.count, this.order);
    this.done += this.count;
    this.count = 0;
    return batch;
  }

  get counts(): OrderState["counts"] {
    return this.order.counts;
  }

  state(): SparseState {
    const orNull = (value: number) => (Number.isNaN(value) ? null : value);
    return { rows: this.done, order: this.order.state(), now: orNull(this.now), open: Array.from(this.row, orNull) };
  }
}
