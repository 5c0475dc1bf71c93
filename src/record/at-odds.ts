/**
 * Fields that two wrote without seeing each other. Every change tells what its writer saw in the field: one that saw
 * another value than the change before it left was written beside that, not after it. The later one stands (see fold.ts);
 * this finds both, so that a person can choose.
 *
 * A value stands open until a change that saw it takes its place. A person's choice is such a change: it says that it
 * saw the value not chosen, and sets the one chosen.
 */

/** What one transaction made of one field of one record. */
export interface FieldChange {
  readonly field: string;
  readonly was: unknown;
  readonly value: unknown;
}

/** A field with the change that stands, and those that stand open beside it with other values. */
export interface AtOdds<C extends FieldChange> {
  readonly field: string;
  readonly stands: C;
  readonly others: readonly C[];
}

/** @param changes of one record, in the order in which later ones stand over earlier */
export function atOdds<C extends FieldChange>(changes: Iterable<C>): readonly AtOdds<C>[] {
  const open = new Map<string, C[]>();
  for (const change of changes) {
    // Putting aside and bringing back are asked of the book itself: nobody does it unseen.
    if (change.field === "hidden") continue;
    const before = open.get(change.field) ?? [];
    open.set(change.field, [...before.filter(({ value }) => !same(value, change.was)), change]);
  }
  return Array.from(open, ([field, changes]) => {
    const stands = changes.at(-1)!;
    return { field, stands, others: changes.filter(({ value }) => !same(value, stands.value)) };
  }).filter(({ others }) => others.length > 0);
}

const same = (one: unknown, other: unknown): boolean => JSON.stringify(one ?? null) === JSON.stringify(other ?? null);
