/** Logs of NMEA 0183 sentences: a row for each moment, times from the sentences or from what the logger wrote before them. */

import type { GrantedCause, GuessCause } from "./cause.ts";
import { linesOf } from "./cells.ts";
import type { ChannelKind, Clock } from "./channel.ts";
import type { LogChoices } from "./choices.ts";
import { LineReader, type LineState, type LineTaker } from "./line-reader.ts";
import { chooseCells, chooseSources, type MessagePlan, OPEN_PLAN, planOf } from "./message-plan.ts";
import { prefixTime, readSentence, type Sentence } from "./nmea-sentence.ts";
import { SentenceFilter, SourceCount, sourceOf } from "./nmea-sources.ts";
import { sentenceValues } from "./nmea-values.ts";
import type { ChannelReading, SparseRows } from "./sparse-rows.ts";
import type { Question } from "./table-guess.ts";
import { shown, type Troubles } from "./troubles.ts";

/** Where a log's times come from: the logger, sentences with a date, or sentences with the time of day alone. */
export type NmeaTimes = "logger" | "dated" | "clock";

/** A log of NMEA 0183 sentences, and the clock it has. */
export interface NmeaGuess {
  readonly kind: "nmea";
  readonly times: NmeaTimes | null;
  readonly clock: Clock;
  /** Sentence types met in the head of the file and how often. */
  readonly types: Readonly<Record<string, number>>;
  readonly why: GuessCause;
  readonly questions: readonly Question[];
  readonly remarks: readonly GrantedCause[];
  /** Null while a question stands open. */
  readonly plan: MessagePlan | null;
}

/** Judges the head of a log of sentences; null when it holds none. */
export function guessNmea(text: string, told: LogChoices = {}): NmeaGuess | null {
  const lines = linesOf(text, 4000);
  const types: Record<string, number> = {};
  const sources = new SourceCount();
  const cells = new Set<string>();
  const places: Place[] = [];
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
    if (values === null) continue;
    if (values.readings.length > 0) sources.count(sentence);
    for (const { kind, from } of values.readings) if (kind === "load") cells.add(from ?? "");
    if (sentence.type === "RMC" || sentence.type === "GGA") places.push(placeOf(sentence, values.readings));
    if (values.timeOfDay !== null) {
      clocked++;
      if (values.date !== null) dated++;
    }
  }
  if (sentences === 0 || sentences < written * 0.3) return null;
  const questions: Question[] = [];
  const chosen = chooseSources(sources.groups(), told.sources ?? [], questions);
  const { loads, sum } = chooseCells([...cells], told, "transducers", questions);
  if (interleaved(places, chosen.position))
    questions.push({
      about: "several sources",
      question: { kind: "twoReceivers" },
      answers: [],
    });
  const plan = questions.length > 0 ? null : planOf(loads, sum, chosen, null);
  const remarks = remarksOf(sources.names, plan);
  const all = { kind: "nmea", types, questions, remarks, plan } as const;
  if (stamped > sentences * 0.9) return { ...all, times: "logger", clock: "utc", why: { kind: "stampedByLogger" } };
  if (dated > 0) return { ...all, times: "dated", clock: "utc", why: { kind: "dateAndTime" } };
  if (clocked > 0) return { ...all, times: "clock", clock: "clock", why: { kind: "timeOfDayOnly" } };
  return { ...all, times: null, clock: "elapsed", why: { kind: "noTime" } };
}

function remarksOf(names: ReadonlySet<string>, plan: MessagePlan | null): GrantedCause[] {
  if (plan === null) return [];
  const left = [...names].filter((name) => !Object.values(plan.sources).includes(name));
  return left.length === 0 ? [] : [{ kind: "sourcesLeftOut", sources: left.map(shown) }];
}

/** One fix: who told it, and where. */
interface Place {
  readonly source: string;
  readonly latitude: number;
  readonly longitude: number;
}

function placeOf(sentence: Sentence, readings: readonly ChannelReading[]): Place {
  const value = (kind: ChannelKind) => readings.find((reading) => reading.kind === kind)?.value ?? Number.NaN;
  return {
    source: `${sourceOf(sentence)} ${sentence.type}`,
    latitude: value("latitude"),
    longitude: value("longitude"),
  };
}

/** True when the fixes of one source go to and fro between two places: each is near the last but one. */
function interleaved(places: readonly Place[], source: string | undefined): boolean {
  for (const name of new Set(places.map((place) => place.source))) {
    if (source !== undefined && !name.startsWith(`${source} `) && !/^G/.test(name)) continue;
    const own = places.filter((place) => place.source === name && !Number.isNaN(place.latitude));
    if (own.length < 12) continue;
    const apart = (k: number) =>
      median(own.slice(k).map((p, i) => Math.hypot(p.latitude - own[i]!.latitude, p.longitude - own[i]!.longitude)));
    // 2e-5 degrees are some two metres: less is a receiver's own wander.
    if (apart(1) > 2e-5 && apart(2) < 0.3 * apart(1)) return true;
  }
  return false;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}

interface OwnState {
  readonly date: number | null;
  readonly timeOfDay: number | null;
  readonly untimed: number;
  readonly sources?: Readonly<Record<string, string>>;
  readonly cell?: string | null;
}

/** Makes the reader of a log of sentences. `start` is the day of clock times, s since 1970. */
export function nmeaReader(
  times: NmeaTimes,
  options: { start?: number; capacity?: number; from?: LineState; plan?: MessagePlan } = {},
): LineReader {
  const plan = options.plan ?? OPEN_PLAN;
  return new LineReader(
    plan.channels.map((channel) => channel.name),
    new SentenceTaker(times, plan, options.start ?? 0, options.from?.own as OwnState | undefined),
    options.capacity,
    options.from,
  );
}

class SentenceTaker implements LineTaker {
  private readonly times: NmeaTimes;
  private readonly filter: SentenceFilter;
  private date: number | null;
  private last: number | null;
  private untimed: number;

  constructor(times: NmeaTimes, plan: MessagePlan, start: number, from?: OwnState) {
    this.times = times;
    this.filter = new SentenceFilter(plan, from);
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
    }
    if (values === null) return;
    if (!this.filter.isOfSource(sentence, values.readings)) {
      troubles.others += values.readings.length;
      return;
    }
    if (this.times !== "logger" && values.timeOfDay !== null) {
      const time = this.timeOf(values.timeOfDay, values.date);
      if (!Number.isNaN(time)) rows.at(time, line);
    }
    if (values.unknown > 0) {
      troubles.unreadable += values.unknown;
      troubles.note(line, sentence.text, "a force in newtons (type N, unit N) is expected of a load's transducer");
    }
    if (values.readings.length === 0) return;
    if (!rows.timed) {
      this.untimed++;
      troubles.unreadable += values.readings.length;
      if (this.untimed === 1)
        troubles.note(line, sentence.text, "a sentence with the time is expected before the first reading");
      return;
    }
    for (const reading of values.readings) {
      const taken = this.filter.place(reading);
      if (taken === undefined) troubles.others++;
      else if (taken !== null && !rows.add(taken.channel, taken.value, line))
        troubles.standIn(line, String(taken.value));
    }
  }

  state(): OwnState {
    return { date: this.date, timeOfDay: this.last, untimed: this.untimed, ...this.filter.state() };
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
