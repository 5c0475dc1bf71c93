/** How the time column of a log is written, judged from its first cells; a date that may be read two ways is asked. */
import type { Delimiter } from "./cells.ts";
import { guessDateOrder } from "./date-order.ts";
import type { Guessed } from "./dialect.ts";
import { bytesOf } from "./encoding.ts";
import { StampReader } from "./stamp.ts";
import type { StampFormat } from "./stamp-format.ts";
import type { Title } from "./title.ts";
import { shown } from "./troubles.ts";

/** What else of the file may speak for an order of day and month. */
export interface StampHints {
  readonly delimiter: Delimiter;
  readonly decimal: "." | ",";
}

/** A format, and the ones the cells leave open where it is doubted. */
export type FormatGuess = Guessed<StampFormat> & { readonly open?: readonly StampFormat[] };

/** The format most of these cells are written in, or null when they are no stamps. */
export function guessStampFormat(cells: readonly string[], title: Title, hints: StampHints): FormatGuess | null {
  const written = cells.filter((cell) => cell !== "");
  if (written.length === 0) return null;
  // One cell that is none does not spoil a short file.
  const least = Math.max(1, Math.min(written.length * 0.8, written.length - 1));
  const fits = (format: StampFormat) =>
    readAll(written, format, hints.decimal).filter((t) => !Number.isNaN(t)).length >= least;
  if (written.every((cell) => /^\d{8}/.test(cell)) && fits("compact"))
    return { value: "compact", confidence: 0.95, why: "dates in eight digits" };
  const order = guessDateOrder(written, title, hints, least);
  if (order !== null) return order;
  if (written.some((cell) => cell.includes(":"))) return clock(written, title, fits);
  return fits("elapsed-s") ? number(written, title, hints) : null;
}

function readAll(cells: readonly string[], format: StampFormat, decimal: "." | ","): number[] {
  const reader = new StampReader(format, 0, decimal.charCodeAt(0));
  return cells.map((cell) => {
    const bytes = bytesOf(cell);
    return reader.read(bytes, 0, bytes.length);
  });
}

function clock(
  cells: readonly string[],
  title: Title,
  fits: (format: StampFormat) => boolean,
): Guessed<StampFormat> | null {
  const elapsed = /elaps|run|since|dauer|laufzeit|duration/i.test(title.text);
  if (elapsed && fits("elapsed-clock"))
    return { value: "elapsed-clock", confidence: 1, why: `titled "${shown(title.text)}"` };
  if (fits("clock")) {
    const first = new StampReader("clock").read(bytesOf(cells[0]!), 0, cells[0]!.length);
    if (first < 60 && cells[0]!.split(":").length === 3)
      return { value: "elapsed-clock", confidence: 0.7, why: `starts at ${cells[0]}` };
    const short = cells.every((cell) => cell.split(":").length === 2);
    return short
      ? { value: "clock", confidence: 0.6, why: "two fields read as hours and minutes" }
      : { value: "clock", confidence: 0.95, why: "hours, minutes and seconds of a day" };
  }
  return fits("elapsed-clock")
    ? { value: "elapsed-clock", confidence: 0.9, why: "minutes and seconds past those of a day" }
    : null;
}

function number(cells: readonly string[], title: Title, hints: StampHints): Guessed<StampFormat> | null {
  const values = readAll(cells, "elapsed-s", hints.decimal).filter((t) => !Number.isNaN(t));
  const first = values[0]!;
  const unit = title.unit.toLowerCase();
  const within = (low: number, high: number) => values.every((v) => v >= low && v < high);
  // 2001 to 2096, in seconds, milliseconds and microseconds.
  if (within(978307200, 4e9))
    return { value: "epoch-s", confidence: 0.95, why: `${first} s since 1970 is a day of this century` };
  if (within(978307200e3, 4e12))
    return { value: "epoch-ms", confidence: 0.95, why: `${first} ms since 1970 is a day of this century` };
  if (within(978307200e6, 4e15))
    return { value: "epoch-us", confidence: 0.9, why: `${first} µs since 1970 is a day of this century` };
  const dated = /date|datum|stamp|fecha|serial|day/i.test(title.text);
  if (
    within(20000, 80000) &&
    values.some((v) => v % 1 !== 0) &&
    (dated || spansLittle(values)) &&
    !/^(s|sec|ms|min|h)/.test(unit)
  ) {
    return { value: "excel", confidence: dated ? 0.9 : 0.75, why: `${first} is a spreadsheet's day number` };
  }
  if (/^(ms|msec|millisec\w*)$/.test(unit))
    return { value: "elapsed-ms", confidence: 1, why: `unit ${title.unit} in the title` };
  if (/^(µs|us)$/.test(unit)) return { value: "elapsed-us", confidence: 1, why: `unit ${title.unit} in the title` };
  if (/^min/.test(unit)) return { value: "elapsed-min", confidence: 1, why: `unit ${title.unit} in the title` };
  if (/^h/.test(unit)) return { value: "elapsed-h", confidence: 1, why: `unit ${title.unit} in the title` };
  if (/^s/.test(unit)) return { value: "elapsed-s", confidence: 1, why: `unit ${title.unit} in the title` };
  return { value: "elapsed-s", confidence: 0.7, why: "a number without a unit is taken as seconds" };
}

/** A day of readings moves a spreadsheet's day number by less than a few days. */
function spansLittle(values: readonly number[]): boolean {
  return Math.max(...values) - Math.min(...values) < 3 && values.every((v, i) => i === 0 || v >= values[i - 1]! - 1);
}
