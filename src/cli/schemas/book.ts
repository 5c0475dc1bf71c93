/** Answers of `rodebench book`. Records are told by the fields of their kinds, as `rodebench/book@1` keeps them. */
import * as z from "zod";
import { type Kind, kindNames, recordShape } from "../../record/index.ts";
import { answerFormat } from "./answer.ts";

const count = z.int().min(0);
const id = z.string().describe("UUID of version 7");
const kind = z.enum(kindNames as [Kind, ...Kind[]]);
const moment = z.string().describe("ISO 8601");
const digest = z.string().describe("SHA-256 of the content: equal in books that hold the same");
const transaction = z.string().nullable().describe("its id in the history; null when nothing changed");

const record = (of: Kind) => z.looseObject(recordShape(of).shape);
const about = z.looseObject({
  title: z.string(),
  description: z.string().nullable(),
  simulated: z.boolean().nullable(),
});
const counts = z.looseObject({
  records: z.record(z.string(), count).describe("by kind"),
  transactions: count,
  changes: count,
  logRows: count,
  files: count,
});
const backup = z.looseObject({
  name: z.string(),
  path: z.string(),
  at: moment,
  transactions: count,
  rows: count.describe("of logs"),
  size_bytes: count,
});
const united = { transactions: count, records: count, purged: count, files: count, logs: count };
const content = z.looseObject({
  log: id,
  rows: count,
  from_s: z.number().nullable().describe("s since 1970"),
  to_s: z.number().nullable().describe("s since 1970"),
  finished: z.boolean(),
});
const change = z.looseObject({ kind, record: id, field: z.string(), was: z.unknown(), value: z.unknown() });

export const bookAnswers = [
  answerFormat("book-made@1", "book new, book demo", { book: z.string(), ...about.shape }),
  answerFormat(
    "book-list@1",
    "book list",
    { about, counts },
    ...kindNames.map((of) => ({ kind: z.literal(of), records: z.array(record(of)) })),
  ),
  answerFormat(
    "record@1",
    "book show",
    ...kindNames.map((of) => ({
      kind: z.literal(of),
      record: record(of),
      ...(of === "log" ? { content: content.optional() } : {}),
    })),
  ),
  answerFormat("written@1", "book add, edit, hide", { transaction, id }),
  answerFormat("history@1", "book history", {
    transactions: z.array(
      z.looseObject({
        transaction: id,
        who: z.string(),
        at: moment,
        device: id,
        manner: z.string(),
        label: z.string(),
        reverts: z.string().nullable(),
        changes: z.array(change),
      }),
    ),
  }),
  answerFormat(
    "reverted@1",
    "book undo, redo",
    {
      kind: z.literal("reverted"),
      transaction: id,
      label: z.string(),
      fields: count,
      overtaken: count.describe("fields changed since, left as they are"),
    },
    { kind: z.literal("overtaken"), transaction: id, label: z.string() },
    { kind: z.literal("nothing") },
  ),
  answerFormat("book-check@1", "book check", {
    book: z.string(),
    sound: z.literal(true),
    version: z.int().min(1).describe("of the tables"),
    counts,
    digest,
    readOnly: z.boolean(),
    backups: z.array(backup),
  }),
  answerFormat("book-backup@1", "book backup", { book: z.string(), ...backup.shape }),
  answerFormat("book-restored@1", "book restore", {
    path: z.string(),
    from: backup,
    aside: z.string().nullable().describe("where the book that was there lies now"),
  }),
  answerFormat("book-exported@1", "book export", { folder: z.string(), files: count, bytes: count, digest }),
  answerFormat("book-imported@1", "book import of open files", {
    ...united,
    deletedThere: count.describe("deleted for good there, kept here"),
    edited: count.describe("records changed by hand in the files"),
    digest,
  }),
  answerFormat("places-imported@1", "book import of places", { added: count }),
  answerFormat("book-merged@1", "book merge", {
    merged: z.array(
      z.looseObject({
        other: z.string(),
        ...united,
        doubles: z.array(z.looseObject({ fingerprint: z.string(), logs: z.array(id) })),
      }),
    ),
    digest,
  }),
  answerFormat("purge-question@1", "book purge", {
    kind: z.literal("ask"),
    record: id,
    recordKind: kind,
    records: count,
    changes: count,
    logRows: count,
    pointing: count.describe("records that would point to nothing"),
    token: z.string().describe("what --confirm takes"),
  }),
  answerFormat("purged@1", "book purge --confirm", {
    id,
    records: count,
    changes: count,
    leftover: z.boolean().describe("bytes may still lie in the file"),
  }),
];
