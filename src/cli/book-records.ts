import { Command, Option } from "commander";
import { type Book, type Draft, isKind, type Kind, kindNames, type Ports, type Reverted } from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { answer, countsText, wordFor } from "./book-keeping.ts";
import { historyText, lineText, recordText } from "./book-text.ts";
import { many, type Told, told, withBook } from "./book-with.ts";
import type { Io } from "./io.ts";

/** Records one by one, and what was done to them. */
export function recordCommands(io: Io, ports: Ports): Command[] {
  const on = (name: string, what: string) => told(new Command(name)).description(what).argument("<book>");
  return [
    on("list", "what is in a book, or its records of one kind")
      .argument("[kind]", `one of ${kindNames.join(", ")}`)
      .option("--hidden", "hidden records too")
      .action((path: string, kind: string | undefined, options: Told & { hidden?: true }) =>
        withBook(io, ports, path, options, (book) => list(io, book, kind, options)),
      ),
    on("show", "one record, whole")
      .argument("<id>")
      .action((path: string, id: string, options: Told) =>
        withBook(io, ports, path, options, (book) => {
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
    on("add", "make a record")
      .argument("<kind>", `one of ${kindNames.join(", ")}`)
      .option("--set <field=value...>", "what is known of it, as text or JSON")
      .action((path: string, kind: string, options: Told & { set?: string[] }) =>
        withBook(io, ports, path, options, (book) => {
          const { act, ids } = book.write(
            [{ kind: kindFrom(kind), set: fieldsFrom(options.set) } as Draft],
            `add ${kind}`,
          );
          answer(io, options, { format: "rodebench/written@1", act, id: ids[0] }, `${ids[0]}\n`);
        }),
      ),
    on("edit", "change a record")
      .argument("<id>")
      .requiredOption("--set <field=value...>", "what is to be so; an empty value takes it back")
      .action((path: string, id: string, options: Told & { set: string[] }) =>
        withBook(io, ports, path, options, (book) => {
          const kind = book.kindOf(id);
          const { act } = book.write([{ kind, id, set: fieldsFrom(options.set) } as Draft], `edit ${kind}`);
          answer(
            io,
            options,
            { format: "rodebench/written@1", act, id },
            act === null ? "it is so already\n" : `changed; rodebench book undo ${path} takes it back\n`,
          );
        }),
      ),
    on("hide", "delete a record for now: it is hidden, and can be shown again")
      .argument("<id>")
      .addOption(new Option("--show-again", "the other way"))
      .action((path: string, id: string, options: Told & { showAgain?: true }) =>
        withBook(io, ports, path, options, (book) => {
          const { act } = options.showAgain ? book.show(id) : book.hide(id);
          const done = options.showAgain
            ? "shown again"
            : `hidden; rodebench book hide ${path} ${id} --show-again brings it back`;
          answer(
            io,
            options,
            { format: "rodebench/written@1", act, id },
            `${act === null ? "it is so already" : done}\n`,
          );
        }),
      ),
    on("history", "what was written, newest first: who, when, and what it was before")
      .option("--record <id>", "of one record")
      .option("--limit <count>", "at most so many acts", "20")
      .action((path: string, options: Told & { record?: string; limit: string }) =>
        withBook(io, ports, path, options, (book) => {
          if (!/^[1-9]\d{0,6}$/.test(options.limit))
            throw new InputError("--limit", quoted(options.limit), "a whole number above zero is expected");
          if (options.record !== undefined) book.kindOf(options.record);
          const acts = book.history({
            limit: Number(options.limit),
            ...(options.record === undefined ? {} : { record: options.record }),
          });
          answer(io, options, { format: "rodebench/history@1", acts }, acts.map(historyText).join(""));
        }),
      ),
    on("undo", "take back what was written last, or one act of the history")
      .option("--act <id>", "this act")
      .action((path: string, options: Told & { act?: string }) =>
        withBook(io, ports, path, options, (book) => reverted(io, options, book.undo(options.act))),
      ),
    on("redo", "bring back what was undone last").action((path: string, options: Told) =>
      withBook(io, ports, path, options, (book) => reverted(io, options, book.redo())),
    ),
  ];
}

function list(io: Io, book: Book, kind: string | undefined, options: Told & { hidden?: true }): void {
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

function kindFrom(kind: string): Kind {
  if (!isKind(kind)) throw new InputError("kind", quoted(kind), `one of ${kindNames.join(", ")} is expected`);
  return kind;
}

function fieldsFrom(settings: readonly string[] = []): Record<string, unknown> {
  const fields: Record<string, unknown> = {};
  for (const setting of settings) {
    const at = setting.indexOf("=");
    if (at < 1)
      throw new InputError("--set", quoted(setting), 'a field and its value such as "depth_m=6" are expected');
    fields[setting.slice(0, at)] = valueFrom(setting.slice(at + 1));
  }
  return fields;
}

/** Numbers, true, false, lists and groups as JSON has them; all else is text. */
function valueFrom(text: string): unknown {
  if (text === "") return null;
  if (!/^(-?\d|[{["]|true$|false$|null$)/.test(text)) return text;
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

function reverted(io: Io, options: Told, answerOf: Reverted): void {
  const text =
    answerOf.kind === "nothing"
      ? "there is nothing to take back or to bring back\n"
      : answerOf.kind === "overtaken"
        ? `nothing done: all of it has been changed since (${answerOf.label})\n`
        : `${answerOf.label}: ${many(answerOf.fields, "field")}${answerOf.overtaken > 0 ? `; ${many(answerOf.overtaken, "field")} changed since left as they are` : ""}\n`;
  answer(io, options, { format: "rodebench/reverted@1", ...answerOf }, text);
}
