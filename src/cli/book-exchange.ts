import { existsSync, rmSync, statSync } from "node:fs";
import { relative, resolve } from "node:path";
import { Command, Option } from "commander";
import { type Book, type Merged, newBook, openBook, readGeoJson, readGpx } from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Ports } from "../record/index.ts";
import { answer } from "./book-keeping.ts";
import { asGiven, type BookOptions, many, whoOf, withBook, withBookOptions } from "./book-with.ts";
import type { Io } from "./io.ts";
import { recordId } from "./record-name.ts";

/** Books to and from other programs and other people, and deleting for good. */
export function exchangeCommands(io: Io, ports: Ports): Command[] {
  return [
    withBookOptions(new Command("export"))
      .description("write a whole book as open files: JSON Lines, CSV, Parquet, GeoJSON and GPX")
      .argument("<book>")
      .argument("<folder>", "a new or empty folder")
      .action((path: string, folder: string, options: BookOptions) =>
        withBook(io, ports, path, options, async (book) => {
          const exported = await book.export(resolve(io.cwd, folder));
          answer(
            io,
            options,
            { format: "rodebench/book-exported@1", ...exported },
            `${folder}: ${many(exported.files, "file")}, content ${exported.digest.slice(0, 16)}\n`,
          );
        }),
      ),
    withBookOptions(new Command("import"))
      .description("take in a book exported as open files, or the places of a GeoJSON or GPX file")
      .argument("<book>", "the book to take them into; where there is none, a new one that holds just these")
      .argument("<from>", "a folder that rodebench book export wrote, or a .geojson or .gpx file")
      .addOption(new Option("--even-simulated", "also simulated readings into a book of real ones"))
      .action((path: string, from: string, options: BookOptions & { evenSimulated?: true }) => {
        const source = resolve(io.cwd, from);
        if (existsSync(source) && statSync(source).isDirectory()) return takeIn(io, ports, path, from, options);
        return withBook(io, ports, path, options, async (book) => {
          const text = await io.read(from);
          const read = /\.geojson$/i.test(from) ? readGeoJson : /\.gpx$/i.test(from) ? readGpx : undefined;
          if (!read)
            throw new InputError(
              from,
              "neither a folder nor places",
              "a folder of open files, or a .geojson or .gpx file, is expected; logs go in by rodebench log",
            );
          const { added } = book.importPlaces(read(text, from), from);
          answer(
            io,
            options,
            { format: "rodebench/places-imported@1", added },
            `${from}: ${many(added, "site")} added\n`,
          );
        });
      }),
    withBookOptions(new Command("merge"))
      .description("take all that other books hold into this one; the others are only read")
      .argument("<book>")
      .argument("<others...>")
      .addOption(new Option("--even-simulated", "also a book of simulated readings into one of real ones"))
      .option("--yes", "also a book that is called otherwise: the title written later stands for both")
      .action((path: string, others: string[], options: BookOptions & { evenSimulated?: true; yes?: true }) =>
        withBook(io, ports, path, options, (book) => {
          const answers: Taken[] = [];
          for (const other of others) {
            if (resolve(io.cwd, other) === resolve(io.cwd, path))
              throw new InputError(other, "the book itself", "another book is expected");
            const from = openBook(resolve(io.cwd, other), { ports, backups: false });
            try {
              if (from.about().simulated && !book.about().simulated && !options.evenSimulated) throw simulated(other);
              if (options.yes !== true) askName(other, from, book);
              const before = book.about().title;
              const merged = book.merge(from);
              const { title } = book.about();
              answers.push({ other, ...merged, ...(title === before ? {} : { titleWas: before, title }) });
            } finally {
              from.close();
            }
          }
          answer(
            io,
            options,
            { format: "rodebench/book-merged@1", merged: answers, digest: book.digest() },
            answers.map(mergedText).join(""),
          );
        }),
      ),
    withBookOptions(new Command("purge"))
      .description("delete a hidden record for good: ask first, then again with the token")
      .argument("<book>")
      .argument("<id>", "its id, the end of it as lists show it, or a name that only one has")
      .option("--confirm <token>", "the token of the first asking")
      .action((path: string, given: string, options: BookOptions & { confirm?: string }) =>
        withBook(io, ports, path, options, (book) => {
          const id = recordId(book, given);
          if (options.confirm !== undefined) {
            const gone = book.purge(id, options.confirm);
            answer(
              io,
              options,
              { format: "rodebench/purged@1", id, ...gone },
              `${many(gone.records, "record")} and ${many(gone.changes, "change")} deleted for good; backups made before still hold them\n${gone.leftover ? "their bytes are still in the file, as another program reads it or the disk is full: close it and purge or merge again\n" : ""}`,
            );
            return;
          }
          const question = book.askPurge(id);
          if (question.kind === "notHidden")
            throw new InputError(
              id,
              "not hidden",
              `only a hidden record is deleted for good: rodebench book hide ${relative(io.cwd, resolve(io.cwd, path))} ${id}`,
            );
          answer(
            io,
            options,
            { format: "rodebench/purge-question@1", ...question },
            `This would delete for good: ${many(question.records, "record")}, ${many(question.changes, "change")} of history, ${many(question.logRows, "row")} of logs; ${many(question.pointing, "record")} would point to nothing.\nNothing is deleted yet. To delete: rodebench book purge ${path} ${id} --confirm ${question.token}\n`,
          );
        }),
      ),
  ];
}

interface Taken extends Merged {
  readonly other: string;
  /** Where the merge gave the book another title. */
  readonly titleWas?: string | null;
  readonly title?: string | null;
}

/** @throws InputError where the two books say different things of what they are: one of the two goes */
function askName(place: string, other: Book, book: Book): void {
  const [theirs, ours] = [other.about(), book.about()];
  for (const field of ["title", "description", "simulated"] as const) {
    if (theirs[field] === null || ours[field] === null || theirs[field] === ours[field]) continue;
    const said = field === "simulated" ? (theirs.simulated ? "simulated" : "measured") : quoted(theirs[field]);
    const own = field === "simulated" ? (ours.simulated ? "simulated" : "measured") : quoted(ours[field]);
    throw new InputError(
      place,
      `its ${field === "simulated" ? "readings" : field} ${said}, that of this book ${own}`,
      "what was written later will stand for both; --yes merges them",
    );
  }
}

async function takeIn(
  io: Io,
  ports: Ports,
  path: string,
  from: string,
  options: BookOptions & { evenSimulated?: true },
): Promise<void> {
  const whole = resolve(io.cwd, path);
  const isNew = !existsSync(whole);
  // Without an account of itself the new book takes that of the folder: it is the book that was exported.
  if (isNew) await asGiven(io, () => newBook(whole, null, { who: whoOf(options), ports }).close());
  try {
    await withBook(io, ports, path, options, async (book) => {
      if (!isNew && !book.about().simulated && !options.evenSimulated) await refuseSimulated(io, from);
      const taken = await book.import(resolve(io.cwd, from));
      const byHand = taken.edited > 0 ? `; ${many(taken.edited, "record")} changed by hand` : "";
      const kept =
        taken.deletedThere > 0
          ? `; ${many(taken.deletedThere, "record")} deleted for good there kept: an import deletes nothing`
          : "";
      answer(
        io,
        options,
        { format: "rodebench/book-imported@1", ...taken, digest: book.digest() },
        `${from}: ${many(taken.transactions, "transaction")}, ${many(taken.records, "record")}, ${many(taken.logs, "log")}, ${many(taken.files, "copied file")} taken in${byHand}${kept}\n`,
      );
    });
  } catch (error) {
    if (isNew) for (const end of ["", "-wal", "-shm"]) rmSync(whole + end, { force: true });
    throw error;
  }
}

async function refuseSimulated(io: Io, from: string): Promise<void> {
  if (!existsSync(resolve(io.cwd, from, "book.json"))) return;
  if (/"simulated": true/.test(await io.read(`${from}/book.json`))) throw simulated(from);
}

const simulated = (from: string): InputError =>
  new InputError(
    from,
    "a book of simulated readings",
    "measured ones are expected; --even-simulated takes them all the same",
  );

function mergedText(merged: Taken): string {
  const doubles = merged.doubles.map((d) => `  two logs of one source: ${d.logs.join(", ")}\n`).join("");
  return `${merged.other}: ${many(merged.transactions, "transaction")}, ${many(merged.records, "record")}, ${many(merged.logs, "log")}, ${many(merged.files, "copied file")} taken in, ${many(merged.purged, "record")} deleted for good there\n${merged.title === undefined ? "" : `  this book is now called ${merged.title}, as there; it was ${merged.titleWas}\n`}${doubles}`;
}
