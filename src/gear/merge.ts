import { type Catalogue, keyOf } from "./row.ts";

/** Two catalogues as one, and which articles of the first the second replaced, by name. */
export interface Merged {
  readonly catalogue: Catalogue;
  readonly replaced: readonly string[];
}

/** A later row of the same article wins over an earlier one, in its place; new articles follow. */
export function merge(first: Catalogue, second: Catalogue): Merged {
  const later = new Map(second.rows.map((row) => [keyOf(row), row]));
  const replaced: string[] = [];
  const rows = first.rows.map((row) => {
    const own = later.get(keyOf(row));
    if (!own) return row;
    replaced.push(own.name);
    later.delete(keyOf(row));
    return own;
  });
  return {
    catalogue: {
      sources: { ...first.sources, ...second.sources },
      curves: { ...first.curves, ...second.curves },
      rows: [...rows, ...later.values()],
    },
    replaced,
  };
}
