/**
 * What is written on this device reaches the book once, whatever happens on the way: each act is put on the device's
 * own store first, with an id of its own, and let go only when the book says that it has it. Sent twice, it is known.
 */
import { useEffect } from "react";
import { device } from "../state/device.ts";
import { createStore } from "../state/store.ts";
import { useStore } from "../state/use-store.ts";
import { ApiTrouble, api, lineOf, OutOfReach } from "./client.ts";
import { newId } from "./ids.ts";

/** A record as this device wants it: new (`makes`), or changed in some fields. */
export interface WrittenRecord {
  readonly kind: string;
  readonly id: string;
  readonly makes: boolean;
  readonly set: Readonly<Record<string, unknown>>;
  /** What the device saw in the fields it changes. */
  readonly was?: Readonly<Record<string, unknown>>;
}

export interface Act {
  readonly id: string;
  readonly device: string;
  readonly at: string;
  readonly label: string;
  readonly records: readonly WrittenRecord[];
}

interface Kept {
  readonly act: Act;
  /** Set when the book refused it: it is not sent again by itself. */
  readonly refused?: string;
}

interface Outbox {
  readonly waiting: number;
  readonly refused: readonly { readonly id: string; readonly label: string; readonly why: string }[];
  readonly sending: boolean;
}

const outbox = createStore<Outbox>({ waiting: 0, refused: [], sending: false });
/** Acts a batch carries at most; the server takes a thousand. */
const BATCH = 200;

async function look(): Promise<readonly Kept[]> {
  const kept = ((await device.all("outbox").catch(() => [])) as Kept[]).sort((a, b) => (a.act.id < b.act.id ? -1 : 1));
  outbox.put({
    ...outbox.get(),
    waiting: kept.filter(({ refused }) => refused === undefined).length,
    refused: kept.flatMap(({ act, refused }) =>
      refused === undefined ? [] : [{ id: act.id, label: act.label, why: refused }],
    ),
  });
  return kept;
}

/** This device's own id in the book's history: made once. */
async function ownId(): Promise<string> {
  const known = await device.get("states", "device id").catch(() => undefined);
  if (typeof known === "string") return known;
  const made = newId();
  await device.put("states", "device id", made);
  return made;
}

export type Wrote =
  /** The book has it. */
  | { readonly kind: "joined"; readonly act: string }
  /** It is safe on this device and goes to the book when that is reached. */
  | { readonly kind: "waits"; readonly act: string }
  | { readonly kind: "refused"; readonly act: string; readonly why: string };

/**
 * Writes records as one act of history.
 * @throws when the device itself cannot keep it: nothing was written then
 */
export async function writeRecords(label: string, records: readonly WrittenRecord[]): Promise<Wrote> {
  const act: Act = { id: newId(), device: await ownId(), at: new Date().toISOString(), label, records };
  await device.put("outbox", act.id, { act } satisfies Kept);
  await look();
  const became = (await send()).get(act.id);
  if (became === undefined) return { kind: "waits", act: act.id };
  return became === "" ? { kind: "joined", act: act.id } : { kind: "refused", act: act.id, why: became };
}

type Answered = { readonly act: string; readonly kind: "joined" | "known" | "refused"; readonly error?: unknown };

let last: Promise<unknown> = Promise.resolve();

/** Sends what waits; of each act sent, "" when the book has it, or why it was refused. One sending at a time. */
export function send(): Promise<ReadonlyMap<string, string>> {
  // What was written while a sending was under way goes with the next.
  const sending = last.catch(() => undefined).then(sendAll);
  last = sending;
  return sending;
}

async function sendAll(): Promise<ReadonlyMap<string, string>> {
  const became = new Map<string, string>();
  outbox.put({ ...outbox.get(), sending: true });
  try {
    for (;;) {
      const acts = (await look()).filter(({ refused }) => refused === undefined).slice(0, BATCH);
      if (acts.length === 0) break;
      const answer = await api.post<{ acts: readonly Answered[] }>("/join", { acts: acts.map(({ act }) => act) });
      if (answer.acts.length === 0) break;
      for (const one of answer.acts) {
        const kept = acts.find(({ act }) => act.id === one.act);
        if (kept === undefined) continue;
        if (one.kind === "refused") {
          const why = lineOf(one as unknown as Record<string, unknown>, 400);
          await device.put("outbox", one.act, { ...kept, refused: why });
          became.set(one.act, why);
        } else {
          await device.remove("outbox", one.act);
          became.set(one.act, "");
        }
      }
    }
  } catch (error) {
    // Out of reach, or the book in trouble: everything stays here and is tried again.
    if (!(error instanceof OutOfReach || error instanceof ApiTrouble)) throw error;
  } finally {
    outbox.put({ ...outbox.get(), sending: false });
    await look();
  }
  return became;
}

/** Gives up an act the book refused: it leaves this device. */
async function letGo(id: string): Promise<void> {
  await device.remove("outbox", id);
  await look();
}

const AGAIN = 20_000;
let following = false;

/** Tries again when the network is back, when the page is shown again, and now and then while something waits. */
function follow(): void {
  if (following) return;
  following = true;
  const retry = () => {
    if (outbox.get().waiting > 0 && !outbox.get().sending) void send().catch(() => undefined);
  };
  window.addEventListener("online", retry);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") retry();
  });
  setInterval(retry, AGAIN);
  void look().then(retry);
}

export function useOutbox() {
  useEffect(follow, []);
  return { ...useStore(outbox), send, letGo };
}
