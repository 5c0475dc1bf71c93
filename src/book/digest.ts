import { createHash } from "node:crypto";
import { asked, type Context } from "./context.ts";
import type { SqlDriver } from "./driver.ts";
import { bytesOf } from "./log-codec.ts";
import { contentRow } from "./log-content.ts";
import { everyRow } from "./log-store.ts";

/**
 * SHA-256 of all a book holds: its history, what was deleted for good, copied files and readings; not of how or where
 * they lie in the file. Two books with equal digests hold the same.
 */
export function bookDigest(context: Context): string {
  return asked(context, () => {
    const { driver } = context;
    const hash = createHash("sha256");
    const lines = (statement: string): void => {
      for (const row of driver.each<Record<string, unknown>>(statement))
        hash.update(`${JSON.stringify(Object.values(row))}\n`);
      hash.update("\n");
    };
    lines("SELECT id, stamp, device, who, at, manner, label, reverts FROM act ORDER BY id");
    lines("SELECT act, record, field, kind, stamp, was, value FROM change ORDER BY act, record, field");
    lines("SELECT record, kind, stamp, device, who, at FROM purged ORDER BY record");
    lines("SELECT sha256, size FROM file ORDER BY sha256");
    for (const { log } of logsWithContent(driver)) {
      const { rows, position, state, finished } = contentRow(driver, log)!;
      hash.update(`${JSON.stringify([log, rows, position, state, finished, logDigest(context, log)])}\n`);
    }
    return hash.digest("hex");
  });
}

export function logsWithContent(driver: SqlDriver): { log: string }[] {
  return driver.all<{ log: string }>("SELECT log FROM log_content ORDER BY log");
}

/** SHA-256 of a log's readings, however they are cut into chunks; channels that never spoke do not count. */
export function logDigest(context: Context, log: string): string {
  const times = createHash("sha256");
  const channels = new Map<string, { hash: ReturnType<typeof createHash>; spoke: boolean }>();
  for (const rows of everyRow(context, log)) {
    times.update(bytesOf(rows.times));
    for (const [name, values] of Object.entries(rows.columns)) {
      const channel = channels.get(name) ?? { hash: createHash("sha256"), spoke: false };
      channel.hash.update(bytesOf(values));
      channel.spoke ||= !values.every(Number.isNaN);
      channels.set(name, channel);
    }
  }
  const spoken = [...channels].filter(([, c]) => c.spoke).map(([name, c]) => [name, c.hash.digest("hex")] as const);
  spoken.sort(([a], [b]) => (a < b ? -1 : 1));
  return createHash("sha256")
    .update(JSON.stringify([times.digest("hex"), spoken]))
    .digest("hex");
}
