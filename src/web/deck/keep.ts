/**
 * The pull under way, kept on this device before anything of it is shown: one value under one name, written whole, so that
 * after a kill the device holds either what was before a touch or what is after it.
 */
import { device } from "../state/device.ts";
import { createStore } from "../state/store.ts";
import type { DeckEnd, DeckPull, Happened } from "./pull.ts";

export interface DeckState {
  /** Under way. */
  readonly pull: DeckPull | null;
  /** Ended, and not all in the book yet. */
  readonly waiting: readonly DeckPull[];
  /** The caution was read on this device. */
  readonly cautioned: boolean;
}

const KEPT_AS = "deck: pulls";
const nothing: DeckState = { pull: null, waiting: [], cautioned: false };

/** null until the device was asked. */
export const deckStore = createStore<DeckState | null>(null);
/** What this device could not keep, in one line. */
export const deckTrouble = createStore<string | null>(null);
/** The pull this window ended last, with all that happened in it, readings of instruments among them. */
export const lastEnded = createStore<EndedPull | null>(null);

/** An ended pull as its figure is made of it. */
export interface EndedPull extends Pick<DeckPull, "events" | "steps" | "anchor" | "loadU"> {
  /** Its id in the book. */
  readonly id: string;
  readonly ended: DeckEnd;
}

let queue: Promise<unknown> = Promise.resolve();
/** By it the windows of this device tell each other that something was kept. */
const windows = new BroadcastChannel(KEPT_AS);
windows.onmessage = () => void after(async () => deckStore.put(await kept()));

function after<T>(work: () => Promise<T>): Promise<T> {
  const doing = queue.then(work);
  queue = doing.catch(() => undefined);
  return doing;
}

/** One window at a time, where the browser has locks (it has none on a page without encryption). */
const alone = <T>(work: () => Promise<T>): Promise<T> =>
  navigator.locks === undefined ? work() : (navigator.locks.request(KEPT_AS, work) as Promise<T>);

/** What the device has; a browser that keeps nothing has what is shown. */
async function kept(): Promise<DeckState> {
  const found = (await device.get("states", KEPT_AS).catch(() => undefined)) as DeckState | undefined;
  return found ?? deckStore.get() ?? nothing;
}

/** Asks the device once; a browser that keeps nothing begins with nothing, and is told when it cannot keep. */
export const openDeck = (): Promise<void> =>
  after(async () => {
    if (deckStore.get() === null) deckStore.put(await kept());
  });

/**
 * Changes what is kept, one change after another and one window after another: on the device first, then shown.
 * @returns whether the device has it
 */
export const keep = (change: (before: DeckState) => DeckState): Promise<boolean> =>
  after(() =>
    alone(async () => {
      const before = await kept();
      const changed = change(before);
      try {
        if (changed !== before) await device.put("states", KEPT_AS, changed);
      } catch (error) {
        deckTrouble.put(`this device could not keep it: ${error instanceof Error ? error.message : String(error)}`);
        return false;
      }
      deckTrouble.put(null);
      if (changed === before) return true;
      deckStore.put(changed);
      windows.postMessage("kept");
      return true;
    }),
  );

/** Notes what happened in the pull under way. */
export const note = (happened: Happened, at: number = Date.now()): Promise<boolean> =>
  keep((before) => {
    const { pull } = before;
    if (pull === null || pull.ended !== null) return before;
    return { ...before, pull: { ...pull, events: [...pull.events, { ...happened, n: pull.events.length, at }] } };
  });
