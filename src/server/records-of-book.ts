import {
  type Book,
  type Draft as BookDraft,
  isId,
  isKind,
  type Kind,
  kindNames,
  type OfflineAct,
} from "../book/index.ts";
import { InputError, quoted } from "../quantity/index.ts";
import type { Draft, Records, Stored, Writer } from "./records.ts";

/** A book as the bench asks it: kinds as text from outside, and a writer with every write. */
export function recordsOf(book: Book, desk: (by: Writer) => Book): Records {
  return {
    kinds: kindNames,
    isId,
    notices: book.notices,
    readOnly: book.readOnly,
    list: (kind, choice) => book.list(kindNamed(kind), choice as object) as unknown as Stored[],
    get: (kind, id) => book.get(kindNamed(kind), id) as unknown as Stored | undefined,
    write: (drafts, label, by) => desk(by).write(drafts.map(bookDraft), label).act,
    hide: (id, hidden, by) => (hidden ? desk(by).hide(id) : desk(by).show(id)).act,
    whole: (work) => book.context.driver.transaction(work),
    history: (choice) => book.history(choice),
    undo: (act, by) => desk(by).undo(act),
    redo: (by) => desk(by).redo(),
    addPicture: (set, bytes, by) => desk(by).addPicture(set, bytes),
    file: (sha256) => book.file(sha256),
    join: (act, who) => book.joinOffline({ ...act, who } as OfflineAct).kind,
    about: () => book.about() as unknown as Stored,
    counts: () => book.counts(),
    logContent: (log) => book.logs.content(log),
    viewLog: (log, stretch) => book.logs.view(log, stretch),
  };
}

function kindNamed(kind: string): Kind {
  if (isKind(kind)) return kind;
  throw new InputError("kind", quoted(kind), `one of ${kindNames.join(", ")} is expected`);
}

/** The book checks every field of it by the kind's own schema. */
function bookDraft({ kind, id, set }: Draft): BookDraft {
  return { kind: kindNamed(kind), id, set } as BookDraft;
}
