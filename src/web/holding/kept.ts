/**
 * Conclusions kept in the book, each with its seed, the versions of its pulls and of the program: an old one can be opened,
 * and tells whether its pulls have changed since. Asked for apart from the rest of the book, which is lighter.
 */
import about from "../../../package.json" with { type: "json" };
import { book } from "../api/client.ts";
import { newId } from "../api/ids.ts";
import { putAside, write } from "../days/written.ts";
import { device } from "../state/device.ts";
import { createStore } from "../state/store.ts";
import type { BookPulls } from "./book-pulls.ts";
import type { HoldingState } from "./state.ts";
import type { InquiryAnswer } from "./work.ts";

export interface KeptConclusion {
  readonly id: string;
  readonly at: string;
  readonly program: string;
  readonly seed: number;
  /** Id and version of each pull. */
  readonly pulls: readonly (readonly [id: string, version: string])[];
  readonly question: HoldingState;
  readonly answer: InquiryAnswer;
}

const KEPT_AS = "holding: conclusions of the book";

export const keptConclusions = createStore<readonly KeptConclusion[]>([]);

/** The server answers whole records: those of this kind have its fields. */
async function fromBook(): Promise<readonly KeptConclusion[]> {
  const answer = await book.records[":kind"].$get({ param: { kind: "conclusion" }, query: {} });
  return (await answer.json()).records as unknown as readonly KeptConclusion[];
}

/** Asks the book; out of its reach, what this device last saw. */
export async function readKept(): Promise<void> {
  const found = await fromBook().catch(() => undefined);
  if (found === undefined) {
    const seen = (await device.get("states", KEPT_AS).catch(() => undefined)) as KeptConclusion[] | undefined;
    if (Array.isArray(seen)) keptConclusions.put(seen);
    return;
  }
  put([...found].sort((a, b) => (a.at < b.at ? 1 : -1)));
}

function put(kept: readonly KeptConclusion[]): void {
  keptConclusions.put(kept);
  void device.put("states", KEPT_AS, kept).catch(() => undefined);
}

/** Digits of what is kept: more than any limit is known to, few enough for a book. */
const DIGITS = 9;
const rounded = <T>(value: T): T =>
  JSON.parse(
    JSON.stringify(value, (_, one: unknown) => (typeof one === "number" ? Number(one.toPrecision(DIGITS)) : one)),
  ) as T;

/** @returns null when it is in the book or waits for it on this device, else the one line that says why not */
export async function keep(
  question: HoldingState,
  pulls: KeptConclusion["pulls"],
  answer: InquiryAnswer,
  at: string,
): Promise<string | null> {
  const { seed } = question;
  const set = { at, program: about.version, seed, pulls, question: rounded(question), answer: rounded(answer) };
  const id = newId();
  const why = await write("keep what was concluded", [{ kind: "conclusion", id, makes: true, set: { ...set } }]);
  if (why === null) put([{ id, ...set }, ...keptConclusions.get()]);
  return why;
}

export async function forget({ id, at }: KeptConclusion): Promise<string | null> {
  const why = await putAside("conclusion", id, true, `the conclusion of ${at.slice(0, 10)}`);
  if (why === null) put(keptConclusions.get().filter((one) => one.id !== id));
  return why;
}

/** How many of its pulls are another or gone in the book as it stands. */
export function changedSince({ pulls }: KeptConclusion, now: BookPulls): number {
  const versions = new Map(now.ids.map((id, i) => [id, now.versions[i]!]));
  return pulls.filter(([id, was]) => versions.get(id) !== was).length;
}
