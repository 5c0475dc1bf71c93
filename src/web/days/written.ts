/** What this device wrote in this visit, as steps that can be taken back: the book's own undo, transaction by transaction. */

import type { WrittenRecord } from "../../record/index.ts";
import { ApiTrouble, book, OutOfReach } from "../api/client.ts";
import { send, writeRecords } from "../api/outbox.ts";
import { announce } from "../controls/announce.ts";
import { device } from "../state/device.ts";
import { createStore, type Undoable } from "../state/store.ts";
import { layOver, look } from "./book-copy.ts";

interface Step {
  /** The transaction that would be taken back (in `past`), or the undo that would be undone (in `future`). */
  readonly transaction: string;
  readonly label: string;
}

interface Steps {
  readonly past: readonly Step[];
  readonly future: readonly Step[];
}

const steps = createStore<Steps>({ past: [], future: [] });
/** One line of what could not be taken back or written. */
export const trouble = createStore<string | null>(null);
/** Counts every change of the book from here: whoever shows marks looks again. */
export const changes = createStore(0);

const changed = (): void => changes.put(changes.get() + 1);

/** What is on its way: whoever takes back means the last that was written, and it counts only once it has arrived. */
let underWay: Promise<unknown> = Promise.resolve();

function sent<T>(one: Promise<T>): Promise<T> {
  underWay = Promise.allSettled([underWay, one]);
  return one;
}

/** @returns null when it is in the book or safe on this device, else the one line that says why not */
export const write = (label: string, records: readonly WrittenRecord[]): Promise<string | null> =>
  sent(writeOne(label, records));

async function writeOne(label: string, records: readonly WrittenRecord[]): Promise<string | null> {
  trouble.put(null);
  const wrote = await writeRecords(label, records);
  if (wrote.kind === "refused") {
    // The form still holds what was written: it need not wait on the device as well.
    await device.remove("outbox", wrote.transaction).catch(() => undefined);
    await send();
    return wrote.why;
  }
  steps.put({ past: [...steps.get().past, { transaction: wrote.transaction, label }], future: [] });
  await (wrote.kind === "joined" ? look() : layOver());
  changed();
  announce(wrote.kind === "joined" ? `${label}: written` : `${label}: waits on this device`);
  return null;
}

/** Puts a record aside, or brings it back: asked of the book itself. @returns the one line of what went wrong */
export async function putAside(kind: string, id: string, hidden: boolean, name: string): Promise<string | null> {
  const label = `${hidden ? "put aside" : "bring back"} ${name}`;
  const wrong = await sent(
    asked(async () => {
      const param = { kind, id };
      const answer = await book.records[":kind"][":id"].hidden.$put({ param, json: { hidden } });
      const { transaction } = await answer.json();
      if (transaction !== null) steps.put({ past: [...steps.get().past, { transaction, label }], future: [] });
    }),
  );
  if (wrong === null) announce(label);
  return wrong;
}

/** Notes a transaction that the server wrote for this device: automatic marks. */
export function noteTransaction(transaction: string, label: string): void {
  steps.put({ past: [...steps.get().past, { transaction, label }], future: [] });
  changed();
}

/** Takes back any transaction of the history. */
export const takeBack = (transaction: string, label: string): Promise<string | null> =>
  sent(
    asked(async () => {
      const answer = await undone(transaction);
      if (answer !== undefined)
        steps.put({
          past: [...steps.get().past, { transaction: answer, label: `taking back ${label}` }],
          future: [],
        });
    }),
  );

/** The transaction that took another back; undefined where nothing was to be taken back. */
async function undone(transaction: string): Promise<string | undefined> {
  const answer = await (await book.undo.$post({ json: { transaction } })).json();
  return answer.kind === "reverted" ? answer.transaction : undefined;
}

async function asked(ask: () => Promise<void>): Promise<string | null> {
  try {
    await ask();
    trouble.put(null);
    await look();
    changed();
    return null;
  } catch (error) {
    if (error instanceof OutOfReach) return "this asks the book, which is out of reach now";
    if (error instanceof ApiTrouble) return error.message;
    throw error;
  }
}

let moving: Promise<void> = Promise.resolve();

/** Moves one step, after all that is under way: whoever asks twice in haste has two taken back. */
function move(from: "past" | "future", to: "past" | "future"): Promise<void> {
  moving = moving
    .catch(() => undefined)
    .then(() => underWay)
    .then(() => moveOne(from, to));
  return moving;
}

async function moveOne(from: "past" | "future", to: "past" | "future"): Promise<void> {
  const step = steps.get()[from].at(-1);
  if (step === undefined) return;
  const wrong = await asked(async () => {
    const answer = await undone(step.transaction);
    const now = steps.get();
    steps.put({
      ...now,
      [from]: now[from].slice(0, -1),
      [to]: [...now[to], { transaction: answer ?? step.transaction, label: step.label }],
    });
    announce(`${from === "past" ? "taken back" : "done again"}: ${step.label}`);
  });
  trouble.put(wrong);
}

export const writtenHere: Undoable = {
  undoLabel: () => steps.get().past.at(-1)?.label ?? null,
  redoLabel: () => steps.get().future.at(-1)?.label ?? null,
  undo: () => void move("past", "future"),
  redo: () => void move("future", "past"),
  subscribe: steps.subscribe,
};
