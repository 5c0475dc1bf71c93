import type { Book, Draft as BookDraft, OfflineTransaction } from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import { isId, isKind, type Kind, kindNames } from "../record/index.ts";
import type { Draft, Records, Stored, Writer } from "./records.ts";
import type { SentRows } from "./sent-rows.ts";

/** A book as the bench asks it: kinds as text from outside, and a writer with every write. */
export function recordsOf(book: Book, bookFor: (by: Writer) => Book): Records {
  return {
    id: book.context.device,
    kinds: kindNames,
    isId,
    notices: book.notices,
    readOnly: book.readOnly,
    list: (kind, choice) => book.list(kindNamed(kind), choice as object) as unknown as Stored[],
    get: (kind, id) => book.get(kindNamed(kind), id) as unknown as Stored | undefined,
    write: (drafts, label, by) => bookFor(by).write(drafts.map(bookDraft), label).transaction,
    hide: (id, hidden, by) => (hidden ? bookFor(by).hide(id) : bookFor(by).show(id)).transaction,
    whole: (work) => book.context.driver.transaction(work),
    history: (choice) => book.history(choice),
    // From the boat's network a device takes back its own; at the computer that holds the book, any transaction.
    undo: (transaction, by) => bookFor(by).undo(transaction, by.device === undefined ? undefined : "own"),
    redo: (by) => bookFor(by).redo(),
    addPicture: (set, bytes, by) => bookFor(by).addPicture(set, bytes),
    file: (sha256) => book.file(sha256),
    join: (transaction, who) => book.joinOffline({ ...transaction, who } as OfflineTransaction),
    about: () => book.about() as unknown as Stored,
    counts: () => book.counts(),
    logContent: (log) => book.logs.content(log),
    appendRows: (log, sent) => appendRows(book, log, sent),
    viewLog: (log, stretch) => book.logs.view(log, stretch),
  };
}

/** Known rows are passed over; the check and the write are one transaction, whatever else is sent meanwhile. */
function appendRows(book: Book, log: string, { from, times_s, columns, finished }: SentRows): number {
  return book.context.driver.transaction(() => {
    const { rows, kind } = book.logs.progress(log);
    const known = Math.max(0, rows - from);
    if (kind !== "finished" && times_s.length > known)
      book.logs.record(log, {
        times: Float64Array.from(times_s.slice(known)),
        columns: Object.fromEntries(
          Object.entries(columns).map(([name, values]) => [
            name,
            Float64Array.from(values.slice(known), (value) => value ?? Number.NaN),
          ]),
        ),
      });
    if (finished && kind !== "finished") book.logs.finish(log);
    return book.logs.progress(log).rows;
  });
}

function kindNamed(kind: string): Kind {
  if (isKind(kind)) return kind;
  throw new InputError("kind", quoted(kind), `one of ${kindNames.join(", ")} is expected`);
}

/** The book checks every field of it by the kind's own schema. */
function bookDraft({ kind, id, set }: Draft): BookDraft {
  return { kind: kindNamed(kind), id, set } as BookDraft;
}
