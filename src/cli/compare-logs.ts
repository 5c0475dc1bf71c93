/** Verdicts of a book's logs for the pulls whose records leave to them what was held. */
import { type Book, bookLogsOf, columnsOf, trackColumnsOf, veersBeside } from "../book/index.ts";
import {
  type BookLog,
  type BookMark,
  howPulled,
  type LogVerdict,
  leavesToLog,
  loadChannelOf,
  logVerdictOf,
  MOST_LOG_READINGS,
  type PullCase,
  trackApartOf,
} from "../study/index.ts";

/** @returns by the pull's id; a pull of which no log says anything, nor what it cannot tell, is not among them */
export function logVerdicts(book: Book, cases: readonly PullCase[]): Map<string, LogVerdict> {
  const verdicts = new Map<string, LogVerdict>();
  let logs: BookLog[] | null = null;
  for (const about of cases) {
    if (!leavesToLog(about.pull)) continue;
    for (const log of book.list("log", { where: { pull: about.pull.id } })) {
      const channel = loadChannelOf(log.channels ?? []);
      const { rows } = book.logs.content(log.id);
      if (channel === undefined || rows === 0 || rows > MOST_LOG_READINGS) continue;
      logs ??= bookLogsOf(book);
      const { time, values } = columnsOf(book, log.id, [channel]);
      const { trackClock } = howPulled(about);
      const places = trackColumnsOf(book, log.id, logs, trackClock)?.places ?? null;
      const apart = trackApartOf(logs.find(({ id }) => id === log.id)!, logs, trackClock);
      const marks = book.list("mark", { where: { log: log.id } }) as unknown as BookMark[];
      const verdict = logVerdictOf({
        about,
        cell: channel,
        time,
        load: values[0]!,
        places,
        apart,
        marks,
        veersBeside: veersBeside(book, log.id),
      });
      if (verdict === null || (verdict.held.kind === "notKnown" && verdict.held.untold === null)) continue;
      // What one log cannot tell another may.
      if (verdict.held.kind !== "notKnown" || !verdicts.has(about.pull.id)) verdicts.set(about.pull.id, verdict);
      if (verdict.held.kind !== "notKnown") break;
    }
  }
  return verdicts;
}
