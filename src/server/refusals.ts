import { BookTrouble, type TroubleKind } from "../book/index.ts";
import { InputError } from "../quantity/index.ts";

/** Statuses the bench answers a refusal with. */
export type RefusalStatus = 400 | 401 | 403 | 404 | 405 | 409 | 413 | 415 | 422 | 429 | 500 | 503 | 507;

/** Wrong input that HTTP has its own word for: an InputError with the status it is answered with. */
export class Refusal extends InputError {
  readonly status: RefusalStatus;
  /** Further fields of the answer, beside `error`: the record as it stands now after a 409. */
  readonly beside: Readonly<Record<string, unknown>>;

  constructor(
    status: RefusalStatus,
    place: string,
    given: string,
    expected: string,
    beside: Readonly<Record<string, unknown>> = {},
  ) {
    super(place, given, expected);
    this.status = status;
    this.beside = beside;
  }
}

/** What a client reads of a refusal: one line of JSON. */
export interface RefusalBody {
  readonly error: { readonly place: string; readonly given: string; readonly expected: string };
  readonly [beside: string]: unknown;
}

/** Trouble with the book's file is not the asker's wrong input. */
const TROUBLE: Readonly<Record<TroubleKind, RefusalStatus>> = {
  missing: 503,
  exists: 409,
  notABook: 503,
  newer: 503,
  damaged: 503,
  busy: 503,
  readOnly: 409,
  full: 507,
  noLibrary: 500,
  unreadable: 503,
};

/** Faults of the machine that are nobody's wrong input, each with what can be done. */
const MACHINE: Readonly<Record<string, readonly [RefusalStatus, string, string]>> = {
  SQLITE_BUSY: [503, "another program is writing to it", "try again in a moment"],
  SQLITE_FULL: [507, "the disk is full", "free space on the disk that holds the book; nothing was changed"],
  ENOSPC: [507, "the disk is full", "free space on the disk that holds the book; nothing was changed"],
  SQLITE_READONLY: [409, "it can only be read", "a book in a folder you may write to"],
};

/**
 * The one place where what went wrong becomes a status and a body.
 * A fault of the program itself answers 500 and tells nothing of its inside.
 */
export function refusalOf(error: unknown): { readonly status: RefusalStatus; readonly body: RefusalBody } {
  if (error instanceof Refusal) return { status: error.status, body: bodyOf(error, error.beside) };
  if (error instanceof BookTrouble) return { status: TROUBLE[error.kind], body: bodyOf(error) };
  if (error instanceof InputError) return { status: 400, body: bodyOf(error) };
  const code = codeOf(error);
  const machine = MACHINE[code] ?? MACHINE[code.split("_").slice(0, 2).join("_")];
  if (machine) {
    const [status, given, expected] = machine;
    return { status, body: { error: { place: "book", given, expected } } };
  }
  return {
    status: 500,
    body: { error: { place: "bench", given: "a fault of the program", expected: "see the terminal it was opened in" } },
  };
}

function bodyOf(error: InputError, beside: Readonly<Record<string, unknown>> = {}): RefusalBody {
  return { error: { place: error.place, given: error.given, expected: error.expected }, ...beside };
}

function codeOf(error: unknown): string {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === "string" ? code : "";
}
