import { InputError } from "../../quantity/index.ts";
import { bytesOf } from "../log/encoding.ts";
import {
  type Batch,
  type Channel,
  type ChannelKind,
  type Clock,
  guessLog,
  HEAD_BYTES,
  type LineReader,
  type LogChoices,
  type LogMark,
  NMEA_CHANNELS,
  nmeaReader,
  readGpx,
  signalKReader,
  type TablePlan,
  TableReader,
  type TroubleCount,
} from "../log/index.ts";

/** A log read whole into memory: every channel a column on one clock, NaN where a row has no value. */
export interface LogRows {
  readonly channels: readonly Pick<Channel, "name" | "kind">[];
  readonly clock: Clock;
  readonly time: Float64Array;
  readonly values: readonly Float64Array[];
  readonly marks: readonly LogMark[];
  readonly troubles: TroubleCount;
}

/**
 * Reads a log of any kind the project reads, from its text.
 * @param place the file's name, for errors
 * @param loadPath where the load stands in Signal K deltas
 * @throws InputError when it is no log, or leaves a question open (with the option that answers it)
 */
export function readLogRows(text: string, place: string, told: LogChoices = {}, loadPath?: string): LogRows {
  const bytes = bytesOf(plain(text));
  const guess = guessLog(bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES, told);
  switch (guess.kind) {
    case "table": {
      const asked = guess.questions[0];
      if (guess.plan === null || asked)
        throw new InputError(
          place,
          asked?.question ?? "no plan to read it by",
          `an answer is expected, such as ${asked?.answers[0] ?? "--map"}`,
        );
      return tableRows(bytes, guess.plan);
    }
    case "nmea":
      if (guess.times === null) throw new InputError(place, guess.why, "sentences that carry the time are expected");
      return lineRows(
        bytes,
        nmeaReader(guess.times, { ...(told.start === undefined ? {} : { start: told.start }) }),
        NMEA_CHANNELS,
        guess.clock,
      );
    case "signalk":
      return lineRows(bytes, signalKReader(loadPath === undefined ? {} : { loadPath }), NMEA_CHANNELS, "utc");
    case "gpx": {
      const track = readGpx(text, place);
      return {
        channels: [
          { name: "latitude", kind: "latitude" },
          { name: "longitude", kind: "longitude" },
        ],
        clock: "utc",
        time: track.time,
        values: [track.latitude, track.longitude],
        marks: track.marks,
        troubles: track.troubles,
      };
    }
    case "notATable":
      throw new InputError(place, guess.why, "a log of readings is expected");
    default:
      throw new InputError(place, "a list of marks in a clip", "a log of readings is expected");
  }
}

function tableRows(bytes: Uint8Array, plan: TablePlan): LogRows {
  const reader = new TableReader(plan);
  const batches = batchesOf(bytes, plan.dataOffset, reader);
  return {
    channels: plan.values.map((v) => v.channel),
    clock: plan.time.clock,
    ...joined(batches, plan.values.length),
    troubles: reader.troubles.count(),
  };
}

function lineRows(bytes: Uint8Array, reader: LineReader, kinds: readonly ChannelKind[], clock: Clock): LogRows {
  const all = joined(batchesOf(bytes, 0, reader), kinds.length);
  const full = kinds.map((kind, i) => ({ kind, i })).filter(({ i }) => all.values[i]!.some((v) => !Number.isNaN(v)));
  return {
    channels: full.map(({ kind }) => ({ name: kind, kind })),
    clock,
    time: all.time,
    values: full.map(({ i }) => all.values[i]!),
    marks: all.marks,
    troubles: reader.troubles.count(),
  };
}

interface Reader {
  consume(bytes: Uint8Array, from: number, to: number, final: boolean): number;
  take(): Batch & { readonly marks: readonly LogMark[] };
  readonly stopped: { readonly line: number; readonly why: string } | null;
}

function batchesOf(bytes: Uint8Array, offset: number, reader: Reader): ReturnType<Reader["take"]>[] {
  const batches: ReturnType<Reader["take"]>[] = [];
  for (let from = offset; ; ) {
    const next = reader.consume(bytes, from, bytes.length, true);
    const batch = reader.take();
    batches.push(batch);
    if (reader.stopped !== null || (next === from && batch.rows === 0) || (next >= bytes.length && batch.rows === 0))
      return batches;
    from = next;
  }
}

function joined(
  batches: readonly (Batch & { readonly marks: readonly LogMark[] })[],
  columns: number,
): Pick<LogRows, "time" | "values" | "marks"> {
  const rows = batches.reduce((sum, b) => sum + b.rows, 0);
  const time = new Float64Array(rows);
  const values = Array.from({ length: columns }, () => new Float64Array(rows));
  let at = 0;
  for (const b of batches) {
    time.set(b.time.subarray(0, b.rows), at);
    for (const [k, column] of b.values.entries()) values[k]!.set(column.subarray(0, b.rows), at);
    at += b.rows;
  }
  return { time, values, marks: batches.flatMap((b) => b.marks) };
}

/** Without a byte order mark; UTF-16 that was read as if it were UTF-8 shows as a zero beside every sign. */
function plain(text: string): string {
  const unmarked = text.replace(/^[\ufeff\ufffd]+/, "");
  const head = unmarked.slice(0, 200);
  return head.split("\0").length > head.length / 3 ? unmarked.replaceAll("\0", "") : unmarked;
}
