/** How the time column of a log is written, judged from its first cells; a date that may be read two ways is asked. */
import { lookOf } from "./cells.ts";
import { guessDateOrder, type StampHints } from "./date-order.ts";
import type { Guessed } from "./dialect.ts";
import { bytesOf } from "./encoding.ts";
import { StampReader } from "./stamp.ts";
import type { StampFormat } from "./stamp-format.ts";
import type { Title } from "./title.ts";
import { shown } from "./troubles.ts";

/** A format, and the ones the cells leave open where it is doubted. */
export type FormatGuess = Guessed<StampFormat> & { readonly open?: readonly StampFormat[] };

/** The format most of these cells are written in, or null when they are no stamps. */
export function guessStampFormat(cells: readonly string[], title: Title, hints: StampHints): FormatGuess | null {
  const written = cells.filter((cell) => cell !== "");
  // Words at the end are a footer's.
  while (written.length > 0 && lookOf(written.at(-1)!) === "text") written.pop();
  if (written.length === 0) return null;
  // One cell that is none does not spoil a short file.
  const least = Math.max(1, Math.min(written.length * 0.8, written.length - 1));
  const fits = (format: StampFormat) =>
    readAll(written, format, hints.decimal).filter((t) => !Number.isNaN(t)).length >= least;
  // A header met again is no stamp.
  if (written.every((cell) => /^\d{8}/.test(cell) || lookOf(cell) === "text") && fits("compact"))
    return { value: "compact", confidence: 0.95, why: { kind: "eightDigits" } };
  const order = guessDateOrder(written, title, hints, least);
  if (order !== null) return order;
  if (written.some((cell) => cell.includes(":"))) return clock(written, title, fits);
  return fits("elapsed-s") ? number(written, title, hints) : null;
}

function readAll(cells: readonly string[], format: StampFormat, decimal: "." | ","): number[] {
  // Zones of several meanings are asked; here they only must not hide what the cells are.
  const reader = new StampReader(format, 0, decimal.charCodeAt(0), 0);
  return cells.map((cell) => {
    const bytes = bytesOf(cell);
    return reader.read(bytes, 0, bytes.length);
  });
}

function clock(cells: readonly string[], title: Title, fits: (format: StampFormat) => boolean): FormatGuess | null {
  const elapsed = /elaps|run|since|dauer|laufzeit|duration/i.test(title.text);
  const said = /\b(hh?:mm(:ss)?|mm:ss|m:ss)\b/i.exec(title.text)?.[1]?.toLowerCase();
  if ((elapsed || said === "mm:ss" || said === "m:ss") && fits("elapsed-clock"))
    return { value: "elapsed-clock", confidence: 1, why: { kind: "titled", title: shown(title.text) } };
  if (fits("clock")) {
    const first = new StampReader("clock").read(bytesOf(cells[0]!), 0, cells[0]!.length);
    if (first < 60 && cells[0]!.split(":").length === 3)
      return { value: "elapsed-clock", confidence: 0.7, why: { kind: "startsAt", cell: cells[0]! } };
    const short = cells.every((cell) => !/^\d/.test(cell) || /^\d+:\d+$/.test(cell));
    if (!short || said === "hh:mm" || said === "h:mm")
      return { value: "clock", confidence: 0.95, why: { kind: "timeOfDay" } };
    const early = first < 300;
    return {
      value: early ? "elapsed-clock" : "clock",
      confidence: 0.5,
      why: { kind: "minutesOrHours", cell: cells[0]!, early },
      open: early ? ["elapsed-clock", "clock"] : ["clock", "elapsed-clock"],
    };
  }
  return fits("elapsed-clock") ? { value: "elapsed-clock", confidence: 0.9, why: { kind: "pastTimeOfDay" } } : null;
}

function number(cells: readonly string[], title: Title, hints: StampHints): FormatGuess | null {
  const values = readAll(cells, "elapsed-s", hints.decimal).filter((t) => !Number.isNaN(t));
  const first = values[0]!;
  const unit = title.unit.toLowerCase();
  const within = (low: number, high: number) => values.every((v) => v >= low && v < high);
  // 2001 to 2096, in seconds, milliseconds and microseconds.
  if (within(978307200, 4e9))
    return { value: "epoch-s", confidence: 0.95, why: { kind: "sinceEpoch", value: first, unit: "s" } };
  if (within(978307200e3, 4e12))
    return { value: "epoch-ms", confidence: 0.95, why: { kind: "sinceEpoch", value: first, unit: "ms" } };
  if (within(978307200e6, 4e15))
    return { value: "epoch-us", confidence: 0.9, why: { kind: "sinceEpoch", value: first, unit: "µs" } };
  const stated = statedUnit(unit);
  const dated = /date|datum|stamp|fecha|serial|day/i.test(title.text);
  // 2000 to 2050; a second is 1.2e-5 of a day, so fewer than five digits cannot part the rows.
  if (within(36526, 54789) && stated === null && spansLittle(values)) {
    const digits = Math.max(...cells.map((cell) => cell.split(/[.,]/)[1]?.length ?? 0));
    const step = stepOf(values);
    if (digits >= 5 && step < 0.01)
      return { value: "excel", confidence: dated ? 0.9 : 0.8, why: { kind: "dayNumber", value: first } };
    if (values.some((v) => v % 1 !== 0) && (dated || step > 0.0005))
      return {
        value: dated ? "excel" : "elapsed-s",
        confidence: 0.5,
        why: { kind: "dayNumberOrSeconds", value: first, dated },
        open: dated ? ["excel", "elapsed-s"] : ["elapsed-s", "excel"],
      };
  }
  if (stated !== null) return { value: stated, confidence: 1, why: { kind: "unitInTitle", unit: title.unit } };
  return withoutUnit(cells, values);
}

/** The count a unit of time names. */
function statedUnit(unit: string): StampFormat | null {
  if (/^(ms|msec|milli\w*)$/.test(unit)) return "elapsed-ms";
  if (/^(µs|us|micro\w*)$/.test(unit)) return "elapsed-us";
  if (/^min/.test(unit)) return "elapsed-min";
  if (/^h(r|rs|ours?)?$/.test(unit)) return "elapsed-h";
  return /^s(ecs?|econds?)?$/.test(unit) ? "elapsed-s" : null;
}

/** A number without a unit: seconds where it is written like seconds, asked where it may as well be something else. */
function withoutUnit(cells: readonly string[], values: readonly number[]): FormatGuess {
  const step = stepOf(values);
  const whole = values.every((v) => v % 1 === 0);
  const even = values.every((v, i) => i === 0 || v - values[i - 1]! === step);
  const ask = (open: readonly StampFormat[], guess: "seconds" | "milliseconds" | "minutes"): FormatGuess => ({
    value: open[0]!,
    confidence: 0.5,
    why: { kind: "severalTimeUnits", cell: cells[0]!, step, guess },
    open,
  });
  if (whole && step === 1 && even) return ask(["elapsed-s", "count", "elapsed-min"], "seconds");
  if (whole && step >= 5) return ask(["elapsed-ms", "elapsed-s"], "milliseconds");
  if (!whole && (step < 0.001 || step > 60 || isNear(step, 1 / 60) || isNear(step, 1 / 120)))
    return ask(["elapsed-min", "elapsed-s", "elapsed-h"], "minutes");
  return { value: "elapsed-s", confidence: 0.7, why: { kind: "secondsWithoutUnit" } };
}

const isNear = (a: number, b: number): boolean => Math.abs(a - b) < 0.02 * b;

/** The usual step that is not zero. */
function stepOf(values: readonly number[]): number {
  const steps = values
    .slice(1)
    .map((v, i) => v - values[i]!)
    .filter((step) => step > 0)
    .sort((a, b) => a - b);
  return steps[steps.length >> 1] ?? 0;
}

/** A day of readings moves a spreadsheet's day number by less than a few days. */
function spansLittle(values: readonly number[]): boolean {
  return Math.max(...values) - Math.min(...values) < 3 && values.every((v, i) => i === 0 || v >= values[i - 1]! - 1);
}
