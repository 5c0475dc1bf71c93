/**
 * Rows from readings that come one at a time and not all at once, as sentences and deltas do: readings of one moment
 * stand in one row, and a channel that speaks twice opens the next.
 */
import { batchOf, type MarkedBatch } from "./batch.ts";
import type { ChannelKind } from "./channel.ts";
import { type LoadSeen, LoadWatch, standsForNone, type WatchState } from "./load-watch.ts";
import { type OrderState, TimeOrder } from "./time-order.ts";

/** One reading, in the unit of its channel. */
export interface ChannelReading {
  readonly kind: ChannelKind;
  readonly value: number;
  /** Of a load: the cell's own name. */
  readonly from?: string;
}

export interface SparseState {
  readonly rows: number;
  readonly order: OrderState;
  readonly now: number | null;
  /** Readings of the row not yet closed. */
  readonly open: readonly (number | null)[];
  readonly watches?: readonly (WatchState | null)[];
  readonly befores?: readonly (number | null)[];
}

export class SparseRows {
  readonly channels: readonly string[];
  /** Time of the readings that come, s; NaN before the first is known. */
  now: number;
  private readonly time: Float64Array;
  private readonly values: readonly Float64Array[];
  private readonly row: Float64Array;
  private readonly order: TimeOrder;
  private readonly place = new Map<string, number>();
  private readonly watches: readonly (LoadWatch | null)[];
  private readonly befores: Float64Array;
  private readonly lines: Int32Array;
  private filled = false;
  private count = 0;
  private done: number;

  /** @param channels names of the channels a row is laid out in; those that begin with load hold loads */
  constructor(channels: readonly string[], capacity: number, from?: SparseState) {
    this.channels = channels;
    this.time = new Float64Array(capacity);
    this.values = channels.map(() => new Float64Array(capacity));
    this.row = Float64Array.from(channels, (_, k) => from?.open[k] ?? Number.NaN);
    this.befores = Float64Array.from(channels, (_, k) => from?.befores?.[k] ?? Number.NaN);
    this.lines = new Int32Array(capacity);
    this.watches = channels.map((name, k) => (/^load(-\d+)?$/.test(name) ? new LoadWatch(from?.watches?.[k]) : null));
    this.filled = this.row.some((value) => !Number.isNaN(value));
    this.order = new TimeOrder(0, false, from?.order);
    this.now = from?.now ?? Number.NaN;
    this.done = from?.rows ?? 0;
    for (const [k, name] of channels.entries()) this.place.set(name, k);
  }

  /** The readings that come belong to another moment. */
  at(time: number, line: number): void {
    if (time === this.now) return;
    this.close(line);
    this.now = time;
  }

  /** True once a time is known. */
  get timed(): boolean {
    return !Number.isNaN(this.now);
  }

  /** Takes a reading of this moment. @returns false when it stands for none */
  add(channel: string, value: number, line: number): boolean {
    const k = this.place.get(channel);
    // What no instrument can mean (1e12 of any unit) is no reading.
    if (k === undefined || !(Math.abs(value) < 1e12)) return true;
    if (this.watches[k] !== null) {
      if (standsForNone(value, this.befores[k]!)) return false;
      this.befores[k] = value;
    }
    if (!Number.isNaN(this.row[k]!)) this.close(line);
    this.row[k] = value;
    this.filled = true;
    return true;
  }

  /** What the loads show that a reader should know. */
  get seen(): readonly LoadSeen[] {
    return this.watches.flatMap((watch, k) => (watch === null ? [] : watch.seen(this.channels[k]!)));
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
    this.lines[this.count] = line;
    for (let k = 0; k < this.row.length; k++) this.values[k]![this.count] = this.row[k]!;
    this.count++;
    this.row.fill(Number.NaN);
    this.filled = false;
  }

  take(): MarkedBatch {
    this.watches.forEach((watch, k) => void watch?.scan(this.values[k]!, this.count, this.lines));
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
    return {
      rows: this.done,
      order: this.order.state(),
      now: orNull(this.now),
      open: Array.from(this.row, orNull),
      watches: this.watches.map((watch) => watch?.state() ?? null),
      befores: Array.from(this.befores, orNull),
    };
  }
}
