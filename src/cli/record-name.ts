/** Records by what people call them: a whole id, the end or the beginning of one, or a name that only one has. */
import type { Book } from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { isId, type Kind, kindNames } from "../record/index.ts";

/** Signs of an id that are enough to find it by. */
const FEWEST = 6;
/** Signs of an id as lists show it. */
export const SHOWN = 8;

interface Named {
  readonly id: string;
  readonly name?: string | null;
  readonly date?: string | null;
  readonly title?: string | null;
}

/** The id as lists show it: its end, where ids differ; any command takes it. */
export function shortId(id: string): string {
  return id.slice(-SHOWN);
}

/**
 * @param place what the error begins with, such as `--set day`; what was given where it is empty
 * @param kind where only records of one kind will do
 * @throws InputError when none or more than one is called so
 */
export function recordId(book: Book, given: string, place = "", kind?: Kind): string {
  if (isId(given)) {
    if (kind === undefined) book.kindOf(given);
    return given;
  }
  const found = named(book, given, kind);
  if (found.length === 1) return found[0]!;
  const [at, what] = place === "" ? [given === "" ? quoted(given) : given, ""] : [place, quoted(given)];
  if (found.length === 0)
    throw new InputError(
      at,
      what === "" ? "no such record" : `${what}, no such record`,
      `the id of a ${kind ?? "record"} in this book, or a name that one has, is expected`,
    );
  throw new InputError(
    at,
    `${what === "" ? "" : `${what}, `}${found.length} records are called so`,
    `one of their ids is expected: ${found.slice(0, 5).map(shortId).join(", ")}${found.length > 5 ? ", ..." : ""}`,
  );
}

function named(book: Book, given: string, only: Kind | undefined): string[] {
  const sought = given.toLowerCase();
  const part = sought.length >= FEWEST && /^[0-9a-f-]+$/.test(sought) ? sought : null;
  const kinds = only === undefined ? kindNames : [only];
  const ids: string[] = [];
  const names: string[] = [];
  for (const kind of kinds)
    for (const record of book.list(kind, { hidden: "with" }) as readonly (Named & { number?: number | null })[]) {
      if (part !== null && (record.id.endsWith(part) || record.id.startsWith(part))) ids.push(record.id);
      const { name, date, title, number } = record;
      const called = [name, date, title, kind === "pull" && number !== null ? `pull ${number}` : null];
      if (called.some((one) => one?.toLowerCase() === sought)) names.push(record.id);
    }
  return ids.length > 0 ? ids : names;
}
