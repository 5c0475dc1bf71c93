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
import { type DeckPull, loadsOf, rowsOf, standing, stepsHeld } from "./pull.ts";

const iso = (ms: number) => new Date(ms).toISOString();

/** The date of a moment on this device's own clock. */
export function dateOf(ms: number): string {
  const at = new Date(ms);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

const make = (kind: string, id: string, set: Record<string, unknown>): WrittenRecord => ({
  kind,
  id,
  makes: true,
  set,
});

/** Records of a pull that begins. */
export function beginRecords(pull: DeckPull): WrittenRecord[] {
  const { ids, known, rig, deployed } = pull;
  return [
    ...(known.day ? [] : [make("day", ids.day, { date: dateOf(pull.begunAt) })]),
    ...(known.anchor || pull.anchor === "" ? [] : [make("anchor", ids.anchor, { name: pull.anchor, shape: "other" })]),
    make("rig", ids.rig, { name: rig.name }),
    make("rigVersion", ids.rigVersion, { rig: ids.rig, file: rig.file }),
    make("pull", ids.pull, {
      day: ids.day,
      ...(pull.anchor === "" ? {} : { anchor: ids.anchor }),
      rigVersion: ids.rigVersion,
      startedAt: iso(pull.begunAt),
      depth_m: deployed.depth ?? null,
      paidOut_m: deployed.paidOut ?? null,
      loadAt: "bow",
      ...(pull.code === null ? {} : { remarks: `planned pull ${pull.code}` }),
    }),
  ];
}

/** The log of loads that were typed. */
export const typedLogRecords = ({ ids }: Pick<DeckPull, "ids">): WrittenRecord[] => [
  make("log", ids.log, {
    pull: ids.pull,
    name: "Loads read on deck",
    source: "typed on deck",
    channels: [{ name: "load", quantity: "load", unit: "N", precision: "double" }],
  }),
];

/** The log of an instrument this device reads itself. */
export const portLogRecords = (
  { ids }: Pick<DeckPull, "ids">,
  { log, name, channels }: LiveSource,
): WrittenRecord[] => [make("log", log!, { pull: ids.pull, name: `${name} on deck`, source: name, channels })];

/** A log that marks are laid on, and how far this device's clock is ahead of its own, ms. */
export interface MarkedLog {
  readonly log: string;
  readonly clock: number;
}

/**
 * Steps, marks and result of a pull that ended.
 * @param markId the id of the n-th mark
 * @param on the log the marks are laid on
 */
export function endRecords(
  pull: DeckPull,
  markId: (n: number) => string,
  on: MarkedLog = { log: pull.ids.log, clock: 0 },
): WrittenRecord[] {
  const { ids, ended } = pull;
  if (ended === null) return [];
  const mark = (
    n: number,
    kind: string,
    at: number,
    remarks: string,
    detail?: Record<string, unknown>,
  ): WrittenRecord => ({
    kind: "mark",
    id: markId(n),
    makes: true,
    set: {
      log: on.log,
      kind,
      from_s: (at - on.clock) / 1000,
      origin: "by hand",
      remarks,
      ...(detail === undefined ? {} : { detail }),
    },
  });
  const stepMark = (n: number, at: number, step: number) => {
    const { kind = "on", paidOut } = pull.steps[step] ?? {};
    return mark(n, "step", at, `step ${step + 1}: ${kind}`, paidOut === undefined ? undefined : { paidOut_m: paidOut });
  };
  const marks = standing(pull).flatMap((one) => {
    switch (one.kind) {
      case "gaveWay":
        return [mark(one.n, "drag", one.at, "gave way, by touch on deck")];
      case "moved":
        return [mark(one.n, "note", one.at, "moved, by touch on deck")];
      case "stop":
        return [mark(one.n, "note", one.at, "stop, by touch on deck")];
      case "step":
        return [stepMark(one.n, one.at, one.step)];
      case "angle":
        return [mark(one.n, "note", one.at, "angle of the rode by the device", { angle_rad: one.angle, u_rad: one.u })];
      default:
        return [];
    }
  });
  const result =
    ended.kind === "none"
      ? { kind: "none" }
      : { kind: ended.kind, ...(ended.load === null ? {} : { load_N: ended.load, u_N: pull.loadU }) };
  const endedBy =
    ended.kind === "gaveWay" ? "drag" : standing(pull).some(({ kind }) => kind === "stop") ? "stopped by tester" : null;
  return [
    {
      kind: "pull",
      id: ids.pull,
      makes: false,
      set: { steps: ended.steps ?? stepsHeld(pull), result, ...(endedBy === null ? {} : { endedBy }) },
    },
    ...marks,
  ];
}

/** Ids of marks, made from the end's own: the same each time it is written. Their last twelve signs count them. */
export const markIdOf =
  ({ ids }: Pick<DeckPull, "ids">) =>
  (n: number): string =>
    `${ids.end.slice(0, 24)}${n.toString(16).padStart(12, "0")}`;

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
    await write(pull.ids.begin, pull.begunAt, `begin a pull of ${of}`, () => beginRecords(pull));
    const logs = await bringLive(pull);
    const typed = loadsOf(pull).length > 0 || (pull.ended !== null && logs.length === 0);
    if (typed) {
      await write(typedLogOf(pull), pull.begunAt, "loads typed on deck", () => typedLogRecords(pull));
      if ((await bringRows(pull)) < loadsOf(pull).length) return;
    }
    if (pull.ended === null) return;
    await write(pull.ids.end, pull.ended.at, `end a pull of ${of}`, () => endRecords(pull, markIdOf(pull), logs[0]));
    await keep((before) => ({ ...before, waiting: before.waiting.filter(({ ids }) => ids.pull !== pull.ids.pull) }));
    await forgetReadings(pull.ids.pull).catch(() => undefined);
  } catch (error) {
    // Out of reach: everything stays on this device and is tried again.
    if (error instanceof OutOfReach) return;
    if (!(error instanceof ApiTrouble)) throw error;
    deckTrouble.put(`the book did not take the pull: ${error.message}; it stays on this device`);
  }
}

/** The transaction that makes the log of typed loads: the beginning's id with its last signs counted on. */
const typedLogOf = ({ ids }: Pick<DeckPull, "ids">): string => `${ids.begin.slice(0, 24)}${"1".padStart(12, "0")}`;

/**
 * Readings of instruments: what this device reads itself is brought; what the server reads it has, and ends with the pull.
 * @returns logs that hold some, once the pull has ended
 */
async function bringLive(pull: DeckPull): Promise<MarkedLog[]> {
  const logs: MarkedLog[] = [];
  for (const source of pull.live ?? []) {
    const { clock } = source;
    if (source.via === "server") {
      const log = pull.ended === null ? null : await endByServer(pull.ids.pull, source.name);
      if (log !== null) logs.push({ log, clock });
      continue;
    }
    const { rows } = await keptReadings(pull.ids.pull, source.name);
    if (source.log === null || source.channels.length === 0 || rows.length === 0) continue;
    await write(source.begin, pull.begunAt, `readings of ${source.name}`, () => portLogRecords(pull, source));
    await sendRows(source.log, portRows(rows, source), pull.ended !== null);
    logs.push({ log: source.log, clock });
    const gaps = pull.ended === null ? [] : gapsOf(rows);
    if (gaps.length > 0) await write(gapsOfId(source), pull.begunAt, "mark gaps", () => gapRecords(source, gaps));
  }
  return logs;
}

const portRows = (rows: readonly LiveReading[], { channels }: LiveSource): SentRows => ({
  times_s: rows.map(({ time_s }) => time_s),
  columns: Object.fromEntries(channels.map(({ name }) => [name, rows.map(({ values }) => values[name] ?? null)])),
});

const gapsOfId = ({ begin }: LiveSource): string => `${begin.slice(0, 24)}${"1".padStart(12, "0")}`;

const gapRecords = ({ log, begin }: LiveSource, gaps: ReturnType<typeof gapsOf>): WrittenRecord[] =>
  gaps.map(({ from, to }, n) =>
    make("mark", `${begin.slice(0, 24)}${(n + 2).toString(16).padStart(12, "0")}`, {
      log,
      kind: "gap",
      from_s: from,
      to_s: to,
      origin: "automatic",
      remarks: "no reading came from the instrument",
    }),
  );

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
async function write(id: string, at: number, label: string, records: () => WrittenRecord[]): Promise<void> {
  if (written.has(id)) return;
  const transaction = { id, device: await ownId(), at: iso(at), label, records: records() };
  const { transactions } = await (await book.join.$post({ json: { transactions: [transaction] } })).json();
  const [became] = transactions;
  if (became?.kind === "refused") {
    const body = became as unknown as Record<string, unknown>;
    throw new ApiTrouble(400, lineOf(body, 400), body);
  }
  written.add(id);
}
