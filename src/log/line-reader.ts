/** Logs of one message a line: finds the lines in the bytes and hands each over; keeps what could not be read. */
import type { Ended } from "./cause.ts";
import type { Batch } from "./channel.ts";
import { textOf } from "./encoding.ts";
import type { LoadSeen } from "./load-watch.ts";
import { LONGEST_ROW, lineEnd, nextLineEnd } from "./row-scan.ts";
import { SparseRows, type SparseState } from "./sparse-rows.ts";
import type { LogMark, OrderState } from "./time-order.ts";
import { type TroubleCount, Troubles } from "./troubles.ts";

/** Where a reader of lines stands, as it is kept between two runs. */
export interface LineState {
  readonly line: number;
  readonly sparse: SparseState;
  readonly troubles: TroubleCount;
  readonly skipping: boolean;
  /** What the reader of one line carries on, as plain data. */
  readonly own: unknown;
}

/** Reads one line into the rows; what it cannot read it notes. */
export interface LineTaker {
  take(text: string, line: number, rows: SparseRows, troubles: Troubles): void;
  state(): unknown;
}

/** Lines of a log to rows, a piece at a time, stopped and taken up again. */
export class LineReader {
  readonly troubles: Troubles;
  readonly stopped: Ended | null = null;
  private readonly rows: SparseRows;
  private readonly taker: LineTaker;
  private line: number;
  private skipping: boolean;

  constructor(channels: readonly string[], taker: LineTaker, capacity = 65536, from?: LineState) {
    this.rows = new SparseRows(channels, capacity, from?.sparse);
    this.troubles = new Troubles(from?.troubles);
    this.taker = taker;
    this.line = from?.line ?? 1;
    this.skipping = from?.skipping ?? false;
  }

  /** As `TableReader.consume`: returns the first byte not consumed. */
  consume(bytes: Uint8Array, from: number, to: number, final: boolean): number {
    let p = from;
    while (p < to && this.rows.room) {
      const end = nextLineEnd(bytes, p, to);
      // A line that has not ended yet, or has with a carriage return whose line feed may still come.
      if (!final && (end === to || (bytes[end] === 13 && end + 1 === to))) {
        if (to - p <= LONGEST_ROW) return p;
        if (!this.skipping) this.tooLong(bytes, p);
        this.skipping = true;
        return end;
      }
      if (this.skipping) this.skipping = false;
      else if (end - p > LONGEST_ROW) this.tooLong(bytes, p);
      else if (end > p) this.taker.take(textOf(bytes, p, end, "utf-8"), this.line, this.rows, this.troubles);
      this.line++;
      p = end < to ? lineEnd(bytes, end, to) : to;
    }
    if (final && p >= to) this.rows.close(this.line);
    return p;
  }

  take(): Batch & { readonly marks: readonly LogMark[] } {
    return this.rows.take();
  }

  get ready(): number {
    return this.rows.ready;
  }

  get full(): boolean {
    return !this.rows.room;
  }

  get seen(): readonly LoadSeen[] {
    return this.rows.seen;
  }

  get counts(): OrderState["counts"] {
    return this.rows.counts;
  }

  state(): LineState {
    return {
      line: this.line,
      sparse: this.rows.state(),
      troubles: this.troubles.count(),
      skipping: this.skipping,
      own: this.taker.state(),
    };
  }

  private tooLong(bytes: Uint8Array, p: number): void {
    this.troubles.rejected++;
    this.troubles.note(
      this.line,
      textOf(bytes, p, p + 60, "utf-8"),
      `a line of at most ${LONGEST_ROW} bytes is expected`,
    );
  }
}
