/** What this device wrote in this visit, as steps that can be taken back: the book's own undo, act by act. */
import { ApiTrouble, api, OutOfReach } from "../api/client.ts";
import { send, type WrittenRecord, writeRecords } from "../api/outbox.ts";
import { announce } from "../show/announce.ts";
import { device } from "../state/device.ts";
import { createStore, type Undoable } from "../state/store.ts";
import { layOver, look } from "./book-copy.ts";

interface Step {
  /** The act that would be taken back (in `past`), or the undo that would be undone (in `future`). */
  readonly act: string;
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

/** @returns null when it is in the book or safe on this device, else the one line that says why not */
export async function write(label: string, records: readonly WrittenRecord[]): Promise<string | null> {
  trouble.put(null);
  const wrote = await writeRecords(label, records);
  if (wrote.kind === "refused") {
    // The form still holds what was written: it need not wait on the device as well.
    await device.remove("outbox", wrote.act).catch(() => undefined);
    await send();
    return wrote.why;
  }
  steps.put({ past: [...steps.get().past, { act: wrote.act, label }], future: [] });
  await (wrote.kind === "joined" ? look() : layOver());
  changed();
  announce(wrote.kind === "joined" ? `${label}: written` : `${label}: waits on this device`);
  return null;
}

/** Puts a record aside, or brings it back: asked of the book itself. @returns the one line of what went wrong */
export async function putAside(kind: string, id: string, hidden: boolean, name: string): Promise<string | null> {
  const label = `${hidden ? "put aside" : "bring back"} ${name}`;
  const wrong = await asked(async () => {
    const { act } = await api.put<{ act: string | null }>(`/records/${kind}/${id}/hidden`, { hidden });
    if (act !== null) steps.put({ past: [...steps.get().past, { act, label }], future: [] });
  });
  if (wrong === null) announce(label);
  return wrong;
}

/** Notes an act that the server wrote for this device: automatic marks. */
export function noteAct(act: string, label: string): void {
  steps.put({ past: [...steps.get().past, { act, label }], future: [] });
  changed();
}

/** Takes back any act of the history. */
export const takeBack = (act: string, label: string): Promise<string | null> =>
  asked(async () => {
    const answer = await api.post<{ act?: string }>("/undo", { act });
    if (answer.act !== undefined)
      steps.put({ past: [...steps.get().past, { act: answer.act, label: `taking back ${label}` }], future: [] });
  });

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

/** Moves one step, after those that are under way: whoever asks twice in haste has two taken back. */
function move(from: "past" | "future", to: "past" | "future"): Promise<void> {
  moving = moving.catch(() => undefined).then(() => moveOne(from, to));
  return moving;
}

async function moveOne(from: "past" | "future", to: "past" | "future"): Promise<void> {
  const step = steps.get()[from].at(-1);
  if (step === undefined) return;
  const wrong = await asked(async () => {
    const answer = await api.post<{ act?: string }>("/undo", { act: step.act });
    const now = steps.get();
    steps.put({
      ...now,
      [from]: now[from].slice(0, -1),
      [to]: [...now[to], { act: answer.act ?? step.act, label: step.label }],
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
