import { existsSync } from "node:fs";
import { relative, resolve } from "node:path";
import { Command } from "commander";
import {
  type Backup,
  type Book,
  BookTrouble,
  type Counts,
  createDemoBook,
  newBook,
  type Ports,
  restoreBook,
} from "../book/index.ts";
import { InputError } from "../quantity/index.ts";
import { asGiven, many, type Told, told, whoOf, withBook, withMade } from "./book-with.ts";
import type { Io } from "./io.ts";
import { answerJson } from "./options.ts";

/** Making, checking, backing up and restoring. */
export function keepingCommands(io: Io, ports: Ports): Command[] {
  return [
    told(new Command("new"))
      .description("make a new, empty book")
      .argument("<book>", "the file to make")
      .requiredOption("--title <text>", "what the book is called")
      .option("--description <text>", "what it is for")
      .action((path: string, options: Told & { title: string; description?: string }) => {
        const { title, description } = options;
        const about = { title, ...(description === undefined ? {} : { description }) };
        const make = (whole: string) => newBook(whole, about, { who: whoOf(options), ports });
        return withMade(io, path, make, (book) =>
          answer(io, options, made(path, book), `${path}: a new book, ${title}\n`),
        );
      }),
    told(new Command("demo"))
      .description("make the demonstration book: an invented scenario with simulated readings")
      .argument("<book>", "the file to make")
      .action((path: string, options: Told) => {
        const make = (whole: string) => createDemoBook(whole, { who: whoOf(options), ports });
        return withMade(io, path, make, (book) => {
          const { title, description } = book.about();
          answer(io, options, made(path, book), `${path}: ${title}\n${description}\n`);
        });
      }),
    told(new Command("check"))
      .description("check a book whole, and list its backups")
      .argument("<book>")
      .action((path: string, options: Told) =>
        withBook(io, ports, path, options, (book) => {
          const soundness = book.check();
          if (soundness.kind === "damaged")
            throw new BookTrouble(
              "damaged",
              path,
              `damaged (${soundness.why})`,
              "rodebench book restore puts its newest good backup in its place",
            );
          const backups = book.backups();
          const digest = book.digest();
          answer(
            io,
            options,
            {
              format: "rodebench/book-check@1",
              book: path,
              sound: true,
              version: soundness.version,
              counts: soundness.counts,
              digest,
              readOnly: book.readOnly,
              backups,
            },
            `${path}: sound, version ${soundness.version}\n${countsText(soundness.counts)}\ncontent ${digest.slice(0, 16)}\n${backupsText(backups)}`,
          );
        }),
      ),
    told(new Command("backup"))
      .description("copy a book, and check the copy whole")
      .argument("<book>")
      .option("--to <file>", "where to; without it, into the folder of backups beside the book")
      .action((path: string, options: Told & { to?: string }) =>
        withBook(io, ports, path, options, (book) => {
          const to = options.to === undefined ? undefined : resolve(io.cwd, options.to);
          if (to !== undefined && existsSync(to))
            throw new InputError("--to", options.to!, "a name not yet taken is expected");
          const backup = book.backup(to);
          const shown = relative(io.cwd, backup.path);
          answer(
            io,
            options,
            { format: "rodebench/book-backup@1", book: path, ...backup },
            `${shown}: ${many(backup.acts, "act")}, ${many(backup.rows, "row")} of logs, checked\n`,
          );
        }),
      ),
    told(new Command("restore"))
      .description("put the newest good backup in a book's place; the book that was there is kept beside it")
      .argument("<book>")
      .option("--backup <name>", "this backup rather than the newest good one")
      .action((path: string, options: Told & { backup?: string }) => {
        const whole = resolve(io.cwd, path);
        return asGiven(io, () => {
          const chosen = options.backup === undefined ? {} : { backup: options.backup };
          const restored = restoreBook(whole, { ...chosen, ports });
          const aside =
            restored.aside === null
              ? "there was no book"
              : `the book that was there is now ${relative(io.cwd, restored.aside)}`;
          const document = { format: "rodebench/book-restored@1", ...restored };
          answer(io, options, document, `${path}: restored from the backup of ${restored.from.at}; ${aside}\n`);
        });
      }),
  ];
}

const made = (path: string, book: Book) => ({ format: "rodebench/book-made@1", book: path, ...book.about() });

/** One document, or text. */
export function answer(io: Io, options: Told, document: unknown, text: string): void {
  if (options.json) answerJson(io, document);
  else io.out(text);
}

export function countsText(counts: Counts): string {
  const kinds = Object.entries(counts.records).filter(([kind, n]) => n > 0 && kind !== "about");
  const records =
    kinds.map(([kind, n]) => many(n, wordFor(kind), kind === "series" ? "series" : undefined)).join(", ") ||
    "no records yet";
  return `${records}; ${many(counts.acts, "act")}, ${many(counts.changes, "change")}, ${many(counts.logRows, "row")} of logs, ${many(counts.files, "copied file")}`;
}

/** How the text calls a kind. */
export function wordFor(kind: string): string {
  return kind === "rigVersion" ? "rig version" : kind;
}

function backupsText(backups: readonly Backup[]): string {
  if (backups.length === 0) return "no backups yet\n";
  return `${many(backups.length, "backup")}, the newest of ${backups[0]!.at}\n${backups.map((b) => `  ${b.name}  ${many(b.acts, "act")}, ${many(b.rows, "row")}\n`).join("")}`;
}
