/** A log that lies in a book, as `trace` reads one from a file, with what the book knows of its pull. */
import type { Book } from "../book/index.ts";
import { type ChannelKind, channelKinds, type LogRows, NO_TROUBLES } from "../log/index.ts";
import type { Correction, Span } from "../pull/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { RecordOf } from "../record/index.ts";
import { correctionsOf, effectiveMarks, type PullCase, pullCases } from "../study/index.ts";
import { recordId } from "./record-name.ts";

export interface LogOfBook {
  readonly id: string;
  readonly name: string;
  readonly rows: LogRows;
  /** The pull it is the log of, with what its records point to; null for a log of no pull. */
  readonly about: PullCase | null;
  /** Marks corrected in the book. */
  readonly corrections: readonly Correction[];
  readonly slack: readonly Span[];
}

/** @throws InputError where the book has no such log, or it has no channel of loads */
export function logOfBook(book: Book, given: string): LogOfBook {
  const id = recordId(book, given, "", "log");
  const log = book.get("log", id);
  if (log === undefined)
    throw new InputError(given, `a ${book.kindOf(id)}`, "the id or the name of a log in this book is expected");
  const marks = book.list("mark", { where: { log: id } });
  const { corrections, slack } = correctionsOf(effectiveMarks(marks as Parameters<typeof effectiveMarks>[0]));
  return {
    id,
    name: log.name ?? id,
    rows: rowsOf(book, id, log),
    about: log.pull === null ? null : caseOf(book, log.pull),
    corrections,
    slack,
  };
}

function caseOf(book: Book, id: string): PullCase | null {
  const pull = book.get("pull", id);
  if (pull === undefined) return null;
  const all = <K extends "pull" | "day" | "site" | "seabed" | "anchor" | "rigVersion">(kind: K) =>
    book.list(kind, { hidden: "with" });
  const records = {
    pull: all("pull"),
    day: all("day"),
    site: all("site"),
    seabed: all("seabed"),
    anchor: all("anchor"),
    rigVersion: all("rigVersion"),
  };
  return pullCases(records, [pull])[0] ?? null;
}

function rowsOf(book: Book, id: string, log: RecordOf<"log">): LogRows {
  const channels = (log.channels ?? []).map(({ name, quantity, unit }) => ({
    name,
    kind: kindOf(name, quantity, unit),
  }));
  const known = channels.flatMap(({ name, kind }) => (kind === null ? [] : [{ name, kind }]));
  if (!known.some(({ kind }) => kind === "load"))
    throw new InputError(quoted(log.name ?? id), "no channel of loads", "the log of a load cell is expected");
  const rows = book.logs.content(id).rows;
  const time = new Float64Array(rows);
  const values = known.map(() => new Float64Array(rows));
  let at = 0;
  for (const { times, columns } of book.logs.rows(
    id,
    known.map(({ name }) => name),
  )) {
    time.set(times, at);
    for (const [i, { name }] of known.entries()) values[i]!.set(columns[name]!, at);
    at += times.length;
  }
  // A book counts all time from 1970 in UTC, whatever the file's clock was.
  return {
    channels: known,
    clock: "utc",
    time,
    values,
    marks: [],
    troubles: NO_TROUBLES,
    ended: null,
    remarks: [],
    seen: [],
  };
}

/** What a channel holds, by its name as logs are taken in, or by what it measures; null for what a trace does not use. */
function kindOf(name: string, quantity: string, unit: string): ChannelKind | null {
  const bare = name.replace(/-\d+$/, "");
  const kind = channelKinds.find((each) => each === bare);
  if (kind !== undefined) return kind;
  return quantity === "force" || unit === "N" ? "load" : null;
}
