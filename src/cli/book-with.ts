import { userInfo } from "node:os";
import { resolve } from "node:path";
import type { Command } from "commander";
import { type Book, BookTrouble, openBook, type Ports } from "../book/index.ts";
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
  return asGiven(path, whole, async () => {
    const book = openBook(whole, { who: whoOf(options), ports });
    try {
      for (const notice of book.notices) io.err(`${notice.replaceAll(whole, path)}\n`);
      return await work(book);
    } finally {
      book.close();
    }
  });
}

/** Makes a book, does the work and closes it. */
export function withMade<T>(io: Io, path: string, make: (whole: string) => Book, work: (book: Book) => T): Promise<T> {
  const whole = resolve(io.cwd, path);
  return asGiven(path, whole, () => {
    const book = make(whole);
    try {
      return work(book);
    } finally {
      book.close();
    }
  });
}

/** Trouble with a file tells its path as the user gave it. */
export async function asGiven<T>(path: string, whole: string, work: () => T | Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof BookTrouble)) throw error;
    const given = (text: string): string => text.replaceAll(whole, path);
    throw new BookTrouble(error.kind, given(error.place), given(error.given), given(error.expected));
  }
}

/** "1 act", "3 acts". */
export function many(count: number, one: string, more = `${one}s`): string {
  return `${count} ${count === 1 ? one : more}`;
}
