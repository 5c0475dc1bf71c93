/**
 * Lines of one instrument read one at a time as they come: readings as text, NMEA 0183 sentences or Signal K deltas. Their
 * time is when they came, whatever stamps they carry.
 */
import { InputError } from "../quantity/index.ts";
import type { EndCause } from "./cause.ts";
import type { Channel } from "./channel.ts";
import type { LogChoices } from "./choices.ts";
import { bytesOf } from "./encoding.ts";
import { guessLog, type LogGuess } from "./kind.ts";
import type { MessagePlan } from "./message-plan.ts";
import { readSentence } from "./nmea-sentence.ts";
import { SentenceFilter } from "./nmea-sources.ts";
import { sentenceValues } from "./nmea-values.ts";
import type { TablePlan } from "./plan.ts";
import { DeltaFilter, deltaReadings } from "./signalk.ts";
import { TableReader } from "./table.ts";
import type { TableGuess } from "./table-guess.ts";
import { shown } from "./troubles.ts";

/** A line understood: the readings of each channel (NaN: none); or nothing in it to keep; or what was expected, or why reading ends. */
export type LiveLine =
  | { readonly kind: "reading"; readonly values: Float64Array }
  | { readonly kind: "nothing" }
  | { readonly kind: "trouble"; readonly value: string; readonly expected: string }
  | { readonly kind: "ended"; readonly value: string; readonly why: EndCause };

/** How the lines of an instrument are read: enough to read them alike after a break. */
export type LivePlan =
  | { readonly kind: "nmea" | "signalk"; readonly messages: MessagePlan }
  | { readonly kind: "table"; readonly table: TablePlan };

/** What the first lines of an instrument were judged to be, or what must be asked. */
export type LiveGuess =
  | { readonly kind: "lines"; readonly plan: LivePlan; readonly guess: LogGuess }
  | { readonly kind: "asks"; readonly guess: LogGuess };

/**
 * Judges an instrument by its first lines.
 * @throws InputError when they are no readings
 */
export function guessLive(first: readonly string[], told: LogChoices, source: string): LiveGuess {
  const head = utf8(`${first.join("\n")}\n`);
  // Rows need no rate here: each has the time it came.
  const guess = guessLog(head, true, { rate: 1, ...told });
  if (guess.kind === "nmea" || guess.kind === "signalk") {
    if (guess.plan === null) return { kind: "asks", guess };
    return { kind: "lines", plan: { kind: guess.kind, messages: guess.plan }, guess };
  }
  if (guess.kind === "table") {
    const table = tableOf(guess);
    return table === null ? { kind: "asks", guess } : { kind: "lines", plan: { kind: "table", table }, guess };
  }
  throw new InputError(
    source,
    shown(first.find((line) => line.trim() !== "") ?? "nothing"),
    "lines with readings, NMEA 0183 sentences or Signal K deltas are expected",
  );
}

function tableOf({ plan }: TableGuess): TablePlan | null {
  if (plan === null) return null;
  return {
    ...plan,
    time: { column: -1, format: "count", date: null, clock: "utc", zone: 0, start: 0, rate: 1 },
    dataLine: 1,
  };
}

/** What the lines of a plan hold, in the order of a line's values. */
export function liveChannels(plan: LivePlan): readonly Channel[] {
  return plan.kind === "table" ? plan.table.values.map(({ channel }) => channel) : plan.messages.channels;
}

/** A reader of lines by their plan. */
export function liveLines(plan: LivePlan): (line: string) => LiveLine {
  if (plan.kind === "table") return tableLines(plan.table);
  return plan.kind === "nmea" ? sentenceLines(plan.messages) : deltaLines(plan.messages);
}

function tableLines(plan: TablePlan): (line: string) => LiveLine {
  const reader = new TableReader(plan, 16);
  return (line) => {
    const before = reader.troubles.rejected;
    const bytes = utf8(`${line}\n`);
    reader.consume(bytes, 0, bytes.length, true);
    const batch = reader.take();
    if (reader.stopped !== null) return { kind: "ended", value: shown(line), why: reader.stopped.why };
    if (batch.rows > 0) return { kind: "reading", values: Float64Array.from(batch.values, (column) => column[0]!) };
    if (reader.troubles.rejected === before) return { kind: "nothing" };
    return {
      kind: "trouble",
      value: shown(line),
      expected: reader.troubles.first.at(-1)?.expected ?? "a reading is expected",
    };
  };
}

function sentenceLines(plan: MessagePlan): (line: string) => LiveLine {
  const filter = new SentenceFilter(plan);
  return (line) => {
    const sentence = readSentence(line);
    if (sentence === null)
      return line.trim() === ""
        ? { kind: "nothing" }
        : { kind: "trouble", value: shown(line), expected: "a sentence that begins with $ or ! is expected" };
    if (sentence.kind === "bad") return { kind: "trouble", value: shown(line), expected: sentence.expected };
    const readings = sentenceValues(sentence)?.readings ?? [];
    if (!filter.isOfSource(sentence, readings)) return { kind: "nothing" };
    return valuesOf(
      readings.flatMap((reading) => filter.place(reading) ?? []),
      plan,
    );
  };
}

function deltaLines(plan: MessagePlan): (line: string) => LiveLine {
  const filter = new DeltaFilter(plan);
  return (line) => {
    const readings = deltaReadings(line, filter);
    return typeof readings === "string"
      ? { kind: "trouble", value: shown(line), expected: readings }
      : valuesOf(readings, plan);
  };
}

function valuesOf(readings: readonly { channel: string; value: number }[], { channels }: MessagePlan): LiveLine {
  if (readings.length === 0) return { kind: "nothing" };
  const values = new Float64Array(channels.length).fill(Number.NaN);
  for (const { channel, value } of readings) {
    const k = channels.findIndex(({ name }) => name === channel);
    if (k >= 0 && Math.abs(value) < 1e12) values[k] = value;
  }
  return { kind: "reading", values };
}

/** Text as UTF-8; half of a sign that was cut in two becomes a question mark. */
function utf8(text: string): Uint8Array {
  const whole = text.replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "?");
  return bytesOf(
    encodeURIComponent(whole).replace(/%([0-9A-F]{2})/g, (_, hex) => String.fromCharCode(Number.parseInt(hex, 16))),
  );
}
