/**
 * The byte loop: one row of a table in one pass, its needed cells as numbers or as where they lie, the rest stepped
 * over. No string is made. Quotes as RFC 4180 writes them; rows end with LF, CR LF or a bare CR.
 */
import { NumberReader } from "./number.ts";
import type { TablePlan } from "./plan.ts";
import { isCount } from "./stamp-format.ts";

/** `partial`: the bytes end before the row does. `unclosed`: a quote is opened and never closed. */
export type Scanned = "whole" | "partial" | "unclosed";

/** Longest row, bytes: what is longer is no row of readings. */
export const LONGEST_ROW = 65536;

const TAB = 9;
const LF = 10;
const CR = 13;
const BLANK = 32;
const QUOTE = 34;

/** Scans rows one after another; the fields hold the last one. */
export class RowScanner {
  /** Numbers as written, in the order of the plan's values and then the time where it is a number; NaN where none stands. */
  readonly row: Float64Array;
  /** Bytes of each cell, quotes not counted in. */
  readonly cellFrom: Int32Array;
  readonly cellTo: Int32Array;
  readonly numbers: NumberReader;
  cells = 0;
  /** Where the row ends, and where the next one starts. */
  end = 0;
  next = 0;
  /** Line ends within the row's quotes. */
  inner = 0;
  /** Something stands in the row. */
  content = false;
  /** Something stands beyond the last cell. */
  extra = false;
  private readonly valueAt: Int32Array;
  private readonly delimiter: number;
  private readonly blanks: boolean;
  /** Of numbers without quotes: a mark that parts the cells marks nothing within them. */
  private readonly bare: NumberReader;

  constructor(plan: TablePlan) {
    const counted = isCount(plan.time.format) && plan.time.column >= 0;
    const values = [...plan.values, ...(plan.addends ?? [])];
    this.row = new Float64Array(values.length + (counted ? 1 : 0));
    this.cellFrom = new Int32Array(plan.width);
    this.cellTo = new Int32Array(plan.width);
    this.valueAt = new Int32Array(plan.width).fill(-1);
    values.forEach((value, k) => {
      this.valueAt[value.column] = k;
    });
    if (counted) this.valueAt[plan.time.column] = values.length;
    // No byte is 256: a table of one column has no delimiter.
    this.delimiter = plan.delimiter === "" ? 256 : plan.delimiter.charCodeAt(0);
    this.blanks = plan.delimiter === " ";
    const grouping = plan.grouping === "" ? 0 : plan.grouping.charCodeAt(0);
    const decimal = plan.decimal.charCodeAt(0);
    this.numbers = new NumberReader({ decimal, grouping });
    const apart = (mark: number) => (mark === this.delimiter ? 0 : mark);
    this.bare = new NumberReader({ decimal: apart(decimal), grouping: apart(grouping) });
  }

  scan(bytes: Uint8Array, start: number, to: number, final: boolean): Scanned {
    const { valueAt, cellFrom, cellTo, row, bare, delimiter, blanks } = this;
    const width = valueAt.length;
    row.fill(Number.NaN);
    this.inner = 0;
    this.content = false;
    this.extra = false;
    let p = start;
    let cell = 0;
    for (;;) {
      while (p < to && (bytes[p] === BLANK || bytes[p] === TAB) && (bytes[p] !== delimiter || blanks)) p++;
      if (p >= to && !final) return "partial";
      const k = cell < width ? valueAt[cell]! : -1;
      let from = p;
      let end: number;
      if (p < to && bytes[p] === QUOTE) {
        from = p + 1;
        end = this.closingQuote(bytes, from, to);
        if (end < 0) return !final && to - start <= LONGEST_ROW ? "partial" : "unclosed";
        if (end + 1 >= to && !final) return "partial";
        p = this.cellEnd(bytes, end + 1, to);
        if (k >= 0) row[k] = this.quotedNumber(bytes, from, end);
        this.content = true;
      } else if (k >= 0) {
        const value = bare.read(bytes, p, to);
        p = bare.at;
        while (p < to && bytes[p] === BLANK && !blanks) p++;
        const b = p < to ? bytes[p]! : LF;
        if (b === delimiter || b === LF || b === CR || (blanks && b === TAB)) row[k] = value;
        else p = this.cellEnd(bytes, p, to);
        end = p;
      } else {
        // Cells nobody asked for are stepped over here, and stamps found: the loop stands in place for its speed.
        while (p < to) {
          const b = bytes[p]!;
          if (b === delimiter || b === LF || b === CR || (blanks && b === TAB)) break;
          p++;
        }
        end = p;
      }
      if (p >= to && !final) return "partial";
      if (end > from) this.content = true;
      if (cell < width) {
        cellFrom[cell] = from;
        cellTo[cell] = end;
      } else if (end > from) this.extra = true;
      cell++;
      if (p >= to || bytes[p] === LF || bytes[p] === CR) break;
      p++;
      if (blanks) {
        while (p < to && (bytes[p] === BLANK || bytes[p] === TAB)) p++;
        if (p >= to ? final : bytes[p] === LF || bytes[p] === CR) break;
      }
    }
    if (p < to && bytes[p] === CR && p + 1 >= to && !final) return "partial";
    this.cells = cell;
    this.end = p;
    this.next = p >= to ? to : lineEnd(bytes, p, to);
    return "whole";
  }

  /** Where a quote closes, −1 when it does not; counts the line ends it holds. */
  private closingQuote(bytes: Uint8Array, from: number, to: number): number {
    for (let p = from; p < to; p++) {
      const b = bytes[p]!;
      if (b === LF || (b === CR && bytes[p + 1] !== LF)) this.inner++;
      else if (b === QUOTE) {
        if (p + 1 >= to || bytes[p + 1] !== QUOTE) return p;
        p++;
      }
    }
    return -1;
  }

  private cellEnd(bytes: Uint8Array, from: number, to: number): number {
    const { delimiter, blanks } = this;
    let p = from;
    while (p < to && bytes[p] !== delimiter && bytes[p] !== LF && bytes[p] !== CR && !(blanks && bytes[p] === TAB)) p++;
    return p;
  }

  private quotedNumber(bytes: Uint8Array, from: number, to: number): number {
    while (from < to && bytes[from] === BLANK) from++;
    while (to > from && bytes[to - 1] === BLANK) to--;
    const value = this.numbers.read(bytes, from, to);
    return this.numbers.at === to ? value : Number.NaN;
  }
}

/** The byte behind the line end at `p`. */
export function lineEnd(bytes: Uint8Array, p: number, to: number): number {
  return bytes[p] === CR && p + 1 < to && bytes[p + 1] === LF ? p + 2 : p + 1;
}

/** Index of the next line end, or `to`. */
export function nextLineEnd(bytes: Uint8Array, from: number, to: number): number {
  let p = from;
  while (p < to && bytes[p] !== LF && bytes[p] !== CR) p++;
  return p;
}
