import { type EndCause, guessLive, type LogChoices, type LogGuess } from "../../log/index.ts";
import type { Book } from "../book.ts";
import { type LiveLines, linesJudged, linesKept } from "./live-lines.ts";
import { LiveLog } from "./live-log.ts";
import type { LiveSource } from "./live-source.ts";
import { channelsFor } from "./rows-reader.ts";

/** A reading that is on disk. */
export interface LiveReading {
  /** When it came, s since 1970 by this computer's clock. */
  readonly time: number;
  readonly values: Readonly<Record<string, number>>;
  /** Rows of the log now on disk, this one the last. */
  readonly rows: number;
}

/** What came that is no reading, and what was expected or why no more is read. */
export type LiveTrouble =
  | { readonly value: string; readonly expected: string }
  | { readonly value: string; readonly why: EndCause };

/** How a live capture runs: clock, stop, where readings are told. */
export interface CaptureOptions {
  /** This computer's clock, ms since 1970. */
  readonly now: () => number;
  /** Capturing ends when it is aborted. */
  readonly signal: AbortSignal;
  readonly told?: LogChoices;
  readonly name?: string;
  readonly pull?: string;
  readonly day?: string;
  /**
   * The fingerprint of a log that outlives this capture: one begun before is gone on with, read as it was then, and it is
   * left open for the next. Without one, a capture makes a log of its own and ends it.
   */
  readonly continues?: string;
  /** Called for each reading once it is on disk, never before. */
  readonly onReading?: (reading: LiveReading) => void;
  /** Called for a line that is no reading, when the stream is lost, and when the book cannot be written. */
  readonly onTrouble?: (trouble: LiveTrouble) => void;
  /** Called when the stream is lost, before it is tried again. */
  readonly onLost?: (why: string) => void;
  /** How long the first lines are waited for before they are judged, ms. */
  readonly patience_ms?: number;
  /** How often a book that could not be written is tried again, ms. */
  readonly retry_ms?: number;
}

/** What a live capture came to, or what it asks. */
export type Captured =
  | {
      readonly kind: "captured";
      readonly log: string | null;
      readonly rows: number;
      /** Of these, readings kept beside the book because it could not be written: taken in by the next that reads logs. */
      readonly waiting: number;
      readonly rejected: number;
    }
  | { readonly kind: "asks"; readonly guess: LogGuess };

/** Lines by which an instrument is judged. */
const FIRST_LINES = 8;
/** Longest line, characters: what is longer is cut, so that noise on a line cannot fill the memory. */
const LONGEST_LINE = 4096;

/**
 * Keeps the readings of an instrument as they come. Each is on disk before it is shown: after a kill the book holds at
 * least every reading shown. The first line is used to judge the others and never as a reading, as it may have begun
 * before we listened. While another program holds the book's lock the readings are kept on disk beside it.
 * @throws InputError when the instrument cannot be reached or sends no readings
 */
export async function captureLive(book: Book, source: LiveSource, options: CaptureOptions): Promise<Captured> {
  const capture = new Capture(book, source, options);
  // Waiting for more lines must not keep the first ones from being judged, nor a judgement from being told.
  const judged = new AbortController();
  const again = (work: () => void) => () => {
    try {
      work();
    } catch (error) {
      capture.failed = error;
    }
    if (capture.asks !== null || capture.failed !== null) judged.abort();
  };
  const timers = [
    setInterval(
      again(() => capture.judgeIfDue()),
      100,
    ),
    setInterval(
      again(() => capture.log?.retry()),
      options.retry_ms ?? 1000,
    ),
  ];
  try {
    for await (const arrival of source.arrivals(AbortSignal.any([options.signal, judged.signal]))) {
      if (arrival.kind === "bytes") capture.arrived(arrival.bytes);
      else capture.lost(arrival.why);
      if (capture.asks !== null) return { kind: "asks", guess: capture.asks };
    }
    if (capture.failed === null) capture.judge();
  } finally {
    for (const timer of timers) clearInterval(timer);
    capture.end();
  }
  if (capture.failed !== null) throw capture.failed;
  return capture.asks === null
    ? { kind: "captured", ...capture.kept(), rejected: capture.rejected }
    : { kind: "asks", guess: capture.asks };
}

interface Waiting {
  readonly time: number;
  readonly line: string;
}

/** One capture under way. */
class Capture {
  log: LiveLog | null = null;
  rejected = 0;
  asks: LogGuess | null = null;
  failed: unknown = null;
  private readonly book: Book;
  private readonly source: LiveSource;
  private readonly options: CaptureOptions;
  private readonly decoder = new TextDecoder("utf-8");
  private lines: LiveLines | null = null;
  private names: string[] = [];
  private first: Waiting[] = [];
  private partial = "";
  private fresh = true;

  constructor(book: Book, source: LiveSource, options: CaptureOptions) {
    this.book = book;
    this.source = source;
    this.options = options;
  }

  arrived(bytes: Uint8Array): void {
    const time = this.options.now() / 1000;
    const text = this.partial + this.decoder.decode(bytes, { stream: true });
    const lines = text.split(/\r\n|\n|\r(?!$)/);
    this.partial = lines.pop()!.slice(-LONGEST_LINE);
    const whole = lines.map((line) => ({ time, line: line.slice(0, LONGEST_LINE) }));
    if (this.lines === null) {
      this.first.push(...whole);
      if (this.first.length >= FIRST_LINES) this.judge();
      return;
    }
    // After the stream was lost its first line may be half of one.
    if (this.fresh && whole.length > 0) {
      whole.shift();
      this.fresh = false;
    }
    this.keep(whole);
  }

  lost(why: string): void {
    this.partial = "";
    this.fresh = true;
    this.options.onLost?.(why);
    this.options.onTrouble?.({
      value: `the stream of ${this.source.name} was lost (${why})`,
      expected: "it is tried again",
    });
  }

  judgeIfDue(): void {
    const since = this.first[0]?.time;
    if (this.lines !== null || since === undefined || this.first.length < 2) return;
    if (this.options.now() / 1000 - since < (this.options.patience_ms ?? 2000) / 1000) return;
    this.judge();
  }

  /** Decides how the lines are read, and keeps those that have come. */
  judge(): void {
    if (this.lines !== null || this.first.length === 0) return;
    const { now, name, pull, day, continues } = this.options;
    const lines = this.keptLines() ?? this.judgedLines();
    if (lines === null) return;
    this.lines = lines;
    const channels = channelsFor(lines.mapping);
    this.names = channels.map((channel) => channel.name);
    const set = {
      name: name ?? `${this.source.name}, ${new Date(now()).toISOString().slice(0, 19)}Z`,
      source: this.source.name,
      channels,
      mapping: lines.mapping as never,
      pull,
      day,
    };
    this.log = new LiveLog(this.book, set, (trouble) => this.options.onTrouble?.(trouble), continues);
    const waiting = this.first.slice(1);
    this.first = [];
    this.fresh = false;
    this.keep(waiting);
  }

  /** As the log that is gone on with was read. */
  private keptLines(): LiveLines | null {
    const { continues } = this.options;
    if (continues === undefined) return null;
    const [log] = this.book.list("log", { where: { fingerprint: continues } });
    return log === undefined ? null : linesKept(log.mapping);
  }

  private judgedLines(): LiveLines | null {
    const first = this.first.map(({ line }) => line);
    const guess = guessLive(first, this.options.told ?? {}, this.source.name);
    if (guess.kind === "lines") return linesJudged(guess, this.source.name);
    this.asks = guess.guess;
    return null;
  }

  end(): void {
    this.log?.end();
  }

  kept(): { log: string | null; rows: number; waiting: number } {
    const { id = null, rows = 0, waiting = 0 } = this.log ?? {};
    return { log: id, rows, waiting };
  }

  private keep(lines: readonly Waiting[]): void {
    const { onReading, onTrouble } = this.options;
    const times: number[] = [];
    const rows: Float64Array[] = [];
    for (const { time, line } of lines) {
      const read = this.lines!.read(line);
      if (read.kind === "reading") {
        times.push(time);
        rows.push(read.values);
      } else if (read.kind === "trouble" || read.kind === "ended") {
        this.rejected++;
        onTrouble?.(read);
      }
    }
    if (times.length === 0) return;
    const columns = Object.fromEntries(this.names.map((name, k) => [name, Float64Array.from(rows, (row) => row[k]!)]));
    // One write to the disk for all that came together; only then are they shown.
    const log = this.log!;
    log.keep({ times: Float64Array.from(times), columns });
    rows.forEach((row, i) => {
      const values = Object.fromEntries(
        this.names.flatMap((name, k) => (Number.isNaN(row[k]!) ? [] : [[name, row[k]!]])),
      );
      onReading?.({ time: times[i]!, values, rows: log.rows - rows.length + i + 1 });
    });
  }
}
