import { userInfo } from "node:os";
import { resolve, sep } from "node:path";
import type { Command } from "commander";
import { type Book, openBook } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import type { Io } from "./io.ts";
import { shown } from "./options.ts";

/** What each book command may be told. */
export interface BookOptions {
  readonly json?: true;
  readonly units: "metric" | "us";
  readonly who?: string;
}

/** Adds the options each book command has. */
export function withBookOptions(command: Command): Command {
  return shown(command).option(
    "--who <name>",
    "who writes, kept with each change; without it your name on this computer",
  );
}

export function whoOf(options: BookOptions): string {
  if (options.who !== undefined) return options.who;
  try {
    return userInfo().username;
  } catch {
    return "";
  }
}

/** Opens a book for one command, tells on standard error what the user should know of how it opened, and closes it. */
export async function withBook<T>(
  io: Io,
  ports: Ports,
  path: string,
  options: BookOptions,
  work: (book: Book) => T | Promise<T>,
): Promise<T> {
  const whole = resolve(io.cwd, path);
  return asGiven(io, async () => {
    const book = openBook(whole, { who: whoOf(options), ports });
    try {
      for (const notice of book.notices) io.err(`${notice.replaceAll(`${io.cwd}${sep}`, "")}\n`);
      return await work(book);
    } finally {
      book.close();
    }
  });
}

/** Makes a book, does the work and closes it. */
export function withMade<T>(io: Io, path: string, make: (whole: string) => Book, work: (book: Book) => T): Promise<T> {
  const whole = resolve(io.cwd, path);
  return asGiven(io, () => {
    const book = make(whole);
    try {
      return work(book);
    } finally {
      book.close();
    }
  });
}

/** Opens a book for longer than one command's work; who writes into it is this computer. */
export function openedAt(path: string, io: Io): Book {
  try {
    return openBook(resolve(io.cwd, path), { who: "this computer" });
  } catch (error) {
    throw fromHere(error, io);
  }
}

/** Trouble tells paths as from the folder the user stands in. */
export async function asGiven<T>(io: Io, work: () => T | Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw fromHere(error, io);
  }
}

function fromHere(error: unknown, io: Io): unknown {
  if (!(error instanceof InputError)) return error;
  const given = (text: string): string => (text === io.cwd ? "." : text.replaceAll(`${io.cwd}${sep}`, ""));
  return new InputError(given(error.place), given(error.given), given(error.expected));
}

/** "1 transaction", "3 transactions". */
export function many(count: number, one: string, more = `${one}s`): string {
  return `${count} ${count === 1 ? one : more}`;
}
