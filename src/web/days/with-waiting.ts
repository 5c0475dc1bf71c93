import type { Act } from "../api/outbox.ts";
import type { Rec, Records } from "./book-copy.ts";

/** The records with acts that wait on this device laid over them, in the order they were written. */
export function withWaiting(records: Records, waiting: readonly Act[]): Records {
  if (waiting.length === 0) return records;
  const out: Record<string, Rec[]> = Object.fromEntries(
    Object.entries(records).map(([kind, list]) => [kind, [...list]]),
  );
  for (const act of [...waiting].sort((a, b) => (a.id < b.id ? -1 : 1))) {
    for (const { kind, id, set } of act.records) {
      const list = out[kind];
      if (list === undefined) continue;
      const at = list.findIndex((record) => record.id === id);
      const before: Rec = at < 0 ? { id, hidden: false } : list[at]!;
      const after: Rec = { ...before, ...set, id, hidden: before.hidden, waits: true };
      if (at < 0) list.push(after);
      else list[at] = after;
    }
  }
  return out as unknown as Records;
}
