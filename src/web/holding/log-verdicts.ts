/** What logs say of the pulls whose records leave it to them: fetched from the book, reduced beside the page. */
import { type LogVerdict, leavesToLog, loadChannelOf, MOST_LOG_READINGS, type PullCase } from "../../study/index.ts";
import { ApiTrouble, OutOfReach } from "../api/client.ts";
import type { LogHere, Records } from "../days/book-copy.ts";
import { readingsOf } from "../days/log/readings.ts";
import { logOf } from "../days/log/use-log.ts";
import { caseOf } from "../days/pull-case.ts";
import { askWorker } from "../work/worker.ts";

/** By the pull's id. A log out of reach says nothing: its pull is then told as one without a result. */
export async function readLogVerdicts(
  records: Records,
  logs: readonly LogHere[],
  signal: AbortSignal,
): Promise<Map<string, LogVerdict>> {
  const verdicts = new Map<string, LogVerdict>();
  const pulls = new Map(records.pull.map((pull) => [pull.id, pull]));
  for (const log of logs) {
    const pull = log.hidden || log.pull === null ? undefined : pulls.get(log.pull);
    if (pull === undefined || pull.hidden || isKnown(verdicts.get(pull.id))) continue;
    const about = caseOf(records, pull);
    if (!leavesToLog(about.pull)) continue;
    try {
      const verdict = await verdictOfLog(about, log, logs, signal);
      // What a log cannot tell is told as well; another log of the pull may know more.
      if (verdict !== null && (verdict.held.kind !== "notKnown" || verdict.held.untold !== null))
        verdicts.set(pull.id, verdict);
    } catch (error) {
      if (!(error instanceof OutOfReach || error instanceof ApiTrouble)) throw error;
    }
  }
  return verdicts;
}

const isKnown = (verdict: LogVerdict | undefined): boolean => verdict !== undefined && verdict.held.kind !== "notKnown";

async function verdictOfLog(
  about: PullCase,
  log: LogHere,
  logs: readonly LogHere[],
  signal: AbortSignal,
): Promise<LogVerdict | null> {
  const { rows, from_s, to_s, channels } = log.content;
  const channel = loadChannelOf(channels);
  if (channel === undefined || rows === 0 || rows > MOST_LOG_READINGS || from_s === null || to_s === null) return null;
  const { marks, veersBeside } = await logOf(log.id, signal);
  const readings = await readingsOf(
    log,
    logs,
    channel,
    { from: from_s, to: to_s },
    signal,
    about.pull.trackClock_s ?? 0,
  );
  return askWorker((work) => work.logVerdict({ about, cell: channel, ...readings, marks, veersBeside }));
}
