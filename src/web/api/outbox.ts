/**
 * What is written on this device reaches the book once, whatever happens on the way: each transaction is put on the device's
 * own store first, with an id of its own, and let go only when the book says that it has it. Sent twice, it is known.
 */
import { useEffect } from "react";
import type { WrittenRecord } from "../../record/index.ts";
import { device } from "../state/device.ts";
import { createStore } from "../state/store.ts";
import { useStore } from "../state/use-store.ts";
import { bookHere } from "./book-here.ts";
import { ApiTrouble, book, lineOf, OutOfReach } from "./client.ts";
import { newId } from "./ids.ts";

export interface Transaction {
  readonly id: string;
  readonly device: string;
  readonly at: string;
  readonly label: string;
  readonly records: WrittenRecord[];
  /** The id of the book it was written for; none from a device that had seen no book. */
  readonly book?: string;
}

interface Kept {
  readonly transaction: Transaction;
  /** Set when the book refused it: it is not sent again by itself. */
  readonly refused?: string;
}

interface Outbox {
  readonly waiting: number;
  /** What waits for another book than the one that is open. */
  readonly elsewhere: number;
  readonly refused: readonly { readonly id: string; readonly label: string; readonly why: string }[];
  readonly sending: boolean;
}

const outbox = createStore<Outbox>({ waiting: 0, elsewhere: 0, refused: [], sending: false });
/** Transactions a batch carries at most; the server takes a thousand. */
const BATCH = 200;

/** As a device kept one before: under another name. */
type KeptBefore = Omit<Kept, "transaction"> & { readonly act: Transaction };

/** What is kept on this device, in the order written: ids of version 7 sort by their time. */
async function keptHere(): Promise<readonly Kept[]> {
  const all = (await device.all("outbox").catch(() => [])) as (Kept | KeptBefore)[];
  return all
    .map((one): Kept => {
      if ("transaction" in one) return one;
      const { act, ...rest } = one;
      return { transaction: act, ...rest };
    })
    .sort((a, b) => (a.transaction.id < b.transaction.id ? -1 : 1));
}

/** Transactions that wait on this device for the book it last saw, in the order written. */
export async function waitingHere(): Promise<readonly Transaction[]> {
  const here = await bookHere();
  return (await keptHere()).flatMap(({ transaction, refused }) =>
    refused === undefined && isFor(transaction, here) ? [transaction] : [],
  );
}

const isFor = ({ book: written }: Transaction, here: string | undefined): boolean =>
  written === undefined || here === undefined || written === here;

async function look(): Promise<readonly Kept[]> {
  const [kept, here] = await Promise.all([keptHere(), bookHere()]);
  const unsent = kept.filter(({ refused }) => refused === undefined);
  const waiting = unsent.filter(({ transaction }) => isFor(transaction, here)).length;
  outbox.put({
    ...outbox.get(),
    waiting,
    elsewhere: unsent.length - waiting,
    refused: kept.flatMap(({ transaction, refused }) =>
      refused === undefined ? [] : [{ id: transaction.id, label: transaction.label, why: refused }],
    ),
  });
  return kept;
}

/** This device's own id in the book's history: made once. */
export async function ownId(): Promise<string> {
  const known = await device.get("states", "device id").catch(() => undefined);
  if (typeof known === "string") return known;
  const made = newId();
  await device.put("states", "device id", made);
  return made;
}

export type Wrote =
  /** The book has it. */
  | { readonly kind: "joined"; readonly transaction: string }
  /** It is safe on this device and goes to the book when that is reached. */
  | { readonly kind: "waits"; readonly transaction: string }
  | { readonly kind: "refused"; readonly transaction: string; readonly why: string };

/**
 * Writes records as one transaction of history.
 * @throws when the device itself cannot keep it: nothing was written then
 */
export async function writeRecords(label: string, records: readonly WrittenRecord[]): Promise<Wrote> {
  const here = await bookHere();
  const transaction: Transaction = {
    id: newId(),
    device: await ownId(),
    at: new Date().toISOString(),
    label,
    records: [...records],
    ...(here === undefined ? {} : { book: here }),
  };
  await device.put("outbox", transaction.id, { transaction } satisfies Kept);
  await look();
  const became = (await send()).get(transaction.id);
  if (became === undefined) return { kind: "waits", transaction: transaction.id };
  return became === ""
    ? { kind: "joined", transaction: transaction.id }
    : { kind: "refused", transaction: transaction.id, why: became };
}

let last: Promise<unknown> = Promise.resolve();

/** Sends what waits; of each transaction sent, "" when the book has it, or why it was refused. One sending at a time. */
export function send(): Promise<ReadonlyMap<string, string>> {
  // What was written while a sending was under way goes with the next.
  const sending = last.catch(() => undefined).then(sendAll);
  last = sending;
  return sending;
}

async function sendAll(): Promise<ReadonlyMap<string, string>> {
  const became = new Map<string, string>();
  /** What the book that is open does not take, since it was written for another. */
  const others = new Set<string>();
  outbox.put({ ...outbox.get(), sending: true });
  try {
    for (;;) {
      const transactions = (await look())
        .filter(({ transaction, refused }) => refused === undefined && !others.has(transaction.id))
        .slice(0, BATCH);
      if (transactions.length === 0) break;
      const sent = { transactions: transactions.map(({ transaction }) => transaction) };
      const answer = await (await book.join.$post({ json: sent })).json();
      if (answer.transactions.length === 0) break;
      for (const one of answer.transactions) {
        const kept = transactions.find(({ transaction }) => transaction.id === one.transaction);
        if (kept === undefined) continue;
        if (one.kind === "otherBook") others.add(one.transaction);
        else if (one.kind === "refused") {
          const why = lineOf(one as unknown as Record<string, unknown>, 400);
          await device.put("outbox", one.transaction, { ...kept, refused: why });
          became.set(one.transaction, why);
        } else {
          await device.remove("outbox", one.transaction);
          became.set(one.transaction, "");
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

/** Gives up a transaction the book refused: it leaves this device. */
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
    const { waiting, elsewhere, sending } = outbox.get();
    if (waiting + elsewhere > 0 && !sending) void send().catch(() => undefined);
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
