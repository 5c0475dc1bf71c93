import {
  DeltaFilter,
  deltaReadings,
  guessLog,
  type LogChoices,
  type LogGuess,
  type MessagePlan,
  readSentence,
  SentenceFilter,
  sentenceValues,
  shown,
  type TablePlan,
  TableReader,
} from "../../log/index.ts";
import { InputError } from "../../quantity/index.ts";
import { choicesOf, type LogMapping, MAPPING_FORMAT } from "./log-mapping.ts";
import { channelsFor } from "./rows-reader.ts";

/** A line understood: the readings of each channel (NaN: none); or nothing in it to keep; or what was expected. */
export type LiveLine =
  | { readonly kind: "reading"; readonly values: Float64Array }
  | { readonly kind: "nothing" }
  | { readonly kind: "trouble"; readonly value: string; readonly expected: string };

/** Reads the lines of one instrument, one at a time. Their time is when they came, whatever stamps they carry. */
export interface LiveLines {
  readonly mapping: LogMapping;
  read(line: string): LiveLine;
}

export type LiveGuess =
  | { readonly kind: "lines"; readonly lines: LiveLines }
  | { readonly kind: "asks"; readonly guess: LogGuess };

/**
 * Judges an instrument by its first lines.
 * @throws InputError when they are no readings
 */
export function guessLive(first: readonly string[], told: LogChoices, source: string): LiveGuess {
  const head = new TextEncoder().encode(`${first.join("\n")}\n`);
  // Rows need no rate here: each has the time it came.
  const guess = guessLog(head, true, { rate: 1, ...told });
  const mapping = { format: MAPPING_FORMAT, kind: "live", signature: `live ${source}`, clock: "utc" } as const;
  if (guess.kind === "nmea" || guess.kind === "signalk") {
    const { plan } = guess;
    if (plan === null) return { kind: "asks", guess };
    const read = guess.kind === "nmea" ? sentenceLines(plan) : deltaLines(plan);
    return { kind: "lines", lines: { mapping: { ...mapping, messages: plan }, read } };
  }
  if (guess.kind === "table") {
    if (guess.plan === null) return { kind: "asks", guess };
    const plan: TablePlan = {
      ...guess.plan,
      time: { column: -1, format: "count", date: null, clock: "utc", zone: 0, start: 0, rate: 1 },
      dataLine: 1,
    };
    return { kind: "lines", lines: tableLines({ ...mapping, plan, columns: choicesOf(guess) }, plan) };
  }
  throw new InputError(
    source,
    shown(first.find((line) => line.trim() !== "") ?? "nothing"),
    "lines with readings, NMEA 0183 sentences or Signal K deltas are expected",
  );
}

function tableLines(mapping: LogMapping, plan: TablePlan): LiveLines {
  const reader = new TableReader(plan, 16);
  return {
    mapping,
    read(line) {
      const before = reader.troubles.rejected;
      const bytes = new TextEncoder().encode(`${line}\n`);
      reader.consume(bytes, 0, bytes.length, true);
      const batch = reader.take();
      if (reader.stopped !== null) return { kind: "trouble", value: shown(line), expected: reader.stopped.why };
      if (batch.rows > 0) return { kind: "reading", values: Float64Array.from(batch.values, (column) => column[0]!) };
      if (reader.troubles.rejected === before) return { kind: "nothing" };
      return {
        kind: "trouble",
        value: shown(line),
        expected: reader.troubles.first.at(-1)?.expected ?? "a reading is expected",
      };
    },
  };
}

function sentenceLines(plan: MessagePlan): LiveLines["read"] {
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

function deltaLines(plan: MessagePlan): LiveLines["read"] {
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

/** Names of the channels, in the order of a line's values. */
export function liveChannels(lines: LiveLines) {
  return channelsFor(lines.mapping);
}
