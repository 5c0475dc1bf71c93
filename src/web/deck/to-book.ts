/**
 * The way of a pull into the book. What it is goes as one transaction when it begins, its readings row by row as they come,
 * its steps, marks and result as a second transaction when it ended. Each has its id or its place made before it is sent:
 * however often it is sent, the book has it once. What does not get through waits on this device.
 */
import type { WrittenRecord } from "../../record/index.ts";
import { ApiTrouble, book, lineOf, OutOfReach } from "../api/client.ts";
import { ownId } from "../api/outbox.ts";
import { deckStore, deckTrouble, keep } from "./keep.ts";
import { type DeckPull, loadsOf, rowsOf, standing } from "./pull.ts";

const iso = (ms: number) => new Date(ms).toISOString();

/** The date of a moment on this device's own clock. */
export function dateOf(ms: number): string {
  const at = new Date(ms);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** Records of a pull that begins. */
export function beginRecords(pull: DeckPull): WrittenRecord[] {
  const { ids, known, rig, deployed } = pull;
  const make = (kind: string, id: string, set: Record<string, unknown>): WrittenRecord => ({
    kind,
    id,
    makes: true,
    set,
  });
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
    make("log", ids.log, {
      pull: ids.pull,
      name: "Loads read on deck",
      source: "typed on deck",
      channels: [{ name: "load", quantity: "load", unit: "N", precision: "double" }],
    }),
  ];
}

/** Steps, marks and result of a pull that ended. @param markId the id of the n-th mark */
export function endRecords(pull: DeckPull, markId: (n: number) => string): WrittenRecord[] {
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
      log: ids.log,
      kind,
      from_s: at / 1000,
      origin: "by hand",
      remarks,
      ...(detail === undefined ? {} : { detail }),
    },
  });
  const marks = standing(pull).flatMap((one) => {
    switch (one.kind) {
      case "gaveWay":
        return [mark(one.n, "drag", one.at, "gave way, by touch on deck")];
      case "moved":
        return [mark(one.n, "note", one.at, "moved, by touch on deck")];
      case "stop":
        return [mark(one.n, "note", one.at, "stop, by touch on deck")];
      case "step":
        return [mark(one.n, "step", one.at, `step ${one.step + 1}: ${pull.steps[one.step]?.kind ?? "on"}`)];
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
      set: { steps: stepsHeld(pull), result, ...(endedBy === null ? {} : { endedBy }) },
    },
    ...marks,
  ];
}

/** Each step with the middle load read in it and the time from its first to its last reading. */
function stepsHeld(pull: DeckPull): { load_N: number; duration_s: number }[] {
  const byStep = new Map<number, { loads: number[]; from: number; to: number }>();
  let step = 0;
  for (const one of standing(pull)) {
    if (one.kind === "step") step = one.step;
    if (one.kind !== "load") continue;
    const own = byStep.get(step) ?? { loads: [], from: one.at, to: one.at };
    byStep.set(step, { loads: [...own.loads, one.newtons], from: own.from, to: one.at });
  }
  return [...byStep.values()].map(({ loads, from, to }) => ({
    load_N: loads.sort((a, b) => a - b)[Math.floor(loads.length / 2)]!,
    duration_s: (to - from) / 1000,
  }));
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
    const kept = await bringRows(pull);
    if (pull.ended === null || kept < loadsOf(pull).length) return;
    await write(pull.ids.end, pull.ended.at, `end a pull of ${of}`, () => endRecords(pull, markIdOf(pull)));
    await keep((before) => ({ ...before, waiting: before.waiting.filter(({ ids }) => ids.pull !== pull.ids.pull) }));
  } catch (error) {
    // Out of reach: everything stays on this device and is tried again.
    if (error instanceof OutOfReach) return;
    if (!(error instanceof ApiTrouble)) throw error;
    deckTrouble.put(`the book did not take the pull: ${error.message}; it stays on this device`);
  }
}

/** Rows of each log the book said it has, in this visit. */
const rowsThere = new Map<string, number>();
/** Rows the server takes at once. */
const MOST_ROWS = 5_000;

/** @returns rows of the log in the book */
async function bringRows(pull: DeckPull): Promise<number> {
  const rows = rowsOf(pull);
  const { log } = pull.ids;
  for (;;) {
    const from = Math.min(rowsThere.get(log) ?? 0, rows.length);
    const some = rows.slice(from, from + MOST_ROWS);
    const last = from + some.length === rows.length;
    const answer = await book.logs[":id"].rows.$post({
      param: { id: log },
      json: {
        from,
        times_s: some.map(({ at }) => at / 1000),
        columns: { load: some.map(({ newtons }) => newtons) },
        finished: last && pull.ended !== null,
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
