import { type Book, bookLogsOf, pullCaseOf, trackColumnsOf, veersBeside } from "../book/index.ts";
import type { ReadAt } from "../pull/index.ts";
import {
  type BookMark,
  effectiveMarks,
  foundMarks,
  howPulled,
  type KnownMark,
  veersOf,
  veersTogether,
} from "../study/index.ts";
import type { Draft, Records } from "./records.ts";
import { Refusal } from "./refusals.ts";

/** Readings looked at in one go: half an hour at 1 kHz. More would hold up everybody else at the bench. */
const MOST_ROWS = 2_000_000;

/** Which stretch of a log is looked at, and how. */
export interface MarkQuestion {
  readonly log: string;
  readonly readAt: ReadAt;
  readonly from_s?: number;
  readonly to_s?: number;
  /** The channel of the load; absent: the log's only one. */
  readonly channel?: string;
}

/**
 * What the reduction finds on a stretch of a log, as marks not yet in the book: one found before, also one put aside,
 * is not made again, so that nobody's correction is talked over.
 * @throws InputError when the log has no load or too many readings for one go
 */
export function findMarks(book: Book, records: Records, question: MarkQuestion, newId: () => string): Draft[] {
  const known = records.list("mark", { where: { log: question.log, origin: "automatic" }, hidden: "with" });
  const stretch = stretchOf(book, records, question);
  const pull = book.get("log", question.log)?.pull ?? null;
  const about = pull === null ? null : pullCaseOf(book, pull);
  const { trackClock } = howPulled(about);
  const places = trackColumnsOf(book, question.log, bookLogsOf(book), trackClock)?.places ?? null;
  const steps = records.list("mark", { where: { log: question.log, kind: "step" } });
  const own = veersOf(effectiveMarks(steps as unknown as BookMark[]));
  const veers = veersTogether(own, veersBeside(book, question.log));
  const { readAt, log } = question;
  return foundMarks({ ...stretch, places }, readAt, log, known as KnownMark[], about, veers).map((set) => ({
    kind: "mark",
    id: newId(),
    set,
  }));
}

function stretchOf(book: Book, records: Records, question: MarkQuestion): { time: Float64Array; load: Float64Array } {
  const channel = channelOf(records, question);
  const from = question.from_s ?? Number.NEGATIVE_INFINITY;
  const to = question.to_s ?? Number.POSITIVE_INFINITY;
  const times: number[] = [];
  const loads: number[] = [];
  for (const { times: t, columns } of book.logs.rows(question.log, [channel])) {
    const values = columns[channel]!;
    for (let i = 0; i < t.length; i++) {
      if (t[i]! < from || t[i]! > to) continue;
      times.push(t[i]!);
      loads.push(values[i]!);
    }
    if (times.length > MOST_ROWS) {
      throw new Refusal(413, "stretch", `more than ${MOST_ROWS} readings`, "a shorter stretch: from_s and to_s");
    }
  }
  if (times.length === 0) throw new Refusal(400, "stretch", "no readings", "a stretch of the log that holds some");
  return { time: Float64Array.from(times), load: Float64Array.from(loads) };
}

function channelOf(records: Records, { log, channel }: MarkQuestion): string {
  const loads = records.logContent(log).channels.filter(({ unit }) => unit === "N");
  const names = loads.map(({ name }) => name);
  if (channel !== undefined && names.includes(channel)) return channel;
  if (channel === undefined && names.length === 1) return names[0]!;
  const expected = names.length === 0 ? "a log with a channel of loads" : `one of ${names.join(", ")}`;
  throw new Refusal(400, "channel", channel === undefined ? "" : JSON.stringify(channel), expected);
}
