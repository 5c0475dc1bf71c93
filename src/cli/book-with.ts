import { userInfo } from "node:os";
import { resolve, sep } from "node:path";
import type { Command } from "commander";
import { type Book, openBook, type Ports } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";
import type { Io } from "./io.ts";
import { shown } from "./options.ts";

/** What each book command may be told. */
export interface Told {
  readonly json?: true;
  readonly units: "metric" | "us";
  readonly who?: string;
}

/** Adds the options each book command has. */
export function told(command: Command): Command {
  return shown(command).option(
    "--who <name>",
    "who writes, kept with each change; without it your name on this computer",
  );
}

export function whoOf(options: Told): string {
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
  options: Told,
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

/** Trouble tells paths as from the folder the user stands in. */
export async function asGiven<T>(io: Io, work: () => T | Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const given = (text: string): string => (text === io.cwd ? "." : text.replaceAll(`${io.cwd}${sep}`, ""));
    throw new InputError(given(error.place), given(error.given), given(error.expected));
  }
}

/** "1 act", "3 acts". */
export function many(count: number, one: string, more = `${one}s`): string {
  return `${count} ${count === 1 ? one : more}`;
}
