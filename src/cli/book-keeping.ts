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
  openBook,
  restoreBook,
} from "../book/index.ts";
import { InputError } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { asGiven, type BookOptions, many, whoOf, withBook, withBookOptions, withMade } from "./book-with.ts";
import type { Io } from "./io.ts";
import { answerJson } from "./options.ts";

/** Making, checking, backing up and restoring. */
export function keepingCommands(io: Io, ports: Ports): Command[] {
  return [
    withBookOptions(new Command("new"))
      .description("make a new, empty book")
      .argument("<book>", "the file to make")
      .requiredOption("--title <text>", "what the book is called")
      .option("--description <text>", "what it is for")
      .action((path: string, options: BookOptions & { title: string; description?: string }) => {
        const { title, description } = options;
        const about = { title, ...(description === undefined ? {} : { description }) };
        const make = (whole: string) => newBook(whole, about, { who: whoOf(options), ports });
        return withMade(io, path, make, (book) =>
          answer(io, options, made(path, book), `${path}: a new book, ${title}\n`),
        );
      }),
    withBookOptions(new Command("demo"))
      .description("make the demonstration book: an invented scenario with simulated readings")
      .argument("<book>", "the file to make")
      .action((path: string, options: BookOptions) => {
        const make = (whole: string) => createDemoBook(whole, { who: whoOf(options), ports });
        return withMade(io, path, make, (book) => {
          const { title, description } = book.about();
          answer(io, options, made(path, book), `${path}: ${title}\n${description}\n`);
        });
      }),
    withBookOptions(new Command("check"))
      .description("check a book whole, and list its backups")
      .argument("<book>")
      .action((path: string, options: BookOptions) =>
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
              backups: backups.map(backupDocument),
            },
            `${path}: sound, version ${soundness.version}\n${countsText(soundness.counts)}\ncontent ${digest.slice(0, 16)}\n${backupsText(backups)}`,
          );
        }),
      ),
    withBookOptions(new Command("backup"))
      .description("copy a book, and check the copy whole")
      .argument("<book>")
      .option("--to <file>", "where to; without it, into the folder of backups beside the book")
      .action((path: string, options: BookOptions & { to?: string }) =>
        withBook(io, ports, path, options, (book) => {
          const to = options.to === undefined ? undefined : resolve(io.cwd, options.to);
          if (to !== undefined && existsSync(to))
            throw new InputError("--to", options.to!, "a name not yet taken is expected");
          const backup = book.backup(to);
          const shown = relative(io.cwd, backup.path);
          answer(
            io,
            options,
            { format: "rodebench/book-backup@1", book: path, ...backupDocument(backup) },
            `${shown}: ${many(backup.transactions, "transaction")}, ${many(backup.rows, "row")} of logs, checked\n`,
          );
        }),
      ),
    withBookOptions(new Command("restore"))
      .description("put the newest good backup in a book's place; the book that was there is kept beside it")
      .argument("<book>")
      .option("--backup <name>", "this backup rather than the newest good one")
      .option("--yes", "also over a book that is sound, whose newer transactions go")
      .action((path: string, options: BookOptions & { backup?: string; yes?: true }) => {
        const whole = resolve(io.cwd, path);
        return asGiven(io, () => {
          if (options.yes !== true) askOver(whole, path, options.backup, ports);
          const chosen = options.backup === undefined ? {} : { backup: options.backup };
          const restored = restoreBook(whole, { ...chosen, ports });
          const aside =
            restored.aside === null
              ? "there was no book"
              : `the book that was there is now ${relative(io.cwd, restored.aside)}`;
          const document = { format: "rodebench/book-restored@1", ...restored, from: backupDocument(restored.from) };
          answer(io, options, document, `${path}: restored from the backup of ${restored.from.at}; ${aside}\n`);
        });
      }),
  ];
}

/** @throws InputError where the book in the backup's place is sound and holds what the backup does not */
function askOver(whole: string, path: string, name: string | undefined, ports: Ports): void {
  const going = whatGoes(whole, name, ports);
  if (going === null) return;
  throw new InputError(
    path,
    `sound, with ${many(going.transactions, "transaction")} and ${many(going.rows, "row")} of logs that the backup of ${going.at} does not hold`,
    "--yes restores the backup all the same, and keeps the book that is there beside it",
  );
}

/** What of a sound book a backup does not hold; null where nothing goes, or there is no sound book. */
function whatGoes(
  whole: string,
  name: string | undefined,
  ports: Ports,
): { readonly transactions: number; readonly rows: number; readonly at: string } | null {
  let book: Book;
  try {
    book = openBook(whole, { ports, backups: false });
  } catch (error) {
    // No book, or none that is sound: that is what restoring is for. Others may say so themselves.
    if (error instanceof InputError) return null;
    throw error;
  }
  try {
    const backups = book.backups();
    const from = name === undefined ? backups[0] : backups.find((each) => each.name === name || each.path === name);
    if (from === undefined || book.check().kind === "damaged") return null;
    const { transactions, logRows } = book.counts();
    const going = {
      transactions: Math.max(0, transactions - from.transactions),
      rows: Math.max(0, logRows - from.rows),
      at: from.at,
    };
    return going.transactions + going.rows === 0 ? null : going;
  } finally {
    book.close();
  }
}

const made = (path: string, book: Book) => ({ format: "rodebench/book-made@1", book: path, ...book.about() });

/** One document, or text. */
export function answer(io: Io, options: BookOptions, document: unknown, text: string): void {
  if (options.json) answerJson(io, document);
  else io.out(text);
}

export function countsText(counts: Counts): string {
  const kinds = Object.entries(counts.records).filter(([kind, n]) => n > 0 && kind !== "about");
  const records =
    kinds.map(([kind, n]) => many(n, wordFor(kind), kind === "series" ? "series" : undefined)).join(", ") ||
    "no records yet";
  return `${records}; ${many(counts.transactions, "transaction")}, ${many(counts.changes, "change")}, ${many(counts.logRows, "row")} of logs, ${many(counts.files, "copied file")}`;
}

/** How the text calls a kind. */
export function wordFor(kind: string): string {
  return kind === "rigVersion" ? "rig version" : kind;
}

/** A backup in JSON: its size says in what it counts. */
function backupDocument({ size, ...backup }: Backup): object {
  return { ...backup, size_bytes: size };
}

function backupsText(backups: readonly Backup[]): string {
  if (backups.length === 0) return "no backups yet\n";
  return `${many(backups.length, "backup")}, the newest of ${backups[0]!.at}\n${backups.map((b) => `  ${b.name}  ${many(b.transactions, "transaction")}, ${many(b.rows, "row")}\n`).join("")}`;
}
