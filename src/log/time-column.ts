/** Which column holds the time of a table, how it is written, and how its stamps step. */
import { InputError, quoted } from "../quantity/index.ts";
import type { GrantedCause } from "./cause.ts";
import type { Delimiter } from "./cells.ts";
import type { Clock } from "./channel.ts";
import { isStampFormat, type LogChoices } from "./choices.ts";
import { columnOf } from "./column-name.ts";
import { bytesOf } from "./encoding.ts";
import type { TimeColumn } from "./plan.ts";
import type { PreambleHints } from "./preamble.ts";
import { StampReader } from "./stamp.ts";
import type { StampFormat } from "./stamp-format.ts";
import { type FormatGuess, guessStampFormat } from "./stamp-guess.ts";
import type { ColumnGuess, Question } from "./table-guess.ts";
import { speaksFor, type Title } from "./title.ts";
import { shown } from "./troubles.ts";
import { vagueZone, zoneIn } from "./zone-name.ts";

export type Found = Pick<ColumnGuess, "as" | "unit" | "confidence" | "why">;

export interface TimeChoice {
  readonly plan: TimeColumn | null;
  readonly columns: ReadonlyMap<number, Found>;
}

export interface TableHints {
  readonly delimiter: Delimiter;
  readonly decimal: "." | ",";
  readonly hints: PreambleHints;
  readonly told: LogChoices;
  readonly headed: boolean;
}

interface Candidate {
  readonly column: number;
  readonly format: FormatGuess;
  /** How well title and format speak for a time. */
  readonly rank: number;
}

/** Chooses the time column, or the pair of a date and a clock; asks what the file does not tell. */
export function chooseTime(
  rows: readonly (readonly string[])[],
  titles: readonly Title[],
  file: TableHints,
  questions: Question[],
  remarks: GrantedCause[],
): TimeChoice {
  const { told } = file;
  const columns = new Map<number, Found>();
  const cells = (column: number) => rows.map((row) => row[column] ?? "");
  const contradicted = (told.columns ?? []).some(
    ({ remembered, role, column, as }) =>
      remembered === true &&
      (role === "time" || role === "date") &&
      as !== undefined &&
      isStampFormat(as) &&
      !fits(as, cells(columnOf(column, titles)), file),
  );
  const toldFor = (role: "time" | "date") =>
    told.columns?.find((choice) => choice.role === role && !(contradicted && choice.remembered === true));
  const toldTime = toldFor("time");
  const toldDate = toldFor("date");
  const taken = new Set(
    (told.columns ?? []).filter((c) => c.role !== "time" && c.role !== "date").map((c) => columnOf(c.column, titles)),
  );
  const candidates: Candidate[] = [];
  for (let column = 0; column < titles.length; column++) {
    if (taken.has(column)) continue;
    let format = guessStampFormat(cells(column), titles[column]!, file);
    if (format === null) continue;
    const speaks = speaksFor(titles[column]!);
    if (speaks.for === "count" && format.value === "elapsed-s")
      format = { value: "count", confidence: speaks.confidence, why: speaks.why };
    const rank = rankOf(format, titles[column]!, cells(column), file, titles.length > 1);
    if (rank > 0) candidates.push({ column, format, rank });
  }
  candidates.sort((a, b) => b.rank - a.rank || a.column - b.column);

  let date: { column: number; format: FormatGuess } | null = null;
  let chosen: { column: number; format: FormatGuess } | undefined = candidates[0];
  if (toldTime) {
    const column = columnOf(toldTime.column, titles);
    chosen = { column, format: toldFormat(toldTime.as, cells(column), titles[column]!, file) };
  } else if (chosen && isDated(chosen.format.value) && !cells(chosen.column).some((cell) => cell.includes(":"))) {
    // A date without a clock time: the clock stands in another column.
    const clock = candidates.find(
      (candidate) => candidate.format.value === "clock" || candidate.format.value === "elapsed-clock",
    );
    if (clock) {
      date = chosen;
      chosen = { column: clock.column, format: { ...clock.format, value: "clock" } };
    } else if (chosen.format.value !== "compact") {
      chosen = candidates.find((candidate) => !isDated(candidate.format.value)) ?? chosen;
    }
  }
  if (toldDate) {
    const column = columnOf(toldDate.column, titles);
    date = { column, format: toldFormat(toldDate.as, cells(column), titles[column]!, file) };
  } else if (toldTime && date === null && chosen?.format.value === "clock") {
    date =
      candidates.find(
        (c) =>
          c.column !== chosen!.column && isDated(c.format.value) && !cells(c.column).some((cell) => cell.includes(":")),
      ) ?? null;
  }
  for (const candidate of candidates) {
    columns.set(candidate.column, {
      as: "not taken",
      unit: candidate.format.value,
      confidence: 0.8,
      why: { kind: "secondTime" },
    });
  }

  if (chosen === undefined || (chosen.format.value === "count" && chosen.format.confidence < 1)) {
    const rate = told.rate ?? file.hints.rate?.hertz;
    if (rate === undefined) {
      questions.push({
        about: "time",
        question: { kind: "noTimes" },
        answers: ["--rate 10", "--map time=COLUMN:FORMAT"],
      });
      if (chosen) columns.set(chosen.column, { as: "time", unit: "count", confidence: 0.5, why: chosen.format.why });
      return { plan: null, columns };
    }
    const column = chosen?.column ?? -1;
    if (column >= 0)
      columns.set(column, {
        as: "time",
        unit: "count",
        confidence: 0.8,
        why: { kind: "counted", why: chosen!.format.why, rate },
      });
    return {
      plan: {
        column,
        format: "count",
        date: null,
        clock: told.start === undefined ? "elapsed" : "utc",
        zone: 0,
        start: told.start ?? 0,
        rate,
      },
      columns,
    };
  }

  for (const { column, format } of date === null ? [chosen] : [date, chosen]) {
    const { open } = format;
    columns.set(column, {
      as: date !== null && column === date.column ? "date" : "time",
      unit: format.value,
      confidence: format.confidence,
      why: format.why,
    });
    if (format.confidence < 0.6) {
      const role = date !== null && column === date.column ? "date" : "time";
      questions.push({
        about: isDated(format.value) ? "day and month" : "time",
        question: { kind: "stampFormat", why: format.why },
        answers: (open ?? [format.value]).map((order) => `--map ${role}=${column + 1}:${order}`),
      });
    } else if (format.confidence < 0.95 && format.value !== "count") remarks.push({ kind: "times", why: format.why });
    const vague = cells(column)
      .map(vagueZone)
      .find((name) => name !== "");
    if (vague !== undefined && told.zone === undefined)
      questions.push({
        about: "zone",
        question: { kind: "severalZones", zone: vague, cell: shown(cells(column)[0] ?? "") },
        answers: ["--zone -06:00", "--zone +01:00"],
      });
  }
  return { plan: planOf(chosen, date, cells, titles, file), columns };
}

function planOf(
  chosen: { column: number; format: FormatGuess },
  date: { column: number; format: FormatGuess } | null,
  cells: (column: number) => string[],
  titles: readonly Title[],
  { told, hints, decimal }: TableHints,
): TimeColumn {
  const format = chosen.format.value;
  const dated = date !== null || isDated(format) || format === "excel";
  const title = `${titles[chosen.column]?.text ?? ""} ${date === null ? "" : (titles[date.column]?.text ?? "")}`;
  const zoned = cells(chosen.column).some((cell) => readStamp(cell, format, decimal).zoned);
  const stated = told.zone ?? zoneIn(title) ?? hints.zone?.seconds;
  const saysUtc = stated !== undefined;
  const named = cells(chosen.column).some((cell) => vagueZone(cell) !== "") ? told.zone : undefined;
  const counted = format.startsWith("elapsed") || format === "count";
  // A day told with a zone is in that zone already; one read off the file begins with the midnight of its own.
  const midnight = format === "clock" && date === null ? (stated ?? 0) : 0;
  const start =
    told.start !== undefined
      ? told.start - (told.zone === undefined ? midnight : 0)
      : format === "clock" && date === null && hints.start !== undefined
        ? Math.floor(hints.start.seconds / 86400) * 86400 - midnight
        : undefined;
  let clock: Clock;
  if (format.startsWith("epoch") || (dated && (zoned || saysUtc))) clock = "utc";
  else if (dated) clock = "local";
  else if (counted) clock = told.start === undefined ? "elapsed" : "utc";
  else clock = start === undefined ? "clock" : saysUtc ? "utc" : "local";
  return {
    column: chosen.column,
    format,
    date: date === null ? null : { column: date.column, format: date.format.value },
    clock,
    zone: zoned && date !== null ? 0 : (stated ?? 0),
    ...(named === undefined ? {} : { named }),
    start: dated ? 0 : (start ?? 0),
    rate: told.rate ?? hints.rate?.hertz ?? 1,
  };
}

function rankOf(
  format: FormatGuess,
  title: Title,
  cells: readonly string[],
  file: TableHints,
  beside: boolean,
): number {
  const speaks = speaksFor(title).for;
  const spoken = speaks === "time" || speaks === "date" ? 2 : speaks === "other" || speaks === "count" ? 0 : -3;
  if (isDated(format.value)) return 10 + spoken;
  if (format.value === "clock" || format.value === "elapsed-clock") return 8 + spoken;
  if (format.value.startsWith("epoch") && spoken >= 0) return 9 + spoken;
  if (speaks === "time" || speaks === "date") return 6 + (format.value === "excel" ? 1 : 0);
  if (format.value === "excel" && speaks === "other") return 4;
  if (speaks === "count") return 2;
  // Without a header, numbers that never fall are taken for a time where others stand beside them.
  return beside && !file.headed && title.unit === "" && rises(cells, file.decimal) ? 3 : 0;
}

function rises(cells: readonly string[], decimal: "." | ","): boolean {
  const values = cells.map((cell) => readStamp(cell, "elapsed-s", decimal).seconds).filter((v) => !Number.isNaN(v));
  return (
    values.length > 2 &&
    values.length >= cells.length * 0.8 &&
    values.every((v, i) => i === 0 || v >= values[i - 1]!) &&
    values.at(-1)! > values[0]!
  );
}

function toldFormat(as: string | undefined, cells: readonly string[], title: Title, file: TableHints): FormatGuess {
  if (as !== undefined && isStampFormat(as)) {
    if (fits(as, cells, file)) return { value: as, confidence: 1, why: { kind: "told" } };
    throw new InputError(
      "--map time",
      `column ${quoted(title.text)} holds ${quoted(cells[0] ?? "")}`,
      `times as ${as} are expected there`,
    );
  }
  const guessed = guessStampFormat(cells, title, file);
  if (guessed === null)
    throw new InputError(
      "--map time",
      `column ${quoted(title.text)} holds ${quoted(cells[0] ?? "")}`,
      "a column of times is expected, or its format told, such as --map time=1:dmy",
    );
  return guessed;
}

/** True when most cells that hold something are stamps of that format. */
function fits(format: StampFormat, cells: readonly string[], file: TableHints): boolean {
  const written = cells.filter((cell) => cell !== "");
  return (
    written.filter((cell) => !Number.isNaN(readStamp(cell, format, file.decimal).seconds)).length >=
    written.length * 0.5
  );
}

function isDated(format: StampFormat): boolean {
  return format === "ymd" || format === "dmy" || format === "mdy" || format === "compact";
}

function readStamp(cell: string, format: StampFormat, decimal: "." | ","): { seconds: number; zoned: boolean } {
  const reader = new StampReader(format, 0, decimal.charCodeAt(0), 0);
  const bytes = bytesOf(cell);
  return { seconds: reader.read(bytes, 0, bytes.length), zoned: reader.zoned };
}
