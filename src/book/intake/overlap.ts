import type { Book } from "../book.ts";
import type { Rows } from "../log-chunk.ts";

/** A last line cut short, or a reading repaired since, does not make another recording. */
const NEARLY_ALL = 0.99;

/** One row of a log in the book, waiting to be met again. */
interface Kept {
  readonly time: number;
  readonly values: readonly number[];
}

/**
 * Knows again the rows of a source that are in the book: an instrument that exports its whole memory each time writes
 * the same stamps and readings once more. Both run in time, so one pass over each is enough; rows are the same when
 * stamp and every reading are.
 */
export class Overlap {
  private readonly cursors: Cursor[];

  constructor(book: Book, logs: readonly string[], channels: readonly string[]) {
    this.cursors = logs.map((log) => new Cursor(book, log, channels));
  }

  /**
   * Counts rows against each log without taking any: two instruments of one make that ran side by side share stamps,
   * and now and then a reading, but only an export of the same memory shares nearly all of them.
   */
  count(rows: Rows, channels: readonly string[]): void {
    const lists = channels.map((name) => rows.columns[name]!);
    for (const cursor of this.cursors) {
      for (let i = 0; i < rows.times.length; i++) {
        if (rows.times[i]! < cursor.first || rows.times[i]! > cursor.last) continue;
        cursor.within++;
        if (cursor.holds(rows.times[i]!, lists, i)) cursor.met++;
        // A stamp that many rows share may have been cut in the middle by either export.
        else if (rows.times[i] === cursor.first || rows.times[i] === cursor.last) cursor.within--;
      }
    }
  }

  /** The logs of which nearly every row was met where both run. */
  get recordings(): string[] {
    return this.cursors.filter(({ within, met }) => met > 0 && met >= within * NEARLY_ALL).map(({ log }) => log);
  }

  /** The rows that are not in the book yet, in their order. */
  fresh(rows: Rows, channels: readonly string[]): Rows {
    if (this.cursors.length === 0) return rows;
    const { times, columns } = rows;
    const lists = channels.map((name) => columns[name]!);
    const keep: number[] = [];
    for (let i = 0; i < times.length; i++) {
      if (!this.cursors.some((cursor) => cursor.holds(times[i]!, lists, i))) keep.push(i);
    }
    if (keep.length === times.length) return rows;
    const pick = (column: Float64Array) => Float64Array.from(keep, (i) => column[i]!);
    return { times: pick(times), columns: Object.fromEntries(channels.map((name, k) => [name, pick(lists[k]!)])) };
  }
}

class Cursor {
  private readonly rows: Generator<Rows>;
  private readonly channels: readonly string[];
  private chunk: Rows | null = null;
  private at = 0;
  readonly log: string;
  readonly first: number;
  readonly last: number;
  /** Rows counted between first and last, and those met among them. */
  within = 0;
  met = 0;
  /** Rows of one stamp that have not been met yet. */
  private group: Kept[] = [];
  private stamp = Number.NaN;

  constructor(book: Book, log: string, channels: readonly string[]) {
    const { from_s, to_s } = book.logs.content(log);
    this.log = log;
    this.first = from_s ?? Number.POSITIVE_INFINITY;
    this.last = to_s ?? Number.NEGATIVE_INFINITY;
    this.rows = book.logs.rows(log, channels);
    this.channels = channels;
  }

  holds(time: number, columns: readonly Float64Array[], i: number): boolean {
    // Outside the log nothing can be met; it is not read at all by a source that only goes on.
    if (time < this.first || time > this.last) return false;
    if (time !== this.stamp) this.moveTo(time);
    if (time !== this.stamp) return false;
    const met = this.group.findIndex((kept) => kept.values.every((value, k) => same(value, columns[k]![i]!)));
    if (met < 0) return false;
    this.group.splice(met, 1);
    return true;
  }

  private moveTo(time: number): void {
    let next = this.peek();
    while (next !== null && next < time) {
      this.at++;
      next = this.peek();
    }
    if (next !== time && this.stamp > time) return;
    this.stamp = time;
    this.group = [];
    while (next === time) {
      this.group.push({ time, values: this.channels.map((name) => this.chunk!.columns[name]![this.at]!) });
      this.at++;
      next = this.peek();
    }
  }

  private peek(): number | null {
    while (this.chunk === null || this.at >= this.chunk.times.length) {
      const { value, done } = this.rows.next();
      if (done) return null;
      this.chunk = value;
      this.at = 0;
    }
    return this.chunk.times[this.at]!;
  }
}

/** A reading is kept as it was read, or in single precision. */
function same(kept: number, read: number): boolean {
  return Object.is(kept, read) || Object.is(kept, Math.fround(read));
}
