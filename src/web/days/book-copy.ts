/**
 * What the book holds, as this device last saw it: asked anew when the place is opened and after each write, kept on the
 * device for when the book is out of reach, with what waits in the outbox laid over it.
 */

import { withWaiting } from "../../record/index.ts";
import { seeBook } from "../api/book-here.ts";
import { ApiTrouble, book, OutOfReach } from "../api/client.ts";
import { waitingHere } from "../api/outbox.ts";
import { device } from "../state/device.ts";
import { createStore } from "../state/store.ts";
import { kept } from "./kinds.ts";
import type { AnyRecord, LogHere, Records } from "./records.ts";

export type { AnyRecord, LogHere, RecordHere, Records } from "./records.ts";

export interface BookCopy {
  /** asking: nothing is known yet; fresh: as the book stands; kept: as this device last saw it; none: never seen. */
  readonly state: "asking" | "fresh" | "kept" | "none";
  /** One line when asking failed otherwise than by being out of reach. */
  readonly trouble: string | null;
  readonly title: string;
  readonly description: string;
  readonly simulated: boolean;
  readonly readOnly: boolean;
  /** Where this device stands: at the computer, or let in over the boat's network. */
  readonly via: "computer" | "boat" | null;
  readonly records: Records;
  readonly logs: readonly LogHere[];
}

const KEPT_AS = "days: the book as last seen";
const listed = [...kept, "picture"] as const;
const none = Object.fromEntries(listed.map((kind) => [kind, []])) as unknown as Records;
const nothing: BookCopy = {
  state: "asking",
  trouble: null,
  title: "",
  description: "",
  simulated: false,
  readOnly: false,
  via: null,
  records: none,
  logs: [],
};

/** As the book answered, without what waits here. */
let seen: BookCopy = nothing;
export const bookCopy = createStore<BookCopy>(nothing);

let asking: Promise<void> | undefined;
let again = false;

/** Asks the book anew; asked while an answer is under way, it asks once more after it. */
export function look(): Promise<void> {
  if (asking !== undefined) {
    again = true;
    return asking;
  }
  asking = (async () => {
    do {
      again = false;
      await ask();
    } while (again);
  })().finally(() => {
    asking = undefined;
  });
  return asking;
}

async function recordsOf(kind: string) {
  const answer = await book.records[":kind"].$get({ param: { kind }, query: { hidden: "with" } });
  return (await answer.json()).records;
}

async function ask(): Promise<void> {
  try {
    const [about, { logs }, lists] = await Promise.all([
      book.book.$get().then((answer) => answer.json()),
      book.logs.$get().then((answer) => answer.json()),
      Promise.all(listed.map(recordsOf)),
    ]);
    await seeBook(about.id);
    // The server answers whole records: those of a kind have its fields.
    const records = Object.fromEntries(listed.map((kind, i) => [kind, lists[i]])) as unknown as Records;
    seen = {
      state: "fresh",
      trouble: null,
      title: String(about.about.title ?? ""),
      description: String(about.about.description ?? ""),
      simulated: about.about.simulated === true,
      readOnly: about.readOnly,
      via: about.you.via,
      records,
      logs: logs as unknown as readonly LogHere[],
    };
    await device.put("states", KEPT_AS, seen).catch(() => undefined);
  } catch (error) {
    if (error instanceof OutOfReach) await fromDevice();
    else if (error instanceof ApiTrouble)
      seen = { ...seen, state: seen === nothing ? "none" : seen.state, trouble: error.message };
    else throw error;
  }
  await layOver();
}

async function fromDevice(): Promise<void> {
  if (seen.state === "fresh" || seen.state === "kept") {
    seen = { ...seen, state: "kept", trouble: null };
    return;
  }
  const copy = (await device.get("states", KEPT_AS).catch(() => undefined)) as BookCopy | undefined;
  seen = copy === undefined ? { ...nothing, state: "none" } : { ...copy, state: "kept", trouble: null };
}

/** Lays what waits on this device over the copy. */
export async function layOver(): Promise<void> {
  bookCopy.put({
    ...seen,
    records: withWaiting<AnyRecord>({ ...seen.records }, await waitingHere()) as unknown as Records,
  });
}

/** The book is another from now on: nothing of the one before is shown for it. */
export const forgetCopy = (): Promise<void> => device.remove("states", KEPT_AS).catch(() => undefined);
