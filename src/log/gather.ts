/**
 * A log of any kind read whole into columns, from bytes as they come piece by piece: of the file itself no more is held
 * than the head it is judged by and one piece. Only the channels asked for are kept.
 */
import { InputError } from "../quantity/index.ts";
import type { MarkedBatch } from "./batch.ts";
import type { Ended, GrantedCause } from "./cause.ts";
import type { ChannelKind, Clock } from "./channel.ts";
import type { LogChoices } from "./choices.ts";
import { type EncodingGuess, guessEncoding, narrow, textOf } from "./encoding.ts";
import { GpxReader, TRACK_CHANNELS } from "./gpx.ts";
import { HEAD_BYTES } from "./guess.ts";
import { guessLog, type LogGuess } from "./kind.ts";
import type { LoadSeen } from "./load-watch.ts";
import { nmeaReader } from "./nmea.ts";
import { type GatheredColumns, RowColumns } from "./row-columns.ts";
import { signalKReader } from "./signalk.ts";
import { TableReader } from "./table.ts";
import type { Question, QuestionInWords } from "./table-guess.ts";
import type { LogMark } from "./time-order.ts";
import type { TroubleCount } from "./troubles.ts";

/** A log in memory: every channel a column on one clock, NaN where a row has no value. */
export interface LogRows extends GatheredColumns {
  readonly clock: Clock;
  readonly marks: readonly LogMark[];
  readonly troubles: TroubleCount;
  /** Where and why reading ended before the file did. */
  readonly ended: Ended | null;
  /** What was taken for granted. */
  readonly remarks: readonly GrantedCause[];
  /** What the loads show that a reader should know. */
  readonly seen: readonly LoadSeen[];
}

/** Which channels of a log to keep, and how large its file is. */
export interface GatherOptions {
  /** Kinds of channel to keep; all where absent. */
  readonly kinds?: readonly ChannelKind[];
  /** Bytes of the whole file, where known: columns are then laid out once. */
  readonly size?: number;
}

/** A question in words. */
export type SayQuestion = (question: Question) => QuestionInWords;

/** What is common to the readers of rows. */
interface Rows {
  consume(bytes: Uint8Array, from: number, to: number, final: boolean): number;
  take(): MarkedBatch;
  readonly stopped: LogRows["ended"];
  readonly troubles: { count(): TroubleCount };
  readonly seen: readonly LoadSeen[];
}

/** Bytes handed to a reader at a time. */
const PIECE = 1 << 20;

/** Feed it with `write`, then ask for the rows with `end`. */
export class LogGatherer {
  private readonly place: string;
  private readonly say: SayQuestion;
  private readonly told: LogChoices;
  private readonly options: GatherOptions;
  private head: Uint8Array = new Uint8Array(0);
  private sink: Sink | null = null;

  /**
   * @param place the file's name, for errors
   * @param say a question left open, in words
   */
  constructor(place: string, say: SayQuestion, told: LogChoices = {}, options: GatherOptions = {}) {
    this.place = place;
    this.say = say;
    this.told = told;
    this.options = options;
  }

  /** @throws InputError when it is no log, or leaves a question open (with the option that answers it) */
  write(bytes: Uint8Array): void {
    if (this.sink !== null) {
      this.sink.write(bytes);
      return;
    }
    this.head = joined(this.head, bytes);
    if (this.head.length > HEAD_BYTES) this.begin(false);
  }

  /** @throws InputError as `write`, or when nothing could be read */
  end(): LogRows {
    if (this.sink === null) this.begin(true);
    return this.sink!.end();
  }

  private begin(whole: boolean): void {
    const { head, place, say, told } = this;
    const guess = readable(guessLog(head.subarray(0, HEAD_BYTES), whole, told), place, say);
    const encoding = guessEncoding(head.subarray(0, HEAD_BYTES));
    this.sink =
      guess.kind === "gpx"
        ? new TrackSink(place, encoding)
        : new RowSink(guess, encoding, told, { ...this.options, head });
    this.sink.write(head);
    this.head = new Uint8Array(0);
  }
}

/** Reads a log of which all bytes are there. @throws InputError as `LogGatherer` */
export function gatherLog(
  bytes: Uint8Array,
  place: string,
  say: SayQuestion,
  told: LogChoices = {},
  options: GatherOptions = {},
): LogRows {
  const gatherer = new LogGatherer(place, say, told, { size: bytes.length, ...options });
  gatherer.write(bytes);
  return gatherer.end();
}

/** @throws InputError for what holds no readings, and for a question left open */
function readable(guess: LogGuess, place: string, say: SayQuestion): Readable {
  switch (guess.kind) {
    case "notATable":
      throw new InputError(place, guess.why, "a log of readings is expected");
    case "packed":
      throw new InputError(place, guess.what, guess.expected);
    case "webvtt":
    case "markTable":
      throw new InputError(place, "a list of marks in a clip", "a log of readings is expected");
    case "gpx":
      return guess;
    case "nmea":
    case "signalk":
    case "table": {
      if (guess.kind === "nmea" && guess.times === null)
        throw new InputError(place, "no sentence carries a time", "sentences that carry the time are expected");
      if (guess.kind === "signalk" && !guess.timed)
        throw new InputError(place, "no update states its time", "deltas with timestamps are expected");
      const [first] = guess.questions;
      if (first) {
        const asked = say(first);
        throw new InputError(
          place,
          asked.question,
          `an answer is expected, ${asked.answers.length === 1 ? "" : "such as "}${asked.answers.slice(0, 4).join(" or ")}`,
        );
      }
      return guess;
    }
  }
}

type Readable = Extract<LogGuess, { kind: "gpx" | "table" | "nmea" | "signalk" }>;

interface Sink {
  write(bytes: Uint8Array): void;
  end(): LogRows;
}

/** Rows of a table or of messages. */
class RowSink implements Sink {
  private readonly reader: Rows;
  private readonly columns: RowColumns;
  private readonly marks: LogMark[] = [];
  private readonly clock: Clock;
  private readonly remarks: readonly GrantedCause[];
  private readonly encoding: EncodingGuess;
  private readonly buffer: Uint8Array;
  private held = 0;
  /** Bytes of the file still to be passed over, and an odd one left of a pair. */
  private skip: number;
  private odd: Uint8Array = new Uint8Array(0);

  constructor(
    guess: Exclude<Readable, { kind: "gpx" }>,
    encoding: EncodingGuess,
    told: LogChoices,
    options: GatherOptions & { head: Uint8Array },
  ) {
    this.encoding = encoding;
    this.buffer = new Uint8Array(2 * PIECE);
    this.remarks = guess.remarks;
    if (guess.kind === "table") {
      this.reader = new TableReader(guess.plan!, 16384);
      this.clock = guess.plan!.time.clock;
      this.skip = guess.plan!.dataOffset;
    } else {
      this.reader =
        guess.kind === "nmea"
          ? nmeaReader(guess.times!, {
              plan: guess.plan!,
              capacity: 16384,
              ...(told.start === undefined ? {} : { start: told.start }),
            })
          : signalKReader({ plan: guess.plan!, capacity: 16384 });
      this.clock =
        guess.kind === "signalk" ? "utc" : guess.times === "clock" && told.start !== undefined ? "utc" : guess.clock;
      this.skip = encoding.mark;
    }
    const channels = guess.kind === "table" ? guess.plan!.values.map((value) => value.channel) : guess.plan!.channels;
    this.columns = new RowColumns(channels, options.kinds, options.size);
  }

  write(bytes: Uint8Array): void {
    let from = Math.min(this.skip, bytes.length);
    this.skip -= from;
    for (; from < bytes.length && this.reader.stopped === null; from += PIECE) {
      this.take(bytes.subarray(from, Math.min(from + PIECE, bytes.length)));
      this.feed(false);
    }
  }

  end(): LogRows {
    this.feed(true);
    const { clock, marks, remarks, reader, columns } = this;
    const troubles = reader.troubles.count();
    return { ...columns.done(), clock, marks, remarks, troubles, seen: reader.seen, ended: reader.stopped };
  }

  private take(piece: Uint8Array): void {
    const { encoding, buffer } = this;
    if (encoding.unit === 1) {
      buffer.set(piece, this.held);
      this.held += piece.length;
      return;
    }
    const raw = joined(this.odd, piece);
    const even = raw.length & ~1;
    this.held += narrow(raw, 0, even, encoding.encoding, buffer.subarray(this.held));
    this.odd = raw.slice(even);
  }

  private feed(final: boolean): void {
    const { reader, buffer, columns, marks } = this;
    for (let from = 0; reader.stopped === null; ) {
      const next = reader.consume(buffer, from, this.held, final);
      const batch = reader.take();
      columns.append(batch, next - from);
      marks.push(...batch.marks);
      if (next === from && batch.rows === 0) {
        buffer.copyWithin(0, from, this.held);
        this.held -= from;
        return;
      }
      from = next;
    }
  }
}

/** Points of a GPX track. */
class TrackSink implements Sink {
  private readonly reader: GpxReader;
  private readonly encoding: EncodingGuess;
  private readonly columns = new RowColumns(TRACK_CHANNELS.map((kind) => ({ name: kind, kind })));
  private readonly marks: LogMark[] = [];
  private skip: number;
  private odd: Uint8Array = new Uint8Array(0);

  constructor(place: string, encoding: EncodingGuess) {
    this.reader = new GpxReader(place);
    this.encoding = encoding;
    this.skip = encoding.mark;
  }

  write(bytes: Uint8Array): void {
    let from = Math.min(this.skip, bytes.length);
    this.skip -= from;
    for (; from < bytes.length; from += PIECE) {
      const piece = joined(this.odd, bytes.subarray(from, Math.min(from + PIECE, bytes.length)));
      const whole = wholeCharacters(piece, this.encoding);
      this.reader.write(textOf(piece, 0, whole, this.encoding.encoding));
      this.odd = piece.slice(whole);
      const batch = this.reader.take();
      this.columns.append(batch, whole);
      this.marks.push(...batch.marks);
    }
  }

  end(): LogRows {
    const { reader, columns, marks } = this;
    reader.close();
    return {
      ...columns.done(),
      clock: "utc",
      marks,
      remarks: [],
      seen: [],
      troubles: reader.troubles.count(),
      ended: reader.ended,
    };
  }
}

/** Bytes up to the end of the last character that is all there. */
function wholeCharacters(bytes: Uint8Array, { encoding, unit }: EncodingGuess): number {
  if (unit === 2) return bytes.length & ~1;
  if (encoding !== "utf-8") return bytes.length;
  let start = bytes.length;
  while (start > 0 && start > bytes.length - 4 && (bytes[start - 1]! & 0xc0) === 0x80) start--;
  const lead = start > 0 ? bytes[start - 1]! : 0;
  const length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc2 ? 2 : 1;
  return length > bytes.length - (start - 1) ? start - 1 : bytes.length;
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  if (a.length === 0) return b;
  const all = new Uint8Array(a.length + b.length);
  all.set(a);
  all.set(b, a.length);
  return all;
}
