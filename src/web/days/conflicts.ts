/** Fields that two devices wrote without seeing each other, found in the book's history. */
import { type AtOdds, atOdds } from "../../record/index.ts";
import type { Entry } from "./use-history.ts";

/** A change with who wrote it, and when. */
export type WrittenChange = Entry["changes"][number] & { readonly who: string; readonly at: string };

/** A field of one record, with what stands and what was written beside it. */
export type Conflict = AtOdds<WrittenChange> & { readonly kind: string; readonly record: string };

/** @param entries the newest first, as the book tells them */
export function conflictsIn(entries: readonly Entry[]): readonly Conflict[] {
  const byRecord = new Map<string, WrittenChange[]>();
  for (const { who, at, changes } of [...entries].reverse())
    for (const change of changes)
      byRecord.set(change.record, [...(byRecord.get(change.record) ?? []), { ...change, who, at }]);
  return Array.from(byRecord, ([record, said]) =>
    atOdds(said).map((odds): Conflict => ({ ...odds, record, kind: odds.stands.kind })),
  ).flat();
}
