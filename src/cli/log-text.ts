/** Words for what a log was taken for and what came of it. */
import type { Captured, Imported, LiveReading, LiveTrouble } from "../book/index.ts";
import { CHANNELS, type ChannelKind, type Clock, type LogGuess, type TroubleCount } from "../log/index.ts";
import { formatQuantity, InputError, type UnitSystem } from "../quantity/index.ts";
import {
  endCauseWords,
  endedWords,
  type GuessInWords,
  grantedWords,
  leftOutWords,
  loadWarnings,
  logGuessWords,
  logQuestionWords,
  wordedEnd,
} from "../words/index.ts";
import { listTable, tableParts } from "./text-table.ts";

interface Guessed {
  readonly file: string;
  readonly guess: LogGuess;
  readonly remembered: boolean;
}

/** The guess as one JSON document, without the reader's own plan. */
export function guessJson({ file, guess: causes, remembered }: Guessed): object {
  const guess = logGuessWords(causes);
  if (guess.kind !== "table") return { file, remembered, ...guess };
  const { plan, ...told } = guess;
  return {
    file,
    remembered,
    ready: plan !== null,
    ...told,
    step_s: plan?.step ?? null,
    clock: plan?.time.clock ?? null,
  };
}

/** The first open question as the one line of an error. */
export function questionError(file: string, guess: LogGuess): InputError {
  const first = "questions" in guess ? guess.questions[0] : undefined;
  if (first === undefined) return new InputError(file, "no readings", "a log is expected");
  const { question, answers } = logQuestionWords(first);
  return new InputError(file, question, `${answers.join(" or ")} is expected`);
}

export function guessText(guessed: Guessed): string {
  const { file } = guessed;
  const guess = logGuessWords(guessed.guess);
  switch (guess.kind) {
    case "table":
      return tableText(file, guess, guessed.remembered);
    case "nmea":
      return `${file}: NMEA 0183 sentences; ${guess.why}\n  ${counted(guess.types)}\n${openText(guess)}`;
    case "signalk":
      return `${file}: Signal K deltas${guess.timed ? "" : " without times"}\n  ${counted(guess.paths)}\n${openText(guess)}`;
    case "gpx":
      return `${file}: a GPX track\n`;
    case "webvtt":
      return `${file}: time marks as WebVTT cues\n`;
    case "markTable":
      return `${file}: a table of time marks\n`;
    case "packed":
      return `${file}: no log: ${guess.what}; ${guess.expected}\n`;
    case "notATable":
      return `${file}: no log: ${guess.why}\n`;
  }
}

type Table = Extract<GuessInWords, { kind: "table" }>;

function tableText(file: string, guess: Table, remembered: boolean): string {
  const header = guess.headerLine === null ? "no header" : `header in line ${guess.headerLine}`;
  const decimal = guess.decimal.value === "," ? "comma" : "point";
  const lines = [
    `${file}: a table of ${guess.columns.length} ${guess.columns.length === 1 ? "column" : "columns"}, ${header}, data from line ${guess.dataLine}`,
    `  ${guess.encoding.value}, lines end in ${guess.lineEnd}, columns parted by ${guess.delimiter.value}, decimal ${decimal} (${guess.decimal.why})`,
    ...(remembered ? ["  read as this source's last file was"] : []),
    "",
    ...columnsText(guess),
  ];
  if (guess.plan !== null)
    lines.push("", `  times: ${clockText(guess.plan.time.clock)}${stepText(guess.plan.step, guess.plan.rowsPerStamp)}`);
  return `${lines.join("\n")}\n${openText(guess)}`;
}

/** Questions with the options that answer them, and what is taken for granted. */
function openText({ questions, remarks }: Pick<Table, "questions" | "remarks">): string {
  const asked = questions.map(({ question, answers }) => `\n  ? ${question}\n    ${answers.join("\n    ")}\n`);
  const taken = remarks.map((remark) => `\n  taken for granted: ${remark}\n`);
  return [...asked, ...taken].join("");
}

function columnsText(guess: Table): string[] {
  const rows = guess.columns.map((column) => [
    String(column.number),
    column.title === "" ? "-" : column.title,
    column.as,
    column.unit === "" ? "-" : column.unit,
    `${Math.round(column.confidence * 100)} %`,
    column.examples.slice(0, 2).join("  "),
  ]);
  const head = ["", "column", "read as", "unit", "sure", "such as"];
  const why = guess.columns.map((column) => [column.why]);
  return [listTable(head, rows, why, tableParts(head, rows)).trimEnd()];
}

function clockText(clock: Clock): string {
  switch (clock) {
    case "utc":
      return "in UTC";
    case "local":
      return "of a clock whose zone is not stated (--zone tells it)";
    case "elapsed":
      return "since a start that is not stated (--start tells it)";
    case "clock":
      return "of a day that is not stated (--start tells it)";
  }
}

function stepText(step: number, rowsPerStamp: number): string {
  if (step <= 0) return "";
  const each = `, a stamp every ${Number(step.toPrecision(3))} s`;
  return rowsPerStamp > 1 ? `${each}, ${rowsPerStamp} rows each` : each;
}

function counted(counts: Readonly<Record<string, number>>): string {
  return Object.entries(counts)
    .sort((a, b) => b[1] - a[1])
    .map(([name, count]) => `${name} ${count}`)
    .join(", ");
}

/** What became of a log in JSON: places in its file in bytes, loads in newtons, each by its name. */
export function importedDocument(answer: Imported): object {
  if (answer.kind !== "imported" && answer.kind !== "stopped") return answer;
  const { from, position, size, seen, remarks, ended, ...rest } = answer;
  return {
    ...rest,
    remarks: remarks.map(grantedWords),
    ended: wordedEnd(ended),
    from_bytes: from,
    position_bytes: position,
    size_bytes: size,
    seen: seen.map(({ newtons, ...one }) => ({ ...one, load_N: newtons })),
  };
}

export function importedText(file: string, answer: Imported, system: UnitSystem): string {
  switch (answer.kind) {
    case "already":
      return `${file}: in the book already, ${rowsText(answer.rows)} in log ${answer.log}; nothing was read\n`;
    case "marks":
      return `${file}: ${answer.marks} time marks in log ${answer.log}, ${clockText(answer.clock)}\n${troublesText(answer.troubles)}`;
    case "asks":
      return `${file}: not read\n`;
    case "stopped":
      return `${file}: stopped at ${Math.floor((100 * answer.position) / Math.max(1, answer.size))} %, ${rowsText(answer.rows)} in log ${answer.log}; the same command goes on\n`;
    case "imported": {
      const { counts } = answer;
      const happened = [
        [counts.gap, "gap"],
        [counts.restart, "restart"],
        [counts.rate, "change of rate"],
        [counts.midnight, "midnight"],
        [counts.late, "late row"],
        [counts.shared, "row at the stamp before"],
      ] as const;
      const marks = happened.filter(([n]) => n > 0).map(([n, what]) => `${n} ${plural(what, n)}`);
      return [
        `${file}: ${rowsText(answer.rows)} in log ${answer.log}; times ${clockText(answer.clock)}\n`,
        answer.from > 0 ? `  went on from byte ${answer.from}\n` : "",
        answer.remembered ? "  read as this source's last file was\n" : "",
        answer.known > 0 ? `  ${rowsText(answer.known)} were in the book already and were left out\n` : "",
        marks.length > 0 ? `  ${marks.join(", ")}\n` : "",
        ...answer.remarks.map((remark) => `  taken for granted: ${grantedWords(remark)}\n`),
        ...loadWarnings(answer.seen, answer.troubles, (newtons) =>
          formatQuantity(newtons, "force", { system, digits: 3 }),
        ).map((warning) => `  note: ${warning}\n`),
        ...endedWords(answer.ended).map((words) => `  ${words}\n`),
        troublesText(answer.troubles),
      ].join("");
    }
  }
}

/** Lines shown of those that could not be read; all are counted. */
const SHOWN = 5;

function troublesText(troubles: TroubleCount): string {
  const counts = leftOutWords(troubles);
  if (counts.length === 0) return "";
  const first = troubles.first
    .slice(0, SHOWN)
    .map(({ line, value, expected }) => `    line ${line}: ${JSON.stringify(value)}; ${expected}\n`);
  return `  ${counts.join(", ")}\n${first.join("")}`;
}

function plural(what: string, n: number): string {
  if (n === 1) return what;
  return what.replace(/^(row|gap|restart|change|midnight|late row)/, "$1s");
}

function rowsText(rows: number): string {
  return `${rows} ${rows === 1 ? "row" : "rows"}`;
}

/** What came of a capture, on one line. */
export function capturedText(source: string, { log, rows, waiting }: Extract<Captured, { kind: "captured" }>): string {
  const where = log === null ? "" : ` in log ${log}`;
  const beside =
    waiting === 0 ? "" : `; ${waiting} of them beside the book, which takes them in when it is next read into`;
  return `${source}: ${rows} readings kept${where}${beside}\n`;
}

/** What came that is no reading, on one line. */
export function liveTroubleText(trouble: LiveTrouble): string {
  return `${trouble.value}; ${"why" in trouble ? endCauseWords(trouble.why) : trouble.expected}`;
}

/** One live reading on one line, in units of the system. */
export function liveText({ time, values }: LiveReading, system: UnitSystem): string {
  const said = Object.entries(values).map(([name, value]) => {
    const kind = name.replace(/-\d+$/, "") as ChannelKind;
    const { dimension } = CHANNELS[kind];
    // Six significant digits: the reading as it came, not a statement of how sure it is.
    return dimension === "place"
      ? `${name} ${value}`
      : `${name} ${formatQuantity(value, dimension, { system, digits: 6 })}`;
  });
  return `${new Date(time * 1000).toISOString()}  ${said.join("  ")}\n`;
}
