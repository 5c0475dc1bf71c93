/** Columns that grow as batches of rows come; a channel silent throughout takes no room in the end. */
import type { Batch, Channel, ChannelKind } from "./channel.ts";

export interface GatheredColumns {
  readonly channels: readonly Pick<Channel, "name" | "kind">[];
  readonly time: Float64Array;
  readonly values: readonly Float64Array[];
}

const LEAST = 4096;

export class RowColumns {
  private readonly channels: readonly Pick<Channel, "name" | "kind">[];
  private readonly kept: readonly number[];
  private readonly size: number;
  private time = new Float64Array(0);
  private values: (Float64Array | null)[];
  private rows = 0;
  private bytes = 0;

  /** @param size bytes of the whole file, by which the rows to come are reckoned */
  constructor(channels: readonly Pick<Channel, "name" | "kind">[], kinds?: readonly ChannelKind[], size = 0) {
    this.channels = channels;
    this.kept = channels.flatMap(({ kind }, k) => (kinds === undefined || kinds.includes(kind) ? [k] : []));
    this.values = channels.map(() => null);
    this.size = size;
  }

  /** @param bytes bytes of the file these rows were read from */
  append(batch: Batch, bytes: number): void {
    this.bytes += bytes;
    if (batch.rows === 0) return;
    const { kept, rows } = this;
    const needed = rows + batch.rows;
    if (needed > this.time.length) this.grow(needed);
    this.time.set(batch.time.subarray(0, batch.rows), rows);
    for (const k of kept) {
      const column = batch.values[k]!;
      if (this.values[k] === null) {
        if (!speaks(column, batch.rows)) continue;
        // A channel that was silent so far.
        this.values[k] = new Float64Array(this.time.length).fill(Number.NaN, 0, rows);
      }
      this.values[k]!.set(column.subarray(0, batch.rows), rows);
    }
    this.rows = needed;
  }

  done(): GatheredColumns {
    const { rows, channels } = this;
    const full = this.kept.filter((k) => this.values[k] !== null);
    return {
      channels: full.map((k) => channels[k]!),
      time: this.time.subarray(0, rows),
      values: full.map((k) => this.values[k]!.subarray(0, rows)),
    };
  }

  /** By the file's size where it is known: memory not written to costs nothing. */
  private grow(needed: number): void {
    const reckoned = this.bytes > 0 ? Math.ceil((this.size / this.bytes) * needed * 1.02) : 0;
    const room = Math.max(LEAST, needed, this.time.length === 0 ? reckoned : Math.ceil(this.time.length * 1.25));
    const longer = (column: Float64Array): Float64Array<ArrayBuffer> => {
      const all = new Float64Array(room);
      all.set(column.subarray(0, this.rows));
      return all;
    };
    this.time = longer(this.time);
    this.values = this.values.map((column) => (column === null ? null : longer(column)));
  }
}

function speaks(column: Float64Array, rows: number): boolean {
  for (let i = 0; i < rows; i++) if (!Number.isNaN(column[i]!)) return true;
  return false;
}
