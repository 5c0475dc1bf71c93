import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { Command } from "commander";
import {
  type Book,
  captureLive,
  type Imported,
  importLog,
  liveSource,
  previewLog,
  takeInLeft,
  type Unpacked,
  unpackLog,
} from "../book/index.ts";
import type { LogChoices } from "../log/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { openedAt } from "./book-with.ts";
import type { Io } from "./io.ts";
import { choicesFrom, type LogOptions, withLogOptions } from "./log-options.ts";
import {
  capturedText,
  guessJson,
  guessText,
  importedDocument,
  importedText,
  liveText,
  liveTroubleText,
  questionError,
} from "./log-text.ts";
import { answerJson, placeOf, type Shown, shown } from "./options.ts";
import { progressLine } from "./progress.ts";

interface Options extends Shown, LogOptions {
  readonly into?: string;
  readonly name?: string;
  readonly pull?: string;
  readonly day?: string;
  readonly again?: true;
  readonly preview?: true;
  readonly live?: string;
}

/** `rodebench log FILE… --into BOOK`: logs of load cells, tracks, sentences and marks into a book. */
export function logCommand(io: Io): Command {
  const command = new Command("log")
    .argument("[files...]", "log files; - for standard input")
    .option("--into <book>", "the book they go into")
    .option("--preview", "show what the columns are taken for, and read nothing in");
  withLogOptions(command)
    .option("--name <name>", "what the log is called; its file's name without this")
    .option("--pull <id>", "the pull it belongs to")
    .option("--day <id>", "the day it belongs to")
    .option("--again", "read a file anew that is in the book; the log read before is hidden")
    .option("--live <source>", "keep what an instrument sends: host:port, or the path of a device");
  return shown(command).action(async (files: readonly string[], options: Options) => {
    const told = choicesFrom(options);
    if (options.live !== undefined) return live(options.live, files, told, options, io);
    if (files.length === 0) throw new InputError("log", "", "log files, or --live with a source, are expected");
    if (options.preview === true) return preview(files, told, options, io);
    return importFiles(files, told, options, io);
  });
}

function bookFor(options: Options, io: Io): Book {
  if (options.into === undefined) throw new InputError("--into", "", "a book is expected");
  const book = openedAt(options.into, io);
  for (const notice of [...book.notices, ...takeInLeft(book)]) io.err(`${notice}\n`);
  return book;
}

async function preview(files: readonly string[], told: LogChoices, options: Options, io: Io): Promise<void> {
  const book = options.into === undefined ? undefined : bookFor(options, io);
  try {
    const guesses = [];
    for (const file of files) {
      const { guess, remembered } = await withFile(file, io, async ({ path }) =>
        previewLog(path, told, book, placeOf(file)),
      );
      guesses.push({ file: placeOf(file), guess, remembered });
    }
    const none = guesses.find(({ guess }) => guess.kind === "notATable");
    if (options.json) answerJson(io, { format: "rodebench/log-guess@1", files: guesses.map(guessJson) });
    else
      io.out(
        guesses
          .filter(({ guess }) => guess.kind !== "notATable")
          .map((one) => guessText(one))
          .join("\n"),
      );
    if (none?.guess.kind === "notATable")
      throw new InputError(
        none.file,
        none.guess.why,
        "a log of readings, a track, sentences or time marks is expected",
      );
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
    answerJson(io, {
      format: "rodebench/logs@1",
      files: answers.map(({ file, answer }) => ({ file, ...importedDocument(answer) })),
    });
  else io.out(answers.map(({ file, answer }) => importedText(file, answer, options.units)).join(""));
  for (const failure of failures.slice(0, -1)) io.err(`${failure.message}\n`);
  const last = failures.at(-1);
  if (last !== undefined) throw last;
}

async function importOne(book: Book, file: string, told: LogChoices, options: Options, io: Io): Promise<Imported> {
  const { name, pull, day } = options;
  const place = placeOf(file);
  const progress = progressLine(place, io);
  const answer = await withFile(file, io, (unpacked) =>
    importLog(book, unpacked.path, {
      told,
      place,
      remarks: unpacked.remarks,
      name: name ?? (file === "-" ? place : unpacked.name),
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

/** Standard input is laid in a file first: a log is read more than once. So is what a packed file holds. */
async function withFile<T>(file: string, io: Io, work: (unpacked: Unpacked) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), "rodebench-log-"));
  try {
    const path = file === "-" ? join(folder, "standard-input") : resolve(io.cwd, file);
    if (file === "-") await writeFile(path, (await io.pieces("-")).bytes);
    return await work(await unpackLog(path, folder, placeOf(file)));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function live(from: string, files: readonly string[], told: LogChoices, options: Options, io: Io): Promise<void> {
  if (files.length > 0)
    throw new InputError("--live", quoted(files[0]), "either files or --live is expected, not both");
  const source = liveSource(from);
  const book = bookFor(options, io);
  const { name, pull, day } = options;
  try {
    const answer = await captureLive(book, source, {
      now: Date.now,
      signal: io.stop,
      told,
      ...(name === undefined ? {} : { name }),
      ...(pull === undefined ? {} : { pull }),
      ...(day === undefined ? {} : { day }),
      onReading: (reading) => {
        if (!options.json) io.out(liveText(reading, options.units));
      },
      onTrouble: (trouble) => io.err(`${source.name}: ${liveTroubleText(trouble)}\n`),
    });
    if (answer.kind === "asks") throw questionError(source.name, answer.guess);
    if (options.json) answerJson(io, { format: "rodebench/live@1", source: source.name, ...answer });
    else io.err(capturedText(source.name, answer));
  } finally {
    book.close();
  }
}
