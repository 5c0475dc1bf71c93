/**
 * Rows of a table whose plan is made, from bytes into columns of numbers. A row that reads well makes no string; what
 * does not goes the slow way and is told with its line. State and byte offset together are enough to go on another day.
 */
import { cellsOf, isMissing, isOverload } from "./cells.ts";
import type { Batch } from "./channel.ts";
import { type Encoding, textOf } from "./encoding.ts";
import type { TablePlan } from "./plan.ts";
import { LONGEST_ROW, lineEnd, nextLineEnd, RowScanner } from "./row-scan.ts";
import { StampReader } from "./stamp.ts";
import { type LogMark, type OrderState, TimeOrder } from "./time-order.ts";
import { readTitle } from "./title.ts";
import { type TroubleCount, Troubles } from "./troubles.ts";
import { readUnit } from "./unit-name.ts";

/** All a reader carries from row to row, as plain data. */
export interface TableState {
  /** Line it stands at, 1 first. */
  readonly line: number;
  /** Rows taken. */
  readonly rows: number;
  readonly order: OrderState;
  readonly troubles: TroubleCount;
  /** In the middle of a line too long to be a row. */
  readonly skipping: boolean;
  /** The row before, by which repeated rows are known. */
  readonly before: readonly (number | null)[];
}

/** Reads the rows of one table: feed it bytes with `consume`, take batches with `take`. */
export class TableReader {
  readonly plan: TablePlan;
  readonly troubles: Troubles;
  /** Set when reading must end before the file does. */
  stopped: { readonly line: number; readonly why: string } | null = null;
  private readonly capacity: number;
  private readonly time: Float64Array;
  private readonly values: readonly Float64Array[];
  private readonly order: TimeOrder;
  private readonly scanner: RowScanner;
  private readonly stamps: StampReader;
  private readonly dates: StampReader | null;
  private readonly before: Float64Array;
  /** UTF-16 has been narrowed to one byte a unit before it comes here. */
  private readonly encoding: Encoding;
  private count = 0;
  private done: number;
  private line: number;
  private skipping: boolean;
  private unitText = "";
  private unitScale = Number.NaN;

  /** @param capacity rows of a full batch. @param from state to go on from. */
  constructor(plan: TablePlan, capacity = 65536, from?: TableState) {
    this.plan = plan;
    this.capacity = capacity;
    this.time = new Float64Array(capacity);
    this.values = plan.values.map(() => new Float64Array(capacity));
    this.troubles = new Troubles(from?.troubles);
    this.order = new TimeOrder(plan.step, plan.time.format === "clock" && plan.time.date === null, from?.order);
    this.scanner = new RowScanner(plan);
    const decimal = plan.decimal.charCodeAt(0);
    this.stamps = new StampReader(plan.time.format, plan.time.date === null ? plan.time.zone : 0, decimal);
    this.dates = plan.time.date === null ? null : new StampReader(plan.time.date.format, plan.time.zone, decimal);
    this.encoding = plan.encoding.startsWith("utf-16") ? "windows-1252" : plan.encoding;
    this.before = Float64Array.from({ length: plan.values.length }, (_, k) => from?.before[k] ?? Number.NaN);
    this.line = from?.line ?? plan.dataLine;
    this.done = from?.rows ?? 0;
    this.skipping = from?.skipping ?? false;
  }

  /**
   * Reads rows from `bytes` until they end or the batch is full.
   * @param final true when the file ends at `to`.
   * @returns the first byte not consumed: the start of a row not yet whole, or `to`.
   */
  consume(bytes: Uint8Array, from: number, to: number, final: boolean): number {
    const { scanner } = this;
    let p = from;
    while (p < to && this.count < this.capacity && this.stopped === null) {
      if (this.skipping) {
        p = nextLineEnd(bytes, p, to);
        // A line feed that belongs to this carriage return may not have come yet.
        if (p === to || (bytes[p] === 13 && p + 1 === to && !final)) return p;
        this.skipping = false;
        p = lineEnd(bytes, p, to);
        this.line++;
        continue;
      }
      const scanned = scanner.scan(bytes, p, to, final);
      if (scanned === "whole") {
        if (scanner.content) this.settle(bytes, p);
        this.line += 1 + scanner.inner;
        p = scanner.next;
      } else if (scanned === "unclosed") {
        // The line ends where its line ends, whatever the quote holds.
        this.reject(bytes, p, nextLineEnd(bytes, p, to), "a closing quote is expected");
        this.skipping = true;
      } else if (to - p <= LONGEST_ROW) return p;
      else {
        this.reject(bytes, p, to, `a row of at most ${LONGEST_ROW} bytes is expected`);
        this.skipping = true;
      }
    }
    return p;
  }

  /** Takes off the rows read so far, with what was marked along them. */
  take(): Batch & { readonly marks: readonly LogMark[] } {
    const rows = this.count;
    const batch = {
      rows,
      time: this.time.slice(0, rows),
      values: this.values.map((column) => column.slice(0, rows)),
      marks: this.order.marks,
    };
    this.order.marks = [];
    this.count = 0;
    this.done += rows;
    return batch;
  }

  /** Rows read and not yet taken. */
  get ready(): number {
    return this.count;
  }

  /** What is carried on; call it when all rows read are taken. */
  state(): TableState {
    return {
      line: this.line,
      rows: this.done,
      order: this.order.state(),
      troubles: this.troubles.count(),
      skipping: this.skipping,
      before: Array.from(this.before, (value) => (Number.isNaN(value) ? null : value)),
    };
  }

  /** Counts of gaps, restarts and the like. */
  get counts(): OrderState["counts"] {
    return this.order.counts;
  }

  /** Settles the row just scanned: its time, its readings, its place in the order. */
  private settle(bytes: Uint8Array, start: number): void {
    const { plan, scanner, troubles } = this;
    const { row, end } = scanner;
    if (scanner.extra) {
      this.reject(bytes, start, end, `at most ${plan.width} cells are expected`);
      return;
    }
    const seconds = this.timeOf(bytes);
    if (!(seconds > -1e12 && seconds < 1e13)) {
      this.strange(bytes, start, end, `a time as ${plan.time.format} is expected`);
      return;
    }
    let read = 0;
    let odd = 0;
    for (let k = 0; k < row.length; k++) {
      const value = plan.values[k]!;
      if (value.column >= scanner.cells) row[k] = Number.NaN;
      else if (scanner.unread && Number.isNaN(row[k]!)) {
        if (this.readOddCell(bytes, k)) odd++;
      } else if (!this.toChannelUnit(bytes, k)) odd++;
      if (!this.within(k)) {
        odd++;
        row[k] = Number.NaN;
      }
      if (!Number.isNaN(row[k]!)) read++;
    }
    if (read === 0) {
      if (odd > 0) this.strange(bytes, start, end, this.expectedReading());
      else troubles.empty++;
      return;
    }
    if (odd > 0) {
      troubles.unreadable += odd;
      if (troubles.room) troubles.note(this.line, textOf(bytes, start, end, this.encoding), this.expectedReading());
    }
    this.keep(seconds);
  }

  private timeOf(bytes: Uint8Array): number {
    const { time } = this.plan;
    const { cells, cellFrom, cellTo } = this.scanner;
    if (time.column < 0) return time.start + (this.done + this.count) / time.rate;
    if (time.column >= cells) return Number.NaN;
    const seconds = this.stamps.read(bytes, cellFrom[time.column]!, cellTo[time.column]!);
    if (time.format === "count") return time.start + seconds / time.rate;
    if (time.date === null || this.dates === null) return time.start + seconds;
    const { column } = time.date;
    return seconds + (column < cells ? this.dates.read(bytes, cellFrom[column]!, cellTo[column]!) : Number.NaN);
  }

  private keep(seconds: number): void {
    const { order, before } = this;
    const { row } = this.scanner;
    const at = this.done + this.count;
    const last = order.before;
    const t = order.next(seconds, at, this.line);
    if (t === last && this.plan.rowsPerStamp === 1) {
      let same = true;
      for (let k = 0; k < row.length && same; k++) same = Object.is(row[k], before[k]);
      if (same) {
        this.troubles.repeatedRows++;
        return;
      }
      order.shared(t, at, this.line);
    }
    before.set(row);
    this.time[this.count] = t;
    for (let k = 0; k < row.length; k++) this.values[k]![this.count] = row[k]!;
    this.count++;
  }

  /** Brings a number as written into its channel's unit. @returns false when its unit is not known. */
  private toChannelUnit(bytes: Uint8Array, k: number): boolean {
    const value = this.plan.values[k]!;
    const { row, cells, cellFrom, cellTo } = this.scanner;
    let scale = value.scale ?? Number.NaN;
    if (value.unitColumn >= 0) {
      const column = value.unitColumn;
      const text = column < cells ? textOf(bytes, cellFrom[column]!, cellTo[column]!, this.encoding) : "";
      if (text !== this.unitText) {
        this.unitText = text;
        this.unitScale = readUnit(text, value.channel.kind)?.scale ?? Number.NaN;
      }
      scale = this.unitScale;
    }
    row[k] = row[k]! * scale;
    return !Number.isNaN(scale);
  }

  /**
   * A cell that is no plain number: a number with its unit, a word that says there is none, or trouble.
   * @returns true for trouble.
   */
  private readOddCell(bytes: Uint8Array, k: number): boolean {
    const value = this.plan.values[k]!;
    const { row, numbers, cellFrom, cellTo } = this.scanner;
    let from = cellFrom[value.column]!;
    let to = cellTo[value.column]!;
    while (from < to && (bytes[from] === 32 || bytes[from] === 160)) from++;
    while (to > from && (bytes[to - 1] === 32 || bytes[to - 1] === 160)) to--;
    if (from === to) return false;
    const number = numbers.read(bytes, from, to);
    if (Number.isNaN(number)) {
      const text = textOf(bytes, from, to, this.encoding).trim();
      if (!isMissing(text)) return true;
      if (isOverload(text)) this.troubles.overload++;
      else this.troubles.missing++;
      return false;
    }
    row[k] = number;
    const suffix = textOf(bytes, numbers.at, to, this.encoding).trim();
    if (suffix === "") return !this.toChannelUnit(bytes, k);
    const unit = readUnit(suffix, value.channel.kind);
    row[k] = unit === null ? Number.NaN : number * unit.scale;
    return unit === null;
  }

  private within(k: number): boolean {
    const { kind } = this.plan.values[k]!.channel;
    const size = Math.abs(this.scanner.row[k]!);
    // Comparisons with NaN are false: a reading that is not there is not out of range.
    return !(size > (kind === "latitude" ? 90 : kind === "longitude" ? 360 : 1e12));
  }

  /** A row without a time or a reading: the header once more, another header, or trouble. */
  private strange(bytes: Uint8Array, start: number, end: number, expected: string): void {
    const { plan, troubles } = this;
    const text = textOf(bytes, start, Math.min(end, start + 4096), this.encoding);
    if (plan.titles.length > 0 && /\p{L}/u.test(text)) {
      const cells = cellsOf(text.replace(/^\s*[#%;*]+\s*/, ""), plan.delimiter);
      if (plan.titles.every((title, i) => (cells[i] ?? "") === title)) {
        troubles.headersAgain++;
        return;
      }
      for (const value of plan.values) {
        const title = readTitle(cells[value.column] ?? "");
        const unit = title.unit === "" || title.name === "" ? null : readUnit(title.unit, value.channel.kind);
        if (unit === null || unit.scale === value.scale) continue;
        const why = `another header, "${title.text}": what follows is not in ${value.channel.fromUnit}; import it as a file of its own`;
        this.stopped = { line: this.line, why };
        return;
      }
    }
    this.reject(bytes, start, end, expected);
  }

  private expectedReading(): string {
    const unit = this.plan.values[0]!.scale === null ? " with its unit" : "";
    return `a number${unit} is expected in ${this.plan.values.map((value) => `"${value.channel.from}"`).join(", ")}`;
  }

  private reject(bytes: Uint8Array, start: number, end: number, expected: string): void {
    this.troubles.rejected++;
    if (!this.troubles.room) return;
    this.troubles.note(this.line, textOf(bytes, start, Math.min(end, start + 240), this.encoding), expected);
  }
}
