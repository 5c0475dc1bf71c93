import { loadChannelOf, MOST_LOG_READINGS } from "../../../study/index.ts";
import type { BookCopy } from "../../days/book-copy.ts";
import { titleOf } from "../../days/record-text.ts";

/** Logs of pulls that hold a load and can be read whole, each with what it is called. */
export function logsOfPulls({ logs, records }: BookCopy) {
  return logs.flatMap((log) => {
    const { rows, from_s, channels } = log.content;
    const pull = records.pull.find(({ id, hidden }) => id === log.pull && !hidden);
    if (log.hidden || pull === undefined || loadChannelOf(channels) === undefined) return [];
    if (rows === 0 || rows > MOST_LOG_READINGS || from_s === null) return [];
    return [{ log, title: titleOf(records, "pull", pull), named: `${titleOf(records, "pull", pull)}: ${log.name}` }];
  });
}

export type LogOfPull = ReturnType<typeof logsOfPulls>[number];
