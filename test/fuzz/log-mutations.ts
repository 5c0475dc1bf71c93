import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { exampleLogs } from "../../scripts/make-log.ts";
import {
  type Ended,
  guessEncoding,
  guessLog,
  HEAD_BYTES,
  narrow,
  nmeaReader,
  type Question,
  readGpx,
  readMarkTable,
  readWebVtt,
  signalKReader,
  TableReader,
  type TroubleCount,
  textOf,
} from "../../src/log/index.ts";
import { InputError } from "../../src/quantity/index.ts";
import { endCauseWords, guessCauseWords, logQuestionWords } from "../../src/words/index.ts";

/** Where the fuzzer's dice fall: the same seed, the same logs. */
export class Dice {
  private readonly random: ReturnType<typeof xoroshiro128plus>;
  constructor(seed: number) {
    this.random = xoroshiro128plus(seed);
  }
  /** A whole number from 0 to below n. */
  below(n: number): number {
    return Math.floor(((this.random.next() >>> 0) / 2 ** 32) * n);
  }
  pick<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }
}

const SENTENCES =
  "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n$WIMWV,214.8,R,0.1,K,A*28\r\n$INDPT,2.3,0.0*46\r\n$HCHDG,98.3,0.0,E,12.6,W*57\r\n";
const DELTAS = `${JSON.stringify({
  context: "vessels.self",
  updates: [
    {
      timestamp: "2024-05-23T10:20:30Z",
      values: [
        { path: "navigation.position", value: { latitude: 12.5, longitude: -45.5 } },
        { path: "environment.wind.speedApparent", value: 5.5 },
      ],
    },
  ],
})}\n`;
const TRACK = `<?xml version="1.0"?><gpx version="1.1"><trk><name>drift</name><trkseg><trkpt lat="12.3" lon="-45.6"><time>2024-05-23T10:20:30Z</time></trkpt><trkpt lat="12.4" lon="-45.7"><time>2024-05-23T10:20:31Z</time></trkpt></trkseg></trk></gpx>`;
const CUES = "WEBVTT\n\n1\n00:00:05.000 --> 00:00:09.500\nfluke bites\n\n01:02.000 --> 01:03.000\nrolls\n";

const text = (words: string) => new TextEncoder().encode(words);
const SEEDS: readonly Uint8Array[] = [
  ...exampleLogs().map(({ bytes }) => bytes),
  text(SENTENCES.repeat(4)),
  text(DELTAS.repeat(4)),
  text(TRACK),
  text(CUES),
  text("time;mark\n0:05;slack\n1:10;drags\n"),
];

// What breaks parsers: marks of every grammar here, numbers past all range, half characters, ends of line.
const BITS = [
  '"',
  '""',
  ",",
  ";",
  "\t",
  "|",
  " ",
  "\r",
  "\n",
  "\r\n",
  "\0",
  "-",
  "+",
  ".",
  "e",
  "1e999",
  "-1e-999",
  "NaN",
  "Infinity",
  "9".repeat(400),
  "0".repeat(400),
  "$",
  "*",
  "!",
  "{",
  "}",
  "[",
  "<",
  ">",
  "&amp;",
  "]]>",
  "<!--",
  '<!DOCTYPE a [<!ENTITY b "c">]>',
  "&b;",
  "-->",
  "\ufeff",
  "é",
  "°",
  "\u2028",
  "2024-02-30",
  "99:99:99",
  "24:00:00",
  "12/12/1212",
  "1900-01-01",
  "0000-00-00",
  "lbf",
  "kN",
  "kg",
  "OL",
  "#",
  "(",
  ")",
  "=",
  ":",
  "µ",
  "ton",
  "%",
  "\\",
  "\\c:1*00\\",
];

/** One log, mutated some way. */
export function mutated(dice: Dice): Uint8Array {
  const kind = dice.below(20);
  if (kind === 0) return Uint8Array.from({ length: dice.below(600) }, () => dice.below(256));
  if (kind === 1) return text(Array.from({ length: dice.below(60) }, () => dice.pick(BITS)).join(""));
  let bytes: Uint8Array = dice.pick(SEEDS).slice();
  for (let changes = 1 + dice.below(6); changes > 0; changes--) bytes = change(bytes, dice);
  return bytes;
}

function change(bytes: Uint8Array, dice: Dice): Uint8Array {
  const at = dice.below(bytes.length + 1);
  const length = Math.min(bytes.length - at, dice.below(40));
  switch (dice.below(7)) {
    case 0: {
      const out = bytes.slice();
      if (at < out.length) out[at] = dice.below(256);
      return out;
    }
    case 1:
      return joined(bytes.subarray(0, at), text(dice.pick(BITS)), bytes.subarray(at));
    case 2:
      return joined(bytes.subarray(0, at), bytes.subarray(at + length));
    case 3:
      return joined(bytes.subarray(0, at), bytes.subarray(at, at + length), bytes.subarray(at));
    case 4:
      return bytes.slice(0, at);
    case 5:
      return joined(bytes.subarray(0, at), dice.pick(SEEDS).subarray(0, dice.below(300)), bytes.subarray(at));
    default: {
      // The same sign for another, throughout.
      const out = bytes.slice();
      const from = out[dice.below(Math.max(1, out.length))] ?? 0;
      const to = dice.pick(BITS).charCodeAt(0) & 0xff;
      for (let i = 0; i < out.length; i++) if (out[i] === from) out[i] = to;
      return out;
    }
  }
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** What a log came to: rows and one line for each trouble, or the one line of its refusal. */
export type Outcome =
  | { readonly kind: "read"; readonly rows: number; readonly lines: readonly string[] }
  | { readonly kind: "asks" | "refused"; readonly lines: readonly string[] };

/** Reads a log from its bytes to its rows, as an import does. Anything but an outcome is thrown. */
export function readFuzzed(bytes: Uint8Array, dice: Dice): Outcome {
  try {
    return read(bytes, dice);
  } catch (error) {
    if (error instanceof InputError) return { kind: "refused", lines: [error.message] };
    throw error;
  }
}

function read(bytes: Uint8Array, dice: Dice): Outcome {
  const guess = guessLog(bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES);
  const { encoding, mark } = guessEncoding(bytes);
  const whole = () => textOf(bytes, mark, bytes.length, encoding);
  switch (guess.kind) {
    case "packed":
      return { kind: "refused", lines: [`${guess.what}; ${guess.expected}`] };
    case "notATable":
      return { kind: "refused", lines: [guess.why] };
    case "gpx": {
      const track = readGpx(whole(), "fuzz.gpx");
      checkNumbers(track.rows, track.time, [track.latitude, track.longitude]);
      return { kind: "read", rows: track.rows, lines: linesOf(track.troubles) };
    }
    case "webvtt": {
      const marks = readWebVtt(whole(), "fuzz.vtt");
      return {
        kind: "read",
        rows: marks.marks.length,
        lines: marks.troubles.map((t) => `line ${t.line}: ${t.value}; ${t.expected}`),
      };
    }
    case "markTable":
      return { kind: "read", rows: readMarkTable(whole())!.marks.length, lines: [] };
    case "nmea":
      return guess.times === null
        ? { kind: "refused", lines: [guessCauseWords(guess.why)] }
        : guess.plan === null
          ? asked(guess.questions)
          : rowsFrom(nmeaReader(guess.times, { capacity: 512, plan: guess.plan }), bytes, 0, dice);
    case "signalk":
      return guess.plan === null
        ? asked(guess.questions)
        : rowsFrom(signalKReader({ capacity: 512, plan: guess.plan }), bytes, 0, dice);
    case "table":
      if (guess.plan === null) return asked(guess.questions);
      return rowsFrom(new TableReader(guess.plan, 512), bytes, guess.plan.dataOffset, dice);
  }
}

function asked(questions: readonly Question[]): Outcome {
  return {
    kind: "asks",
    lines: questions.map(logQuestionWords).map(({ question, answers }) => `${question}; ${answers.join(" or ")}`),
  };
}

interface AnyReader {
  readonly stopped: Ended | null;
  readonly troubles: { count(): TroubleCount };
  consume(bytes: Uint8Array, from: number, to: number, final: boolean): number;
  take(): { readonly rows: number; readonly time: Float64Array; readonly values: readonly Float64Array[] };
}

function rowsFrom(reader: AnyReader, bytes: Uint8Array, offset: number, dice: Dice): Outcome {
  let data = bytes.subarray(offset);
  const { encoding, unit } = guessEncoding(bytes);
  if (unit === 2) {
    const narrowed = new Uint8Array(data.length >> 1);
    narrow(data, 0, data.length, encoding, narrowed);
    data = narrowed;
  }
  let rows = 0;
  let from = 0;
  let to = 0;
  for (let turns = 0; ; turns++) {
    if (turns > data.length * 2 + 100) throw new Error("the reader stands still");
    to = Math.min(data.length, to + 1 + dice.below(400));
    from = reader.consume(data, from, to, to === data.length);
    const batch = reader.take();
    checkNumbers(batch.rows, batch.time, batch.values);
    rows += batch.rows;
    if (reader.stopped !== null || (to === data.length && from === data.length)) break;
  }
  const stopped = reader.stopped === null ? [] : [`line ${reader.stopped.line}: ${endCauseWords(reader.stopped.why)}`];
  return { kind: "read", rows, lines: [...linesOf(reader.troubles.count()), ...stopped] };
}

/** The book takes finite times and readings that are numbers or none. */
function checkNumbers(rows: number, time: Float64Array, values: readonly Float64Array[]): void {
  for (let i = 0; i < rows; i++) {
    if (!Number.isFinite(time[i])) throw new Error(`row ${i} has the time ${time[i]}`);
    for (const column of values)
      if (Math.abs(column[i]!) === Number.POSITIVE_INFINITY) throw new Error(`row ${i} holds ${column[i]}`);
  }
}

function linesOf(troubles: TroubleCount): string[] {
  return troubles.first.map(({ line, value, expected }) => `line ${line}: ${value}; ${expected}`);
}

/** Reads `count` mutated logs from a seed on; throws with the log that broke a promise. */
export function fuzzLogs(seed: number, count: number): Record<Outcome["kind"], number> & { readonly rows: number } {
  const totals = { read: 0, asks: 0, refused: 0, rows: 0 };
  for (let i = 0; i < count; i++) {
    const dice = new Dice(seed + i);
    const bytes = mutated(dice);
    try {
      const outcome = readFuzzed(bytes, dice);
      totals[outcome.kind]++;
      if (outcome.kind === "read") totals.rows += outcome.rows;
      else if (outcome.lines.length === 0) throw new Error("refused without a word");
      for (const line of outcome.lines) {
        if (/[\r\n\u2028\u2029]/.test(line) || line.trim() === "" || line.length > 600)
          throw new Error(`no clear line: ${JSON.stringify(line)}`);
        if (/undefined|\[object|NaN is|TypeError/.test(line))
          throw new Error(`a line of the program's own: ${JSON.stringify(line)}`);
      }
    } catch (error) {
      throw new Error(
        `log ${seed + i}: ${error instanceof Error ? error.message : error}\n${JSON.stringify(Buffer.from(bytes).toString("latin1").slice(0, 2000))}`,
        { cause: error },
      );
    }
  }
  return totals;
}
