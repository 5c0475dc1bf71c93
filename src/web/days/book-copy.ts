/**
 * What the book holds, as this device last saw it: asked anew when the place is opened and after each write, kept on the
 * device for when the book is out of reach, with what waits in the outbox laid over it.
 */
import { ApiTrouble, api, OutOfReach } from "../api/client.ts";
import type { Act } from "../api/outbox.ts";
import { device } from "../state/device.ts";
import { createStore } from "../state/store.ts";
import { type Kept, kept } from "./kinds.ts";
import { withWaiting } from "./with-waiting.ts";

/** A record as it stands; numbers are SI or carry their unit in the field's name. */
export interface Rec {
  readonly id: string;
  readonly hidden: boolean;
  /** True while something said of it waits on this device. */
  readonly waits?: true;
  readonly [field: string]: unknown;
}

export interface LogInfo extends Rec {
  readonly name: string;
  readonly pull: string | null;
  readonly day: string | null;
  readonly content: {
    readonly rows: number;
    readonly from_s: number | null;
    readonly to_s: number | null;
    readonly finished: boolean;
    readonly channels: readonly { readonly name: string; readonly quantity: string; readonly unit: string }[];
  };
}

export type Records = Readonly<Record<Kept | "picture", readonly Rec[]>>;

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
  readonly logs: readonly LogInfo[];
}

const KEPT_AS = "days: the book as last seen";
const none = Object.fromEntries([...kept, "picture"].map((kind) => [kind, []])) as unknown as Records;
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

interface BookAnswer {
  readonly about: Rec;
  readonly readOnly: boolean;
  readonly you: { readonly via: "computer" | "boat" };
}

async function ask(): Promise<void> {
  try {
    const [book, logs, ...lists] = await Promise.all([
      api.get<BookAnswer>("/book"),
      api.get<{ logs: LogInfo[] }>("/logs"),
      ...[...kept, "picture"].map((kind) => api.get<{ records: Rec[] }>(`/records/${kind}`, { hidden: "with" })),
    ]);
    const records = Object.fromEntries(
      [...kept, "picture"].map((kind, i) => [kind, lists[i]!.records]),
    ) as unknown as Records;
    seen = {
      state: "fresh",
      trouble: null,
      title: String(book.about.title ?? ""),
      description: String(book.about.description ?? ""),
      simulated: book.about.simulated === true,
      readOnly: book.readOnly,
      via: book.you.via,
      records,
      logs: logs.logs,
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
  const waiting = ((await device.all("outbox").catch(() => [])) as { act: Act; refused?: string }[])
    .filter(({ refused }) => refused === undefined)
    .map(({ act }) => act);
  bookCopy.put({ ...seen, records: withWaiting(seen.records, waiting) });
}
