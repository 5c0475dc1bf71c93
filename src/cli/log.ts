import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { Command, Option } from "commander";
import { type Book, captureLive, type Imported, importLog, liveSource, openBook, previewLog } from "../book/index.ts";
import { type LogChoices, readColumnChoice, readStart, readZone } from "../pull/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Io } from "./io.ts";
import { guessJson, guessText, importedText, liveText, questionError } from "./log-text.ts";
import { answerJson, placeOf, type Shown, shown } from "./options.ts";
import { progressLine } from "./progress.ts";

interface Options extends Shown {
  readonly into?: string;
  readonly map: readonly string[];
  readonly delimiter?: string;
  readonly decimal?: "point" | "comma";
  readonly zone?: string;
  readonly start?: string;
  readonly rate?: string;
  readonly loadPath?: string;
  readonly name?: string;
  readonly pull?: string;
  readonly day?: string;
  readonly again?: true;
  readonly preview?: true;
  readonly live?: string;
}

/** `rodebench log FILE… --into BOOK`: logs of load cells, tracks, sentences and marks into a book. */
export function logCommand(io: Io): Command {
  return shown(
    new Command("log")
      .description(
        "load-cell logs (CSV), GPX, NMEA 0183, Signal K and time marks into a book, or shown as they would be",
      )
      .argument("[files...]", "log files; - for standard input")
      .option("--into <book>", "the book they go into")
      .option("--preview", "show what the columns are taken for, and read nothing in")
      .option(
        "--map <role=column[:unit]>",
        "say what a column is, such as load=2:kN, time=1:dmy, ignore=Battery",
        collect,
        [],
      )
      .option("--delimiter <mark>", "what parts the columns: comma, semicolon, tab, bar, blanks or none")
      .addOption(new Option("--decimal <mark>", "what parts the decimals").choices(["point", "comma"]))
      .option("--zone <offset>", "zone of times that state none, such as Z or +02:00")
      .option("--start <moment>", "day of clock times, or start of elapsed ones, such as 2024-05-03T12:34:56Z")
      .option("--rate <hertz>", "rows a second, where no column holds a time")
      .option("--load-path <path>", "path of the load in Signal K deltas")
      .option("--name <name>", "what the log is called; its file's name without this")
      .option("--pull <id>", "the pull it belongs to")
      .option("--day <id>", "the day it belongs to")
      .option("--again", "read a file anew that is in the book; the log read before is hidden")
      .option("--live <source>", "keep what an instrument sends: host:port, or the path of a device"),
  ).action(async (files: readonly string[], options: Options) => {
    const told = choicesFrom(options);
    if (options.live !== undefined) return live(options.live, files, told, options, io);
    if (files.length === 0) throw new InputError("log", "", "log files, or --live with a source, are expected");
    if (options.preview === true) return preview(files, told, options, io);
    return importFiles(files, told, options, io);
  });
}

function collect(value: string, before: readonly string[]): readonly string[] {
  return [...before, value];
}

const DELIMITERS: Readonly<Record<string, NonNullable<LogChoices["delimiter"]>>> = {
  comma: ",",
  ",": ",",
  semicolon: ";",
  ";": ";",
  tab: "\t",
  "\\t": "\t",
  bar: "|",
  "|": "|",
  blanks: " ",
  none: "",
};

function choicesFrom(options: Options): LogChoices {
  const { delimiter, decimal, zone, start, rate } = options;
  if (delimiter !== undefined && DELIMITERS[delimiter] === undefined)
    throw new InputError(
      "--delimiter",
      quoted(delimiter),
      "one of comma, semicolon, tab, bar, blanks, none is expected",
    );
  if (rate !== undefined && !(Number(rate) > 0 && Number.isFinite(Number(rate))))
    throw new InputError("--rate", quoted(rate), "rows a second, above zero, are expected");
  const offset = zone === undefined ? undefined : readZone(zone, "--zone");
  return {
    columns: options.map.map((text) => readColumnChoice(text, "--map")),
    ...(delimiter === undefined ? {} : { delimiter: DELIMITERS[delimiter]! }),
    ...(decimal === undefined ? {} : { decimal: decimal === "comma" ? "," : "." }),
    ...(offset === undefined ? {} : { zone: offset }),
    ...(start === undefined ? {} : { start: readStart(start, "--start", offset) }),
    ...(rate === undefined ? {} : { rate: Number(rate) }),
  };
}

function bookFor(options: Options, io: Io): Book {
  if (options.into === undefined) throw new InputError("--into", "", "a book is expected");
  const book = openBook(resolve(io.cwd, options.into), { who: "this computer" });
  for (const notice of book.notices) io.err(`${notice}\n`);
  return book;
}

async function preview(files: readonly string[], told: LogChoices, options: Options, io: Io): Promise<void> {
  const book = options.into === undefined ? undefined : bookFor(options, io);
  try {
    const guesses = [];
    for (const file of files) {
      const { guess, remembered } = await withFile(file, io, async (path) =>
        previewLog(path, told, book, placeOf(file)),
      );
      guesses.push({ file: placeOf(file), guess, remembered });
    }
    if (options.json) answerJson(io, { format: "rodebench/log-guess@1", files: guesses.map(guessJson) });
    else io.out(guesses.map((one) => guessText(one)).join("\n"));
  } finally {
    book?.close();
  }
}

async function importFiles(files: readonly string[], told: LogChoices, options: Options, io: Io): Promise<void> {
  if (options.name !== undefined && files.length > 1)
    throw new InputError("--name", quoted(options.name), "one file is expected with it");
  const book = bookFor(options, io);
  const answers: { file: string; answer: Imported }[] = [];
  const failures: InputError[] = [];
  try {
    for (const file of files) {
      if (io.stop.aborted) break;
      try {
        answers.push({ file: placeOf(file), answer: await importOne(book, file, told, options, io) });
      } catch (error) {
        // One file that cannot be read does not keep the others out.
        if (!(error instanceof InputError)) throw error;
        failures.push(error);
      }
    }
  } finally {
    book.close();
  }
  if (options.json)
    answerJson(io, { format: "rodebench/logs@1", files: answers.map(({ file, answer }) => ({ file, ...answer })) });
  else io.out(answers.map(({ file, answer }) => importedText(file, answer)).join(""));
  for (const failure of failures.slice(0, -1)) io.err(`${failure.message}\n`);
  const last = failures.at(-1);
  if (last !== undefined) throw last;
}

async function importOne(book: Book, file: string, told: LogChoices, options: Options, io: Io): Promise<Imported> {
  const { loadPath, name, pull, day } = options;
  const place = placeOf(file);
  const progress = progressLine(place, io);
  const answer = await withFile(file, io, (path) =>
    importLog(book, path, {
      told,
      place,
      ...(loadPath === undefined ? {} : { loadPath }),
      ...(name === undefined ? (file === "-" ? { name: place } : {}) : { name }),
      ...(pull === undefined ? {} : { pull }),
      ...(day === undefined ? {} : { day }),
      ...(options.again === true ? { again: true } : {}),
      signal: io.stop,
      onProgress: progress.show,
    }),
  ).finally(progress.end);
  if (answer.kind === "asks") throw questionError(place, answer.guess);
  return answer;
}

/** Standard input is laid in a file first: a log is read more than once. */
async function withFile<T>(file: string, io: Io, work: (path: string) => Promise<T>): Promise<T> {
  if (file !== "-") return work(resolve(io.cwd, file));
  const folder = await mkdtemp(join(tmpdir(), "rodebench-log-"));
  try {
    const path = join(folder, "standard-input");
    await writeFile(path, await io.read("-"));
    return await work(path);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function live(from: string, files: readonly string[], told: LogChoices, options: Options, io: Io): Promise<void> {
  if (files.length > 0)
    throw new InputError("--live", quoted(files[0]), "either files or --live is expected, not both");
  const source = liveSource(from);
  const book = bookFor(options, io);
  const { loadPath, name, pull, day } = options;
  try {
    const answer = await captureLive(book, source, {
      now: Date.now,
      signal: io.stop,
      told,
      ...(loadPath === undefined ? {} : { loadPath }),
      ...(name === undefined ? {} : { name }),
      ...(pull === undefined ? {} : { pull }),
      ...(day === undefined ? {} : { day }),
      onReading: (reading) => {
        if (!options.json) io.out(liveText(reading, options.units));
      },
      onTrouble: ({ value, expected }) => io.err(`${source.name}: ${value}; ${expected}\n`),
    });
    if (answer.kind === "asks") throw questionError(source.name, answer.guess);
    if (options.json) answerJson(io, { format: "rodebench/live@1", source: source.name, ...answer });
    else io.err(`${source.name}: ${answer.rows} readings kept${answer.log === null ? "" : ` in log ${answer.log}`}\n`);
  } finally {
    book.close();
  }
}
