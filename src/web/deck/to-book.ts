/**
 * The way of a pull into the book. What it is goes as one transaction when it begins, its readings row by row as they come,
 * its steps, marks and result as a second transaction when it ended. Each has its id or its place made before it is sent:
 * however often it is sent, the book has it once. What does not get through waits on this device.
 */
import type { WrittenRecord } from "../../record/index.ts";
import { ApiTrouble, book, lineOf, OutOfReach } from "../api/client.ts";
import { ownId } from "../api/outbox.ts";
import { deckStore, deckTrouble, keep } from "./keep.ts";
import { forgetReadings, keptReadings } from "./live/kept-readings.ts";
import { gapsOf, type LiveReading, type LiveSource } from "./live/reading.ts";
import { endByServer } from "./live/server-link.ts";
import { type DeckPull, loadsOf, rowsOf } from "./pull.ts";
import {
  beginRecords,
  endRecords,
  gapRecords,
  gapsOfId,
  iso,
  type MarkedLog,
  markIdOf,
  portLogRecords,
  typedLogOf,
  typedLogRecords,
} from "./pull-records.ts";

let sending: Promise<void> | undefined;
let again = false;

/** Brings to the book what it has not yet, of every pull on this device; asked while under way, once more after it. */
export function bring(): Promise<void> {
  if (sending !== undefined) {
    again = true;
    return sending;
  }
  sending = (async () => {
    do {
      again = false;
      const state = deckStore.get();
      for (const pull of [...(state?.waiting ?? []), ...(state?.pull ? [state.pull] : [])]) await bringOne(pull);
    } while (again);
  })().finally(() => {
    sending = undefined;
  });
  return sending;
}

async function bringOne(pull: DeckPull): Promise<void> {
  try {
    const of = pull.anchor || "an anchor";
    if (!pull.helps) await write(pull, pull.ids.begin, pull.begunAt, `begin a pull of ${of}`, () => beginRecords(pull));
    const logs = await bringLive(pull);
    const typed = loadsOf(pull).length > 0 || (pull.ended !== null && logs.length === 0);
    if (typed) {
      await write(pull, typedLogOf(pull), pull.begunAt, "loads typed on deck", () => typedLogRecords(pull));
      if ((await bringRows(pull)) < loadsOf(pull).length) return;
    }
    if (pull.ended === null) return;
    const records = endRecords(pull, markIdOf(pull), logs[0]);
    const label = `${pull.helps ? "help with" : "end"} a pull of ${of}`;
    if (records.length > 0) await write(pull, pull.ids.end, pull.ended.at, label, () => records);
    await keep((before) => ({ ...before, waiting: before.waiting.filter(({ ids }) => ids.pull !== pull.ids.pull) }));
    await forgetReadings(pull.ids.pull).catch(() => undefined);
  } catch (error) {
    // Out of reach: everything stays on this device and is tried again.
    if (error instanceof OutOfReach) return;
    if (!(error instanceof ApiTrouble)) throw error;
    deckTrouble.put(`the book did not take the pull: ${error.message}; it stays on this device`);
  }
}

/**
 * Readings of instruments: what this device reads itself is brought; what the server reads it has, and ends with the pull.
 * @returns logs that hold some, once the pull has ended
 */
async function bringLive(pull: DeckPull): Promise<MarkedLog[]> {
  const logs: MarkedLog[] = [];
  for (const source of pull.live ?? []) {
    const { clock } = source;
    if (source.via === "server") {
      // Its log ends with the pull, by whoever runs that.
      const ended = pull.ended === null || pull.helps ? source.log : await endByServer(pull.ids.pull, source.name);
      const log = pull.ended === null ? null : ended;
      if (log !== null) logs.push({ log, clock });
      continue;
    }
    const { rows } = await keptReadings(pull.ids.pull, source.name);
    if (source.log === null || source.channels.length === 0 || rows.length === 0) continue;
    await write(pull, source.begin, pull.begunAt, `readings of ${source.name}`, () => portLogRecords(pull, source));
    await sendRows(source.log, portRows(rows, source), pull.ended !== null);
    logs.push({ log: source.log, clock });
    const gaps = pull.ended === null ? [] : gapsOf(rows);
    if (gaps.length > 0) await write(pull, gapsOfId(source), pull.begunAt, "mark gaps", () => gapRecords(source, gaps));
  }
  return logs;
}

const portRows = (rows: readonly LiveReading[], { channels }: LiveSource): SentRows => ({
  times_s: rows.map(({ time_s }) => time_s),
  columns: Object.fromEntries(channels.map(({ name }) => [name, rows.map(({ values }) => values[name] ?? null)])),
});

/** Rows of each log the book said it has, in this visit. */
const rowsThere = new Map<string, number>();
/** Rows the server takes at once. */
const MOST_ROWS = 5_000;

/** Rows of a log, a column a channel. */
interface SentRows {
  readonly times_s: readonly number[];
  readonly columns: Readonly<Record<string, readonly (number | null)[]>>;
}

/** @returns rows of the log of typed loads in the book */
function bringRows(pull: DeckPull): Promise<number> {
  const rows = rowsOf(pull);
  const sent = { times_s: rows.map(({ at }) => at / 1000), columns: { load: rows.map(({ newtons }) => newtons) } };
  return sendRows(pull.ids.log, sent, pull.ended !== null);
}

/** @returns rows of the log in the book */
async function sendRows(log: string, { times_s, columns }: SentRows, ended: boolean): Promise<number> {
  for (;;) {
    const from = Math.min(rowsThere.get(log) ?? 0, times_s.length);
    const to = Math.min(from + MOST_ROWS, times_s.length);
    const last = to === times_s.length;
    const answer = await book.logs[":id"].rows.$post({
      param: { id: log },
      json: {
        from,
        times_s: times_s.slice(from, to),
        columns: Object.fromEntries(Object.entries(columns).map(([name, all]) => [name, all.slice(from, to)])),
        finished: last && ended,
      },
    });
    rowsThere.set(log, (await answer.json()).rows);
    if (last) return rowsThere.get(log)!;
  }
}

/** Transactions the book said it has, in this visit. */
const written = new Set<string>();

/**
 * Writes a transaction under the id made for it when the pull began; the book knows one it has. It goes past the outbox:
 * this place keeps what it is made from, and says itself what waits.
 * @throws OutOfReach, ApiTrouble
 */
async function write(
  { book: forBook }: DeckPull,
  id: string,
  at: number,
  label: string,
  records: () => WrittenRecord[],
): Promise<void> {
  if (written.has(id)) return;
  const named = forBook === undefined ? {} : { book: forBook };
  const transaction = { id, device: await ownId(), at: iso(at), label, records: records(), ...named };
  const { transactions } = await (await book.join.$post({ json: { transactions: [transaction] } })).json();
  const [became] = transactions;
  if (became?.kind === "otherBook")
    throw new ApiTrouble(409, "it was begun for another book, and goes there when that is open again", {});
  if (became?.kind === "refused") {
    const body = became as unknown as Record<string, unknown>;
    throw new ApiTrouble(400, lineOf(body, 400), body);
  }
  written.add(id);
}
