import type { Kept } from "./field-check.ts";
import type { HybridTimestamp } from "./hybrid-timestamp.ts";
import type { Kind } from "./schema.ts";

// The state of a record is a pure function of the changes kept about it, in whatever order they came: of each field the
// value with the largest (stamp, transaction). Books that hold the same changes therefore hold the same records, and a
// device that knows only some of them shows the same of those.

/** What one transaction made of one field of one record. */
export interface Change {
  readonly kind: Kind;
  readonly record: string;
  readonly field: string;
  readonly was: Kept;
  readonly value: Kept;
}

/** What puts a change in its order: the stamp of its transaction, then the transaction's id. */
export interface Ordered {
  readonly stamp: HybridTimestamp;
  readonly transaction: string;
}

/** The value each field of one record has by its changes, `hidden` among them; empty when there are none. */
export function latestValues(changes: Iterable<Pick<Change, "field" | "value"> & Ordered>): Map<string, Kept> {
  const latest = new Map<string, { readonly value: Kept } & Ordered>();
  for (const change of changes) {
    const before = latest.get(change.field);
    if (before === undefined || isLater(change, before)) latest.set(change.field, change);
  }
  return new Map(Array.from(latest, ([field, { value }]) => [field, value]));
}

/** True when a change stands over another of the same field. */
export function isLater(change: Ordered, other: Ordered): boolean {
  return change.stamp === other.stamp ? change.transaction > other.transaction : change.stamp > other.stamp;
}

/** One record as a device wrote it while it could not reach the book: new (`makes`), or changed in some fields. */
export interface WrittenRecord {
  readonly kind: string;
  readonly id: string;
  readonly makes: boolean;
  readonly set: Readonly<Record<string, unknown>>;
  /** What the device saw in the fields it changes. */
  readonly was?: Readonly<Record<string, unknown>>;
}

/** A record that is laid over with what waits says so. */
export interface Laid {
  readonly id: string;
  readonly hidden: boolean;
  readonly waits?: boolean;
}

/**
 * Records with what waits on this device laid over them: each field as the last written has it, in the order of the
 * ids, which is that of writing. A record of a kind that is not listed is left out.
 */
export function withWaiting<R extends Laid>(
  records: { readonly [kind: string]: readonly R[] },
  waiting: readonly { readonly id: string; readonly records: readonly WrittenRecord[] }[],
): Record<string, R[]> {
  const laid = new Map<string, Map<string, R>>();
  for (const [kind, list] of Object.entries(records))
    laid.set(kind, new Map(list.map((record) => [record.id, record])));
  for (const { records: written } of [...waiting].sort((a, b) => (a.id < b.id ? -1 : 1)))
    for (const { kind, id, set } of written) {
      const list = laid.get(kind);
      if (list === undefined) continue;
      const before = list.get(id) ?? ({ id, hidden: false } as R);
      list.set(id, { ...before, ...set, id, hidden: before.hidden, waits: true });
    }
  return Object.fromEntries(Array.from(laid, ([kind, list]) => [kind, [...list.values()]]));
}
