/** What sort of log a file is, told by what stands in it, whatever it is called. */
import type { LogChoices } from "./choices.ts";
import { guessEncoding, textOf } from "./encoding.ts";
import { guessTable } from "./guess.ts";
import { guessNmea, type NmeaGuess } from "./nmea.ts";
import { type Packed, packedAs } from "./packed.ts";
import { guessSignalK, type SignalKGuess } from "./signalk.ts";
import type { NotATable, TableGuess } from "./table-guess.ts";
import { readMarkTable } from "./time-marks.ts";

/** What sort of log a file is, as its beginning tells. */
export type LogGuess =
  | TableGuess
  | NmeaGuess
  | SignalKGuess
  | { readonly kind: "gpx" }
  | { readonly kind: "webvtt" }
  | { readonly kind: "markTable" }
  | Packed
  | NotATable;

/**
 * Judges a file by its head (see HEAD_BYTES).
 * @param whole true when `head` is all of the file
 * @throws InputError when a told column is not there.
 */
export function guessLog(head: Uint8Array, whole: boolean, told: LogChoices = {}): LogGuess {
  const packed = packedAs(head);
  if (packed !== null) return packed;
  const { encoding, mark } = guessEncoding(head);
  const text = textOf(head, mark, head.length, encoding);
  const start = text.slice(0, 400).trimStart();
  if (/^<(\?xml|gpx|!--|!DOCTYPE)/i.test(start)) return { kind: "gpx" };
  if (/^WEBVTT(\s|$)/.test(start)) return { kind: "webvtt" };
  const nmea = guessNmea(text, told);
  if (nmea !== null) return nmea;
  const signalk = /\{/.test(start) ? guessSignalK(text, told) : null;
  if (signalk !== null) return signalk;
  if (whole && (told.columns ?? []).length === 0 && readMarkTable(text) !== null) return { kind: "markTable" };
  return guessTable(head, whole, told);
}
