/** Verdicts of a book's logs for the pulls whose records leave to them what was held. */
import type { Book } from "../book/index.ts";
import {
  type BookMark,
  type LogVerdict,
  leavesToLog,
  loadChannelOf,
  logVerdictOf,
  MOST_LOG_READINGS,
  type PullCase,
} from "../study/index.ts";

/** @returns by the pull's id; a pull of which no log says anything is not among them */
export function logVerdicts(book: Book, cases: readonly PullCase[]): Map<string, LogVerdict> {
  const verdicts = new Map<string, LogVerdict>();
  for (const about of cases) {
    if (!leavesToLog(about.pull)) continue;
    for (const log of book.list("log", { where: { pull: about.pull.id } })) {
      const channel = loadChannelOf(log.channels ?? []);
      const { rows } = book.logs.content(log.id);
      if (channel === undefined || rows === 0 || rows > MOST_LOG_READINGS) continue;
      const { time, load } = readingsOf(book, log.id, channel, rows);
      const marks = book.list("mark", { where: { log: log.id } }) as unknown as BookMark[];
      const verdict = logVerdictOf({ about, time, load, marks });
      if (verdict === null || verdict.held.kind === "notKnown") continue;
      verdicts.set(about.pull.id, verdict);
      break;
    }
  }
  return verdicts;
}

function readingsOf(book: Book, log: string, channel: string, rows: number) {
  const time = new Float64Array(rows);
  const load = new Float64Array(rows);
  let at = 0;
  for (const { times, columns } of book.logs.rows(log, [channel])) {
    time.set(times, at);
    load.set(columns[channel]!, at);
    at += times.length;
  }
  return { time: time.subarray(0, at), load: load.subarray(0, at) };
}
