/** A log that lies in a book, as `trace` reads one from a file, with what the book knows of its pull. */
import { type Book, bookLogsOf, columnsOf, pullCaseOf, trackColumnsOf, veersBeside } from "../book/index.ts";
import { type ChannelKind, type LogRows, NO_TROUBLES } from "../log/index.ts";
import type { Correction, Span } from "../pull/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { RecordOf } from "../record/index.ts";
import {
  type BookLog,
  correctionsOf,
  effectiveMarks,
  howPulled,
  kindOfChannel,
  type PullCase,
  trackApartOf,
  type Veer,
  veersOf,
  veersTogether,
} from "../study/index.ts";
import { recordId } from "./record-name.ts";

export interface LogOfBook {
  readonly id: string;
  readonly name: string;
  readonly rows: LogRows;
  /** Where the boat was, by another log of the same pull; null where this one tells it, or none does. */
  readonly beside: { readonly rows: LogRows; readonly place: string } | null;
  /** A track of the same pull that ran at another time, where none overlaps, s as `TrackApart` counts it. */
  readonly apart: { readonly place: string; readonly seconds: number } | null;
  /** The pull it is the log of, with what its records point to; null for a log of no pull. */
  readonly about: PullCase | null;
  /** Marks corrected in the book. */
  readonly corrections: readonly Correction[];
  readonly slack: readonly Span[];
  /** Veers by its marks and those of the pull's other logs. */
  readonly veers: readonly Veer[];
}

/**
 * @param trackClock added to the track's times to be on the clock of the load, s; absent: what the pull's record says
 * @throws InputError where the book has no such log, or it has no channel of loads
 */
export function logOfBook(book: Book, given: string, trackClock?: number): LogOfBook {
  const id = recordId(book, given, "", "log");
  const log = book.get("log", id);
  if (log === undefined)
    throw new InputError(given, `a ${book.kindOf(id)}`, "the id or the name of a log in this book is expected");
  const rows = rowsOf(book, id, log);
  const marks = book.list("mark", { where: { log: id } }) as Parameters<typeof effectiveMarks>[0];
  const standing = effectiveMarks(marks);
  const { corrections, slack } = correctionsOf(standing);
  const about = log.pull === null ? null : pullCaseOf(book, log.pull);
  const clock = trackClock ?? howPulled(about).trackClock;
  const logs = bookLogsOf(book);
  const apart = trackApartOf(logs.find((one) => one.id === id)!, logs, clock);
  return {
    id,
    name: log.name ?? id,
    rows,
    beside: besideOf(book, id, logs, clock),
    apart: apart && { place: book.get("log", apart.log)?.name ?? apart.log, seconds: apart.seconds },
    about,
    corrections,
    slack,
    veers: veersTogether(veersOf(standing), veersBeside(book, id)),
  };
}

function rowsOf(book: Book, id: string, log: RecordOf<"log">): LogRows {
  const known = (log.channels ?? []).flatMap((channel) => {
    const kind = kindOfChannel(channel);
    return kind === null ? [] : [{ name: channel.name, kind }];
  });
  if (!known.some(({ kind }) => kind === "load"))
    throw new InputError(quoted(log.name ?? id), "no channel of loads", "the log of a load cell is expected");
  const { time, values } = columnsOf(
    book,
    id,
    known.map(({ name }) => name),
  );
  return inUtc(known, time, values);
}

/** Places and headings of another log of the same pull, about the time of this one. */
function besideOf(book: Book, id: string, logs: readonly BookLog[], trackClock?: number): LogOfBook["beside"] {
  const found = trackColumnsOf(book, id, logs, trackClock);
  if (found === null || found.log === id) return null;
  const { time, columns } = found.places;
  const channels = columns.map(({ kind }) => ({ name: kind, kind }));
  return {
    rows: inUtc(
      channels,
      time,
      columns.map(({ values }) => values),
    ),
    place: book.get("log", found.log)?.name ?? found.log,
  };
}

/** A book counts all time from 1970 in UTC, whatever the file's clock was. */
function inUtc(
  channels: readonly { readonly name: string; readonly kind: ChannelKind }[],
  time: Float64Array,
  values: readonly Float64Array[],
): LogRows {
  return {
    channels,
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
