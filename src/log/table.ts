/**
 * Rows of a table whose plan is made, from bytes into columns of numbers. A row that reads well makes no string; what
 * does not goes the slow way and is told with its line. State and byte offset together are enough to go on another day.
 */
import { batchOf, type MarkedBatch } from "./batch.ts";
import type { Ended } from "./cause.ts";
import { isMissing } from "./cells.ts";
import { isComment } from "./dialect.ts";
import { type Encoding, textOf } from "./encoding.ts";
import { headerIn } from "./header-again.ts";
import { type LoadSeen, LoadWatch, meansNone, standsForNone, type WatchState } from "./load-watch.ts";
import { oddCell } from "./odd-cell.ts";
import { readPlaceText } from "./place-text.ts";
import type { TablePlan, ValueColumn } from "./plan.ts";
import { LONGEST_ROW, lineEnd, nextLineEnd, RowScanner } from "./row-scan.ts";
import { RowTime } from "./row-time.ts";
import { type OrderState, TimeOrder } from "./time-order.ts";
import { shown, type TroubleCount, Troubles } from "./troubles.ts";
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
  /** Size of each value's unit, where a header further down changed it. */
  readonly scales?: readonly (number | null)[];
  readonly watches?: readonly (WatchState | null)[];
  readonly befores?: readonly (number | null)[];
  /** True once a number has shown how decimals are marked. */
  readonly marksSeen?: boolean;
}

/** Reads the rows of one table: feed it bytes with `consume`, take batches with `take`. */
export class TableReader {
  readonly plan: TablePlan;
  readonly troubles: Troubles;
  /** Set when reading must end before the file does. */
  stopped: Ended | null = null;
  private readonly capacity: number;
  private readonly time: Float64Array;
  private readonly values: readonly Float64Array[];
  private readonly order: TimeOrder;
  private readonly scanner: RowScanner;
  private readonly rowTime: RowTime;
  private readonly before: Float64Array;
  /** Size of each value's unit, NaN where cells or rows state it; and the largest value that can be meant. */
  private readonly scales: Float64Array;
  private readonly limits: Float64Array;
  /** The values of a row and what is added to the first of them. */
  private readonly columns: readonly ValueColumn[];
  private readonly watches: readonly (LoadWatch | null)[];
  /** There are cells to add up, or places to look at. */
  private readonly special: boolean;
  private readonly columnAt: Int32Array;
  /** 1: a load; 2: a place that is no plain number; 0: any other reading. */
  private readonly loads: Uint8Array;
  /** The last number of each load that was a reading, as written. */
  private readonly befores: Float64Array;
  /** Line of each row read and not yet taken. */
  private readonly lines: Int32Array;
  private marksOpen: boolean;
  private wordsAt = 0;
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
    this.rowTime = new RowTime(plan, this.scanner);
    this.encoding = plan.encoding.startsWith("utf-16") ? "windows-1252" : plan.encoding;
    this.before = Float64Array.from({ length: plan.values.length }, (_, k) => from?.before[k] ?? Number.NaN);
    this.columns = [...plan.values, ...(plan.addends ?? [])];
    this.scales = Float64Array.from(
      this.columns,
      (value, k) => from?.scales?.[k] ?? (value.unitColumn < 0 ? (value.scale ?? Number.NaN) : Number.NaN),
    );
    this.limits = Float64Array.from(this.columns, ({ channel: { kind } }) =>
      kind === "latitude" ? 90 : kind === "longitude" ? 360 : 1e12,
    );
    this.columnAt = Int32Array.from(this.columns, ({ column }) => column);
    this.loads = Uint8Array.from(this.columns, ({ channel: { kind }, place }) =>
      kind === "load" ? 1 : place === undefined ? 0 : 2,
    );
    this.befores = Float64Array.from(this.columns, (_, k) => from?.befores?.[k] ?? Number.NaN);
    this.lines = new Int32Array(capacity);
    this.watches = plan.values.map(({ channel: { kind } }, k) =>
      kind === "load" ? new LoadWatch(from?.watches?.[k]) : null,
    );
    this.special =
      plan.addends !== undefined ||
      plan.values.some(({ channel: { kind } }) => kind === "latitude" || kind === "longitude");
    this.marksOpen = plan.marksUnseen === true && from?.marksSeen !== true;
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
  take(): MarkedBatch {
    this.watches.forEach((watch, k) => void watch?.scan(this.values[k]!, this.count, this.lines));
    const batch = batchOf(this.time, this.values, this.count, this.order);
    this.done += this.count;
    this.count = 0;
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
      before: Array.from(this.before, orNull),
      scales: Array.from(this.scales, orNull),
      watches: this.watches.map((watch) => watch?.state() ?? null),
      befores: Array.from(this.befores, orNull),
      marksSeen: !this.marksOpen,
    };
  }

  /** What the loads show that a reader should know. */
  get seen(): readonly LoadSeen[] {
    return this.watches.flatMap((watch, k) => (watch === null ? [] : watch.seen(this.columns[k]!.channel.name)));
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
    const seconds = this.rowTime.read(bytes, this.done + this.count);
    if (!(seconds > -1e12 && seconds < 1e13)) {
      this.strange(bytes, start, end, `a time as ${plan.time.format} is expected`);
      return;
    }
    if (this.marksOpen && !this.marksShown(bytes)) return;
    let read = 0;
    let odd = 0;
    const { columnAt, scales, limits, loads, befores } = this;
    for (let k = 0; k < columnAt.length; k++) {
      let written = row[k]!;
      if (columnAt[k]! >= scanner.cells) row[k] = Number.NaN;
      else if (loads[k] === 2) {
        if (this.readPlace(bytes, k)) odd++;
      } else if (Number.isNaN(written)) {
        if (this.readOddCell(bytes, k)) odd++;
        written = row[k]!;
      } else if (Number.isNaN(scales[k]!)) {
        if (!this.toStatedUnit(bytes, k)) odd++;
      } else row[k] = written * scales[k]!;
      if (Math.abs(row[k]!) > limits[k]!) {
        if (!meansNone(written)) odd++;
        else troubles.standIn(this.line, String(written));
        row[k] = Number.NaN;
      }
      if (loads[k] === 1) {
        if ((written >= 999 || written <= -999) && standsForNone(written, befores[k]!)) {
          if (!Number.isNaN(row[k]!)) {
            troubles.standIn(this.line, String(written));
            row[k] = Number.NaN;
          }
        } else befores[k] = written;
      }
      if (!Number.isNaN(row[k]!)) read++;
    }
    if (this.special) read += this.addUp() - this.dropNowhere();
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

  /** Adds the further cells to the first load; a row that lacks one has no load. @returns what that takes off the readings */
  private addUp(): number {
    if (this.columns.length === this.values.length) return 0;
    const { row } = this.scanner;
    const first = this.plan.values.findIndex(({ channel }) => channel.kind === "load");
    let sum = row[first]!;
    let extra = 0;
    for (let k = this.values.length; k < this.columns.length; k++) {
      if (!Number.isNaN(row[k]!)) extra++;
      sum += row[k]!;
    }
    const lost = Number.isNaN(sum) && !Number.isNaN(row[first]!) ? 1 : 0;
    row[first] = sum;
    return -extra - lost;
  }

  /** 0° N 0° E is where receivers without a fix say they are. @returns readings taken off */
  private dropNowhere(): number {
    const { row } = this.scanner;
    const latitude = this.plan.values.findIndex(({ channel }) => channel.kind === "latitude");
    const longitude = this.plan.values.findIndex(({ channel }) => channel.kind === "longitude");
    if (latitude < 0 || longitude < 0 || row[latitude] !== 0 || row[longitude] !== 0) return 0;
    row[latitude] = Number.NaN;
    row[longitude] = Number.NaN;
    this.troubles.standIns++;
    return 2;
  }

  /** Whether the numbers of this row leave open how decimals are marked; the first that does ends the reading. */
  private marksShown(bytes: Uint8Array): boolean {
    const { cells, cellFrom, cellTo } = this.scanner;
    for (const { column, channel } of this.columns) {
      if (column >= cells || channel.kind !== "load") continue;
      const text = textOf(bytes, cellFrom[column]!, cellTo[column]!, this.encoding).trim();
      const marked = /^[+-]?\d*([.,])(\d*)/.exec(text);
      if (marked === null) continue;
      const open = /^[+-]?[1-9]\d{0,2}[.,]\d{3}(?!\d)/.test(text);
      if (!open && marked[1] === this.plan.decimal) {
        this.marksOpen = false;
        return true;
      }
      this.stopped = { line: this.line, why: { kind: "firstMark", cell: shown(text) } };
      return false;
    }
    return true;
  }

  private keep(seconds: number): void {
    const { order, before } = this;
    const { row } = this.scanner;
    const at = this.done + this.count;
    const last = order.before;
    if (this.wordsAt > 0) {
      const words = this.wordsAt;
      this.wordsAt = 0;
      if (seconds < last && this.line - words <= 3) {
        this.stopped = { line: words, why: { kind: "timesAnew" } };
        return;
      }
    }
    const t = order.next(seconds, at, this.line);
    if (t === last && this.plan.rowsPerStamp === 1) {
      let same = true;
      for (let k = 0; k < before.length && same; k++) same = Object.is(row[k], before[k]);
      if (same) {
        this.troubles.repeatedRows++;
        return;
      }
      order.shared(t, at, this.line);
    }
    for (let k = 0; k < before.length; k++) before[k] = row[k]!;
    this.time[this.count] = t;
    this.lines[this.count] = this.line;
    for (let k = 0; k < this.values.length; k++) this.values[k]![this.count] = row[k]!;
    this.count++;
  }

  /** Brings a number into its channel's unit by the unit its row states. @returns false when that is not known. */
  private toStatedUnit(bytes: Uint8Array, k: number): boolean {
    const { unitColumn, channel } = this.columns[k]!;
    const { row, cells, cellFrom, cellTo } = this.scanner;
    if (unitColumn < 0) {
      row[k] = Number.NaN;
      return false;
    }
    const text = unitColumn < cells ? textOf(bytes, cellFrom[unitColumn]!, cellTo[unitColumn]!, this.encoding) : "";
    if (text !== this.unitText) {
      this.unitText = text;
      this.unitScale = readUnit(text, channel.kind)?.scale ?? Number.NaN;
    }
    row[k] = row[k]! * this.unitScale;
    return !Number.isNaN(this.unitScale);
  }

  /** Reads a cell that is no plain number into the row. @returns true when it is trouble. */
  private readOddCell(bytes: Uint8Array, k: number): boolean {
    const { column, channel } = this.columns[k]!;
    const { row, numbers, cellFrom, cellTo } = this.scanner;
    const cell = oddCell(bytes, cellFrom[column]!, cellTo[column]!, {
      numbers,
      kind: channel.kind,
      encoding: this.encoding,
    });
    switch (cell.kind) {
      case "number":
        row[k] = cell.value;
        if (cell.scale === null && Number.isNaN(this.scales[k]!)) return !this.toStatedUnit(bytes, k);
        row[k] = cell.value * (cell.scale ?? this.scales[k]!);
        return false;
      case "trouble":
        return true;
      case "overload":
        this.troubles.overload++;
        return false;
      case "missing":
        this.troubles.missing++;
        return false;
      case "blank":
        return false;
    }
  }

  /** Reads a place that is no plain number. @returns true when it is trouble */
  private readPlace(bytes: Uint8Array, k: number): boolean {
    const { column, place, channel } = this.columns[k]!;
    const { row, cells, cellFrom, cellTo } = this.scanner;
    const text = textOf(bytes, cellFrom[column]!, cellTo[column]!, this.encoding).trim();
    const { side, form, sign } = place!;
    const beside = side >= 0 && side < cells ? textOf(bytes, cellFrom[side]!, cellTo[side]!, this.encoding).trim() : "";
    row[k] = Number.NaN;
    if (text === "" || isMissing(text)) return false;
    const most = channel.kind === "latitude" ? 90 : 180;
    row[k] = sign * readPlaceText(text, form, beside, this.plan.decimal, most);
    return Number.isNaN(row[k]!);
  }

  /** A row without a time or a reading: the header once more, another header, words, or trouble. */
  private strange(bytes: Uint8Array, start: number, end: number, expected: string): void {
    const text = textOf(bytes, start, Math.min(end, start + 4096), this.encoding);
    const header = headerIn(text, this.plan);
    if (header === null) {
      if (isComment(text)) this.troubles.comments++;
      else this.reject(bytes, start, end, expected);
      return;
    }
    if (header.kind === "words") {
      this.reject(bytes, start, end, expected);
      // Where time runs back behind it, it was the header of another table.
      this.wordsAt = this.line;
    } else if (header.kind === "same") {
      this.troubles.headersAgain++;
      this.order.begunAnew();
    } else if (header.kind === "other") this.stopped = { line: this.line, why: header.why };
    else {
      header.scales.forEach((scale, k) => {
        if (!Number.isNaN(this.scales[k]!)) this.scales[k] = scale;
      });
      this.troubles.otherUnits++;
      this.troubles.note(this.line, text, "a header with another unit: what follows is read in it");
    }
  }

  private expectedReading(): string {
    const unit = this.plan.values[0]!.scale === null ? " with its unit" : "";
    return `a number${unit} is expected in ${this.plan.values
      .slice(0, 3)
      .map((value) => `"${value.channel.from}"`)
      .join(", ")}`;
  }

  private reject(bytes: Uint8Array, start: number, end: number, expected: string): void {
    this.troubles.rejected++;
    if (!this.troubles.room) return;
    this.troubles.note(this.line, textOf(bytes, start, Math.min(end, start + 240), this.encoding), expected);
  }
}

const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);
