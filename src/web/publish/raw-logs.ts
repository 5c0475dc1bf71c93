/** What was read during the pulls that go out, fetched from the book whole. */
import type { RawLog } from "../../publish/index.ts";
import { InputError } from "../../quantity/index.ts";
import type { LogHere } from "../days/book-copy.ts";
import { columnsOf } from "../days/log/readings.ts";
import type { OutgoingAsked } from "./work.ts";

/** Values a browser holds at once beside all else: some 100 MB of table. */
const MOST_VALUES = 10_000_000;

/** @throws InputError for more than a browser holds; the command has no such limit */
export async function rawLogsOf(
  { records, series }: Pick<OutgoingAsked, "records" | "series">,
  logs: readonly LogHere[],
  signal: AbortSignal,
): Promise<RawLog[]> {
  const pulls = new Set(
    records.pull.filter((pull) => !pull.hidden && (series === "" || pull.series === series)).map(({ id }) => id),
  );
  const wanted = logs.filter(({ pull, hidden }) => !hidden && pull !== null && pulls.has(pull));
  const values = wanted.reduce((sum, { content }) => sum + content.rows * (content.channels.length + 1), 0);
  if (values > MOST_VALUES)
    throw new InputError(
      "logs",
      `${values} values`,
      `at most ${MOST_VALUES} are expected here; rodebench publish data --raw-logs takes any number`,
    );
  const raw: RawLog[] = [];
  for (const log of wanted) {
    const { channels, from_s, to_s } = log.content;
    if (from_s === null || to_s === null) continue;
    const names = channels.map(({ name }) => name);
    const { time, columns } = await columnsOf(log, names, { from: from_s, to: to_s }, signal);
    raw.push({ pull: log.pull!, channels, time, values: names.map((name) => columns.get(name)!) });
  }
  return raw;
}
