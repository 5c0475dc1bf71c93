/** In which order a date's year, month and day stand, proven by its cells or asked. */
import type { DateOrder } from "./cause.ts";
import type { Delimiter } from "./cells.ts";
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

/** An order, and the orders the cells leave open where it is doubted. */
export type OrderGuess = Guessed<DateOrder> & { readonly open?: readonly DateOrder[] };

const DAY = 86400;

/**
 * Judges the order of dates that can be read in each of `candidates`.
 * @param least how many of the cells must be dates in an order for it to be one
 */
export function guessDateOrder(
  cells: readonly string[],
  title: Title,
  hints: StampHints,
  least: number,
): OrderGuess | null {
  if (cells.filter((cell) => /^\d{4}\D/.test(cell)).length >= least && readable(cells, "ymd") >= least)
    return { value: "ymd", confidence: 1, why: { kind: "yearFirst" } };
  const open = (["dmy", "mdy", "ymd"] as const).filter((order) => readable(cells, order) >= least);
  const only = open[0];
  if (only === undefined) return null;
  if (open.length === 1) {
    if (only === "ymd") return { value: only, confidence: 1, why: { kind: "onlyYearFirst" } };
    const other = only === "dmy" ? "mdy" : "dmy";
    const cell = shown(unreadable(cells, other));
    return { value: only, confidence: 1, why: { kind: "noMonthPast12", order: only, cell } };
  }
  if (cells.some((cell) => /[a-z]{3}/i.test(cell.replace(/utc|gmt/gi, "")))) {
    const value = /^\d/.test(cells[0]!) ? "dmy" : "mdy";
    return { value, confidence: open.includes("ymd") ? 0.9 : 1, why: { kind: "monthsInLetters" } };
  }
  const said = /([dmy])\1*[-/. ]([dmy])\2*[-/. ]([dmy])\3*/i.exec(title.text);
  const told =
    said === null ? undefined : open.find((order) => order === `${said[1]}${said[2]}${said[3]}`.toLowerCase());
  if (told !== undefined)
    return { value: told, confidence: 1, why: { kind: "titleTellsOrder", title: shown(title.text) } };
  // Over a midnight one reading steps a day and the others a month or a year.
  const short = open.filter((order) => span(cells, order) < 20 * DAY);
  if (short.length === 1 && open.every((order) => order === short[0] || span(cells, order) > 25 * DAY))
    return {
      value: short[0]!,
      confidence: 0.95,
      why: { kind: "midnightStepsADay", order: short[0]! },
    };
  // Habits of writing speak for the day against the month; a year of two digits may stand at either end.
  if (/^\d+\.\d+\./.test(cells[0]!) && open.includes("dmy"))
    return { value: "dmy", confidence: 0.9, why: { kind: "pointsDayFirst" } };
  if (!open.includes("ymd")) {
    // am and pm are written where the month stands first.
    if ((hints.decimal === "," || hints.delimiter === ";") && !cells.some((cell) => /[ap]\.?m\.?$/i.test(cell)))
      return { value: "dmy", confidence: 0.8, why: { kind: "writtenDayFirst" } };
  }
  return {
    value: cells.some((cell) => /[ap]m$/i.test(cell)) ? "mdy" : "dmy",
    confidence: 0.5,
    why: { kind: "severalOrders", cell: shown(cells[0]!), orders: open },
    open,
  };
}

function times(cells: readonly string[], order: StampFormat): number[] {
  // Zones of several meanings are asked elsewhere; they are no reason to doubt a date.
  const reader = new StampReader(order, 0, 46, 0);
  return cells.map((cell) => reader.read(bytesOf(cell), 0, cell.length)).filter((t) => !Number.isNaN(t));
}

function readable(cells: readonly string[], order: StampFormat): number {
  return times(cells, order).length;
}

function unreadable(cells: readonly string[], order: StampFormat): string {
  return cells.find((cell) => times([cell], order).length === 0) ?? cells[0]!;
}

function span(cells: readonly string[], order: StampFormat): number {
  const read = times(cells, order);
  return Math.max(...read) - Math.min(...read);
}
