/**
 * What a table of readings is taken for, column by column, with causes and how sure each is. Nothing is imported on a
 * guess that leaves a question: the question and the option that answers it are part of the answer.
 */

import type { GrantedCause } from "./cause.ts";
import { type Delimiter, linesOf } from "./cells.ts";
import type { LogChoices } from "./choices.ts";
import { chooseColumns } from "./columns.ts";
import { delimiterName, type Guessed, guessLayout } from "./dialect.ts";
import { type Encoding, guessEncoding, textOf } from "./encoding.ts";
import { type DecimalMark, type GroupingMark, guessMarks, isContinental } from "./marks.ts";
import type { TablePlan } from "./plan.ts";
import { readPreamble } from "./preamble.ts";
import { rhythmOf } from "./rhythm.ts";
import type { ColumnGuess, NotATable, Question, TableGuess } from "./table-guess.ts";
import { chooseTime } from "./time-column.ts";
import { readTitle, speaksFor, type Title } from "./title.ts";
import { readUnit } from "./unit-name.ts";

/** Bytes of a file's beginning the guess looks at. */
export const HEAD_BYTES = 256 * 1024;
const LOOK_LINES = 400;

/**
 * Guesses how a table is written from the head of its file (some 100 kB are plenty) and what the user said of it.
 * @throws InputError when a told column is not there.
 */
export function guessTable(head: Uint8Array, whole: boolean, told: LogChoices = {}): TableGuess | NotATable {
  const encoding = guessEncoding(head);
  const text = textOf(head, encoding.mark, head.length, encoding.encoding);
  const lines = linesOf(text, LOOK_LINES + 1);
  if (!whole && lines.length <= LOOK_LINES) lines.pop();
  if (lines.length > LOOK_LINES) lines.length = LOOK_LINES;
  if (!lines.some((line) => line.text.trim() !== "")) return { kind: "notATable", why: "no lines of text" };
  const layout = guessLayout(lines, told.delimiter);
  if (layout === null) return { kind: "notATable", why: whyNoRows(text) };

  const delimiter = layout.delimiter.value;
  const numberCells = layout.rows.flatMap((row) =>
    row.filter((cell) => !cell.includes(":") && !/\d[-/]\d/.test(cell) && !/\d\.\d+\.\d/.test(cell)),
  );
  const titles = Array.from({ length: layout.width }, (_, i) =>
    readTitle(layout.titles[i] ?? "", layout.units[i] ?? ""),
  );
  const marks = guessMarks(numberCells, delimiter, {
    continental: isContinental(layout.titles),
    large: areLarge(titles, told),
  });
  const decimal: Guessed<DecimalMark> =
    told.decimal === undefined ? marks.decimal : { value: told.decimal, confidence: 1, why: { kind: "told" } };
  const grouping =
    told.decimal === undefined || marks.grouping !== ""
      ? without(marks.grouping, decimal.value)
      : without(marks.open, decimal.value);
  const hints = readPreamble(layout.preamble);
  const questions: Question[] = [];
  const remarks: GrantedCause[] = [];
  if (decimal.confidence < 0.6) {
    questions.push({
      about: "decimal mark",
      question: { kind: "decimalMark", why: decimal.why },
      answers: ["--decimal point", "--decimal comma"],
    });
  }
  if (
    delimiter === "," &&
    layout.headerLine !== null &&
    layout.titles.length < layout.width &&
    layout.titles.length > 0
  ) {
    questions.push({
      about: "delimiter",
      question: { kind: "cellsBesideTitles", cells: layout.width, titles: layout.titles.length },
      answers: ["--delimiter ';'"],
    });
  }
  const time = chooseTime(
    layout.rows,
    titles,
    { delimiter, decimal: decimal.value, hints, told, headed: layout.headerLine !== null },
    questions,
    remarks,
  );
  const taken = chooseColumns(
    layout.rows,
    titles,
    time,
    {
      hints,
      told,
      headed: layout.headerLine !== null,
      decimal: decimal.value,
      grouping,
    },
    questions,
    remarks,
  );
  const columns = titles.map((title, i): ColumnGuess => {
    const examples = [...new Set(layout.rows.map((row) => row[i] ?? "").filter((cell) => cell !== ""))].slice(0, 3);
    const found = time.columns.get(i) ?? taken.columns.get(i)!;
    return { number: i + 1, title: title.text, ...found, examples };
  });
  const rhythm = rhythmOf(layout.rows, time, decimal.value);
  const plan: TablePlan | null =
    questions.length > 0 || time.plan === null
      ? null
      : {
          encoding: encoding.encoding,
          delimiter,
          decimal: decimal.value,
          grouping,
          width: layout.width,
          dataLine: layout.dataLine,
          dataOffset: encoding.mark + offsetOf(head, encoding.mark, encoding.unit, encoding.encoding, layout.dataLine),
          titles: layout.titles,
          time: time.plan,
          values: taken.values,
          ...(taken.addends.length === 0 ? {} : { addends: taken.addends }),
          ...(marks.unseen && told.decimal === undefined ? { marksUnseen: true } : {}),
          ...rhythm,
        };
  return {
    kind: "table",
    encoding: { value: encoding.encoding, confidence: 0.95, why: encoding.why },
    lineEnd: /\r\n/.test(text) ? "CR LF" : /\n/.test(text) ? "LF" : "CR",
    delimiter: { value: delimiterName(delimiter), confidence: layout.delimiter.confidence, why: layout.delimiter.why },
    decimal,
    headerLine: layout.headerLine,
    dataLine: layout.dataLine,
    preamble: layout.preamble,
    columns,
    questions,
    remarks,
    signature: signatureOf(delimiter, layout.titles, layout.units, layout.width),
    plan,
  };
}

/** What stands in the way of rows of numbers, where it can be told. */
function whyNoRows(text: string): string {
  if (/^="/m.test(text) || /[,;\t]="/.test(text)) return 'cells are formulas such as ="1.5"; save their values as CSV';
  if (/^\s*\[\s*\{/.test(text)) return "a JSON array: one message a line is expected";
  return "no rows of numbers";
}

/** True when every load is in a unit of a kilonewton or more. */
function areLarge(titles: readonly Title[], told: LogChoices): boolean {
  const units = [
    ...titles.filter((title) => speaksFor(title).for === "load").map((title) => title.unit),
    ...(told.columns ?? []).flatMap(({ role, as }) => (role === "load" && as !== undefined ? [as] : [])),
  ].filter((unit) => unit !== "");
  return units.length > 0 && units.every((unit) => (readUnit(unit, "load")?.scale ?? 0) >= 1000);
}

/** A mark of thousands that is none where it marks the decimals. */
function without(grouping: GroupingMark, decimal: DecimalMark): GroupingMark {
  return grouping === decimal ? "" : grouping;
}

function signatureOf(delimiter: Delimiter, titles: readonly string[], units: readonly string[], width: number): string {
  if (titles.length === 0) return `untitled, ${width} columns, ${delimiterName(delimiter)}`;
  return [
    delimiterName(delimiter),
    ...titles.map((title, i) => `${title.toLowerCase()}${units[i] === undefined ? "" : ` ${units[i]}`}`.trim()),
  ].join(" | ");
}

/** Bytes behind the byte order mark at which a line starts. */
function offsetOf(head: Uint8Array, mark: number, unit: number, encoding: Encoding, line: number): number {
  const low = encoding === "utf-16be" ? 1 : 0;
  const code = (at: number) => (unit === 1 ? head[at]! : head[at + 1 - low] === 0 ? head[at + low]! : 63);
  let at = mark;
  for (let n = 1; n < line && at < head.length; at += unit) {
    const b = code(at);
    if (b === 10 || (b === 13 && !(at + unit < head.length && code(at + unit) === 10))) n++;
  }
  return at - mark;
}
