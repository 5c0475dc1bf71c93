/** What a log file is taken for. */
import { guessLog, type LogChoices, type LogGuess } from "../../log/index.ts";
import { InputError } from "../../quantity/index.ts";
import type { Book } from "../book.ts";
import { LogFile } from "./log-file.ts";
import { rememberedChoices, withRemembered } from "./log-mapping.ts";

/** The guess of a file with what is told and remembered, nothing read into the book. */
export function previewLog(
  path: string,
  told: LogChoices = {},
  book?: Book,
  place?: string,
): { guess: LogGuess; remembered: boolean; size: number } {
  const file = new LogFile(path, place);
  try {
    return { ...guessFile(file, told, book), size: file.size };
  } catch (error) {
    throw error instanceof InputError && error.place.startsWith("--") ? error.within(file.path) : error;
  } finally {
    file.close();
  }
}

/** What the file says of itself, with what is told now and what an earlier file of its source was told. */
export function guessFile(file: LogFile, told: LogChoices, book?: Book): { guess: LogGuess; remembered: boolean } {
  const guess = guessLog(file.head, file.whole, told);
  if (guess.kind !== "table" || book === undefined) return { guess, remembered: false };
  const kept = rememberedChoices(book, guess.signature);
  if (kept === null) return { guess, remembered: false };
  // What the cells prove stands before what an earlier file of the source had.
  const { decimal, ...others } = kept;
  const proven = guess.decimal.confidence === 1;
  const memory = proven || decimal === undefined ? others : { ...others, decimal };
  return { guess: guessLog(file.head, file.whole, withRemembered(told, memory)), remembered: true };
}
