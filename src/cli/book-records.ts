import { Command, Option } from "commander";
import type { Book, Draft, Reverted } from "../book/index.ts";
import { InputError, nearestName, quoted } from "../quantity/index.ts";
import { fieldOf, isKind, type Kind, kindNames, type Ports } from "../record/index.ts";
import { fieldsFrom, noSuchField } from "./book-fields.ts";
import { answer, countsText, wordFor } from "./book-keeping.ts";
import { historyText, lineText, recordText } from "./book-text.ts";
import { type BookOptions, many, withBook, withBookOptions } from "./book-with.ts";
import type { Io } from "./io.ts";
import { recordId } from "./record-name.ts";

const BY = "its id, the end of it as lists show it, or a name that only one has";

/** Records one by one, and what was done to them. */
export function recordCommands(io: Io, ports: Ports): Command[] {
  const on = (name: string, what: string) => withBookOptions(new Command(name)).description(what).argument("<book>");
  return [
    on("list", "what is in a book, or its records of one kind")
      .argument("[kind]", `one of ${kindNames.join(", ")}`)
      .option("--hidden", "hidden records too")
      .action((path: string, kind: string | undefined, options: BookOptions & { hidden?: true }) =>
        withBook(io, ports, path, options, (book) => list(io, book, kind, options)),
      ),
    on("show", "one record, whole")
      .argument("<id>", BY)
      .action((path: string, given: string, options: BookOptions) =>
        withBook(io, ports, path, options, (book) => {
          const id = recordId(book, given);
          const kind = book.kindOf(id);
          const record = book.get(kind, id)!;
          const content = kind === "log" ? book.logs.content(id) : null;
          const rows = content === null ? "" : `rows: ${content.rows}${content.finished ? "" : " so far"}\n`;
          answer(
            io,
            options,
            { format: "rodebench/record@1", kind, record, ...(content === null ? {} : { content }) },
            `${recordText(kind, record, options)}${rows}`,
          );
        }),
      ),
    on(
      "get",
      "fields of a record bare, a line a field, for scripts: SI, a list or group as JSON, nothing known as nothing",
    )
      .argument("<id>", BY)
      .argument("<fields...>", "names of fields, or id, kind, rows")
      .action((path: string, given: string, names: string[], options: BookOptions) =>
        withBook(io, ports, path, options, (book) => get(io, book, given, names, options)),
      ),
    on("add", "make a record")
      .argument("<kind>", `one of ${kindNames.join(", ")}`)
      .option(
        "--set <field=value...>",
        'what is known of it, such as mass_kg=15 or "mass_kg=33 lb"; file=@rig.yaml is a file\'s text',
      )
      .action((path: string, kind: string, options: BookOptions & { set?: string[] }) =>
        withBook(io, ports, path, options, async (book) => {
          const known = kindFrom(kind);
          const set = await fieldsFrom(book, known, options.set, io);
          const { transaction, ids } = book.write([{ kind: known, set } as Draft], `add ${kind}`);
          answer(io, options, { format: "rodebench/written@1", transaction, id: ids[0] }, `${ids[0]}\n`);
        }),
      ),
    on("edit", "change a record")
      .argument("<id>", BY)
      .requiredOption(
        "--set <field=value...>",
        "what is to be so; an empty value takes it back, @FILE is a file's text",
      )
      .action((path: string, given: string, options: BookOptions & { set: string[] }) =>
        withBook(io, ports, path, options, async (book) => {
          const id = recordId(book, given);
          const kind = book.kindOf(id);
          const set = await fieldsFrom(book, kind, options.set, io);
          const { transaction } = book.write([{ kind, id, set } as Draft], `edit ${kind}`);
          answer(
            io,
            options,
            { format: "rodebench/written@1", transaction, id },
            transaction === null ? "it is so already\n" : `changed; rodebench book undo ${path} takes it back\n`,
          );
        }),
      ),
    on("hide", "delete a record for now: it is hidden, and can be shown again")
      .argument("<id>", BY)
      .addOption(new Option("--show-again", "the other way"))
      .action((path: string, given: string, options: BookOptions & { showAgain?: true }) =>
        withBook(io, ports, path, options, (book) => {
          const id = recordId(book, given);
          const { transaction } = options.showAgain ? book.show(id) : book.hide(id);
          const done = options.showAgain
            ? "shown again"
            : `hidden; rodebench book hide ${path} ${id} --show-again brings it back`;
          answer(
            io,
            options,
            { format: "rodebench/written@1", transaction, id },
            `${transaction === null ? "it is so already" : done}\n`,
          );
        }),
      ),
    on("history", "what was written, newest first: who, when, and what it was before")
      .option("--record <id>", "of one record")
      .option("--limit <count>", "at most so many transactions", "20")
      .action((path: string, options: BookOptions & { record?: string; limit: string }) =>
        withBook(io, ports, path, options, (book) => {
          if (!/^[1-9]\d{0,6}$/.test(options.limit))
            throw new InputError("--limit", quoted(options.limit), "a whole number above zero is expected");
          const record = options.record === undefined ? undefined : recordId(book, options.record);
          const transactions = book.history({
            limit: Number(options.limit),
            ...(record === undefined ? {} : { record }),
          });
          answer(io, options, { format: "rodebench/history@1", transactions }, transactions.map(historyText).join(""));
        }),
      ),
    on("undo", "take back what was written last, or one transaction of the history")
      .option("--transaction <id>", "this transaction")
      .action((path: string, options: BookOptions & { transaction?: string }) =>
        withBook(io, ports, path, options, (book) => reverted(io, options, book.undo(options.transaction))),
      ),
    on("redo", "bring back what was undone last").action((path: string, options: BookOptions) =>
      withBook(io, ports, path, options, (book) => reverted(io, options, book.redo())),
    ),
  ];
}

function list(io: Io, book: Book, kind: string | undefined, options: BookOptions & { hidden?: true }): void {
  if (kind === undefined) {
    const { title, description, simulated } = book.about();
    const counts = book.counts();
    answer(
      io,
      options,
      { format: "rodebench/book-list@1", about: book.about(), counts },
      `${title}\n${description === null ? "" : `${description}\n`}${simulated ? "simulated\n" : ""}${countsText(counts)}\n`,
    );
    return;
  }
  const known = kindFrom(kind);
  const records = book.list(known, options.hidden ? { hidden: "with" } : {});
  answer(
    io,
    options,
    { format: "rodebench/book-list@1", kind: known, records },
    records.length === 0
      ? `no ${wordFor(known)} yet\n`
      : records.map((r) => `${lineText(book, known, r, options)}\n`).join(""),
  );
}

function get(io: Io, book: Book, given: string, names: readonly string[], options: BookOptions): void {
  const id = recordId(book, given);
  const kind = book.kindOf(id);
  const record = book.get(kind, id) as unknown as Readonly<Record<string, unknown>>;
  const values = names.map((name) => {
    if (name === "kind") return kind;
    if (name === "rows" && kind === "log") return book.logs.content(id)?.rows ?? 0;
    if (name !== "id" && name !== "hidden" && fieldOf(kind, name) === undefined) throw noSuchField(kind, name);
    return record[name] ?? null;
  });
  answer(
    io,
    options,
    { format: "rodebench/fields@1", kind, id, fields: Object.fromEntries(names.map((name, i) => [name, values[i]])) },
    values.map((value) => `${bare(value)}\n`).join(""),
  );
}

function bare(value: unknown): string {
  if (value === null) return "";
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}

function kindFrom(kind: string): Kind {
  if (isKind(kind)) return kind;
  const near = nearestName(kind, kindNames);
  throw new InputError(
    "kind",
    quoted(kind),
    `${near === undefined ? "" : `is ${near} meant? `}one of ${kindNames.join(", ")} is expected`,
  );
}

function reverted(io: Io, options: BookOptions, answerOf: Reverted): void {
  const text =
    answerOf.kind === "nothing"
      ? "there is nothing to take back or to bring back\n"
      : answerOf.kind === "overtaken"
        ? `nothing done: all of it has been changed since (${answerOf.label})\n`
        : `${answerOf.label}: ${many(answerOf.fields, "field")}${answerOf.overtaken > 0 ? `; ${many(answerOf.overtaken, "field")} changed since left as they are` : ""}\n`;
  answer(io, options, { format: "rodebench/reverted@1", ...answerOf }, text);
}
