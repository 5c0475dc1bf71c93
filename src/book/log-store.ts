import type { FieldsOf } from "../record/index.ts";
import { type Context, writing } from "./context.ts";
import { CHUNK_ROWS, type Rows, readChunk } from "./log-chunk.ts";
import {
  appendChunks,
  channelsOf,
  checkRows,
  contentRow,
  keepContent,
  type LogProgress,
  logProgress,
  openContent,
  slice,
} from "./log-content.ts";
import { liveRows, sealLive } from "./log-live.ts";
import { writeRecords } from "./records.ts";
import { BookTrouble } from "./trouble.ts";

/**
 * The log of a source: the one begun before when `fingerprint` is known (and not hidden), else a new one.
 * So a source is never imported twice, and an interrupted import goes on where it stopped.
 */
export function openLog(context: Context, set: FieldsOf<"log">): LogProgress {
  return writing(context, () => {
    const known =
      typeof set.fingerprint === "string"
        ? context.driver.get<{ id: string }>("SELECT id FROM log WHERE fingerprint = ? AND hidden = 0 ORDER BY id", [
            set.fingerprint,
          ])
        : undefined;
    if (known) return logProgress(context, known.id);
    const { ids } = writeRecords(context, [{ kind: "log", set }], "add log");
    keepContent(context.driver, ids[0]!, { rows: 0, position: 0, state: null, finished: 0 });
    return { ...logProgress(context, ids[0]!), kind: "new" };
  });
}

/**
 * Appends rows and moves the source's position on, both or neither: after a kill the rows in the book are exactly those
 * up to the position in the book.
 * @param read where the rows began (the position in the book, or the append is refused: someone else has read on),
 * where they ended, and the reader's state there
 */
export function appendRows(
  context: Context,
  log: string,
  rows: Rows,
  read: { readonly from: number; readonly to: number; readonly state?: unknown },
): LogProgress {
  return writing(context, () => {
    const { driver } = context;
    const content = openContent(context, log);
    if (content.position !== read.from)
      throw new BookTrouble(
        "busy",
        context.path,
        `log ${log} stands at ${content.position}, not at ${read.from}: another program is reading the same source`,
        "one reader at a time is expected",
      );
    const channels = channelsOf(context, log);
    checkRows(rows, channels);
    sealLive(context, log, channels, content.rows);
    const total = appendChunks(context, log, channels, rows, content.rows);
    const state = read.state === undefined ? content.state : JSON.stringify(read.state);
    keepContent(driver, log, { rows: total, position: read.to, state, finished: 0 });
    return logProgress(context, log);
  });
}

/** No more comes: seals the log. Finishing twice changes nothing. */
export function finishLog(context: Context, log: string, state?: unknown): LogProgress {
  return writing(context, () => {
    const progress = logProgress(context, log);
    if (progress.kind === "finished") return progress;
    const content = openContent(context, log);
    sealLive(context, log, channelsOf(context, log), content.rows);
    const kept = state === undefined ? content.state : JSON.stringify(state);
    keepContent(context.driver, log, { ...content, state: kept, finished: 1 });
    return logProgress(context, log);
  });
}

/** All rows of a log, a chunk at a time, the live ones last. */
export function* everyRow(context: Context, log: string, only?: readonly string[]): Generator<Rows> {
  const channels = channelsOf(context, log);
  const names = only ?? channels.map((c) => c.name);
  const rows = contentRow(context.driver, log)?.rows ?? 0;
  const live = liveRows(context, log, channels);
  const sealed = rows - live.times.length;
  for (let n = 0; n * CHUNK_ROWS < sealed; n++) {
    const chunk = readChunk(context, log, n, names);
    // The last may have grown since by rows that also lie in `live`.
    yield slice(chunk, 0, Math.min(CHUNK_ROWS, sealed - n * CHUNK_ROWS));
  }
  if (live.times.length > 0) yield live;
}
