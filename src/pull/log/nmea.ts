/** Logs of NMEA 0183 sentences: a row for each moment, times from the sentences or from what the logger wrote before them. */

import { linesOf } from "./cells.ts";
import type { ChannelKind, Clock } from "./channel.ts";
import { LineReader, type LineState, type LineTaker } from "./line-reader.ts";
import { prefixTime, readSentence, type Sentence } from "./nmea-sentence.ts";
import { sentenceValues } from "./nmea-values.ts";
import type { ChannelReading, SparseRows } from "./sparse-rows.ts";
import type { Troubles } from "./troubles.ts";

/** Channels sentences can fill; those silent throughout take no room. */
export const NMEA_CHANNELS: readonly ChannelKind[] = [
  "load",
  "angle",
  "latitude",
  "longitude",
  "speed",
  "course",
  "heading",
  "headingTrue",
  "windSpeed",
  "windAngle",
  "trueWindSpeed",
  "trueWindAngle",
  "windDirection",
  "depth",
  "depthBelowTransducer",
];

/** Where a log's times come from: the logger, sentences with a date, or sentences with the time of day alone. */
export type NmeaTimes = "logger" | "dated" | "clock";

export interface NmeaGuess {
  readonly kind: "nmea";
  readonly times: NmeaTimes | null;
  readonly clock: Clock;
  /** Sentence types met in the head of the file and how often. */
  readonly types: Readonly<Record<string, number>>;
  readonly why: string;
}

/** Reads sentences of other types, as a library does that knows them all. */
export type OtherSentences = (sentence: Sentence) => readonly ChannelReading[];

/** Judges the head of a log of sentences; null when it holds none. */
export function guessNmea(text: string): NmeaGuess | null {
  const lines = linesOf(text, 2000);
  const types: Record<string, number> = {};
  let sentences = 0;
  let written = 0;
  let stamped = 0;
  let dated = 0;
  let clocked = 0;
  for (const line of lines) {
    if (line.text.trim() === "") continue;
    written++;
    const sentence = readSentence(line.text);
    if (sentence === null || sentence.kind === "bad") continue;
    sentences++;
    types[sentence.type] = (types[sentence.type] ?? 0) + 1;
    if (!Number.isNaN(prefixTime(sentence.prefix))) stamped++;
    const values = sentenceValues(sentence);
    if (values !== null && values.timeOfDay !== null) {
      clocked++;
      if (values.date !== null) dated++;
    }
  }
  if (sentences === 0 || sentences < written * 0.3) return null;
  if (stamped > sentences * 0.9)
    return { kind: "nmea", times: "logger", clock: "utc", types, why: "the logger stamped its lines" };
  if (dated > 0)
    return { kind: "nmea", times: "dated", clock: "utc", types, why: "RMC or ZDA sentences carry date and time" };
  if (clocked > 0)
    return { kind: "nmea", times: "clock", clock: "clock", types, why: "sentences carry the time of day and no date" };
  return { kind: "nmea", times: null, clock: "elapsed", types, why: "no sentence carries a time" };
}

interface OwnState {
  readonly date: number | null;
  readonly timeOfDay: number | null;
  readonly untimed: number;
}

/** Makes the reader of a log of sentences. `start` is the day of clock times, s since 1970. */
export function nmeaReader(
  times: NmeaTimes,
  options: { start?: number; capacity?: number; from?: LineState; others?: OtherSentences } = {},
): LineReader {
  return new LineReader(
    NMEA_CHANNELS,
    new SentenceTaker(times, options.start ?? 0, options.others, options.from?.own as OwnState | undefined),
    options.capacity,
    options.from,
  );
}

class SentenceTaker implements LineTaker {
  private readonly times: NmeaTimes;
  private readonly others: OtherSentences | undefined;
  private date: number | null;
  private last: number | null;
  private untimed: number;

  constructor(times: NmeaTimes, start: number, others: OtherSentences | undefined, from?: OwnState) {
    this.times = times;
    this.others = others;
    this.date = from?.date ?? (times === "clock" ? Math.floor(start / 86400) : null);
    this.last = from?.timeOfDay ?? null;
    this.untimed = from?.untimed ?? 0;
  }

  take(text: string, line: number, rows: SparseRows, troubles: Troubles): void {
    const sentence = readSentence(text);
    if (sentence === null) {
      if (text.trim() === "") return;
      troubles.rejected++;
      troubles.note(line, text, "a sentence that begins with $ or ! is expected");
      return;
    }
    if (sentence.kind === "bad") {
      troubles.rejected++;
      troubles.note(line, text, sentence.expected);
      return;
    }
    const values = sentenceValues(sentence);
    if (this.times === "logger") {
      const time = prefixTime(sentence.prefix);
      if (!Number.isNaN(time)) rows.at(time, line);
    } else if (values !== null && values.timeOfDay !== null) {
      const time = this.timeOf(values.timeOfDay, values.date);
      if (!Number.isNaN(time)) rows.at(time, line);
    }
    const readings = values?.readings ?? this.others?.(sentence) ?? [];
    if (readings.length === 0) return;
    if (rows.add(readings, line) > 0) return;
    this.untimed++;
    troubles.unreadable += readings.length;
    if (this.untimed === 1)
      troubles.note(line, sentence.text, "a sentence with the time is expected before the first reading");
  }

  state(): OwnState {
    return { date: this.date, timeOfDay: this.last, untimed: this.untimed };
  }

  /** A time of day is of the last date told, or of the next when midnight has passed since. */
  private timeOf(timeOfDay: number, date: number | null): number {
    if (date !== null && this.times === "dated") this.date = date;
    else if (this.date !== null && this.last !== null) {
      if (timeOfDay < this.last - 43200) this.date++;
      else if (timeOfDay > this.last + 43200) this.date--;
    }
    this.last = timeOfDay;
    return this.date === null ? Number.NaN : this.date * 86400 + timeOfDay;
  }
}
