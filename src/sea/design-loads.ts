/**
 * Published design loads by boat length: shown beside an answer with their source, never blended into it.
 * They hold yaw and surge and a margin, so they lie above a steady drag; and they disagree with each other.
 */

export interface DesignLoadRow {
  /** Longest boat the row is for, m; and its widest, where the source says so. */
  readonly length: number;
  readonly beam?: number;
  /** m/s and N, as printed. */
  readonly loads: readonly { readonly wind: number; readonly load: number }[];
}

/** A published table of design loads by a boat's length, with its source. */
export interface DesignLoadTable {
  readonly name: string;
  readonly source: string;
  /** Whether its digits were seen in the source or recalled. */
  readonly standing: "seen" | "recalled";
  /** What the source says its loads hold. */
  readonly holds: string;
  readonly rows: readonly DesignLoadRow[];
}

/** The row of one table that a boat falls in, and its loads. */
export interface DesignLoads {
  readonly table: DesignLoadTable;
  readonly row: DesignLoadRow;
}

/**
 * The row of each table for a boat: the shortest that is long enough (and, where the table states beams, wide enough), as
 * the tables ask. Nothing is read between rows or between winds. A boat beyond a table's last row, or shorter than nine
 * tenths of its first, is in none of it.
 */
export function designLoadsFor(
  boat: { readonly length: number; readonly beam: number },
  tables: readonly DesignLoadTable[],
): readonly DesignLoads[] {
  // A boat of 40 ft given as 12.19 m is in the row of 40 ft: lengths are told to about a centimetre.
  const within = (value: number, most: number): boolean => value <= most + 0.01;
  return tables.flatMap((each) => {
    const shortest = Math.min(...each.rows.map((r) => r.length));
    if (boat.length < 0.9 * shortest) return [];
    const row = each.rows
      .filter((r) => within(boat.length, r.length) && (r.beam === undefined || within(boat.beam, r.beam)))
      .sort((a, b) => a.length - b.length)[0];
    return row === undefined ? [] : [{ table: each, row }];
  });
}

/** Where tables contradict each other for boats of one length: another load at one wind, or another wind at one load. */
export type Disagreement =
  | {
      readonly about: "load";
      readonly length: number;
      readonly wind: number;
      readonly printed: readonly { readonly name: string; readonly load: number }[];
    }
  | {
      readonly about: "wind";
      readonly length: number;
      readonly load: number;
      readonly printed: readonly { readonly name: string; readonly wind: number }[];
    };

/** Every contradiction between two or more tables. Winds and loads count as the same within 1e-9. */
export function disagreements(tables: readonly DesignLoadTable[]): readonly Disagreement[] {
  const cells = tables.flatMap(({ name, rows }) =>
    rows.flatMap(({ length, loads }) => loads.map(({ wind, load }) => ({ name, length, wind, load }))),
  );
  const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.abs(b);
  const found: Disagreement[] = [];
  cells.forEach((cell, i) => {
    const { length, wind, load } = cell;
    const others = cells.filter((other) => other.name !== cell.name && same(other.length, length));
    const laterOnly = (other: (typeof cells)[number]): boolean => cells.indexOf(other) > i;
    const atWind = others.filter((other) => same(other.wind, wind) && !same(other.load, load)).filter(laterOnly);
    if (atWind.length > 0) found.push({ about: "load", length, wind, printed: [cell, ...atWind].map(nameAndLoad) });
    const atLoad = others.filter((other) => same(other.load, load) && !same(other.wind, wind)).filter(laterOnly);
    if (atLoad.length > 0) found.push({ about: "wind", length, load, printed: [cell, ...atLoad].map(nameAndWind) });
  });
  return found;
}

function nameAndLoad({ name, load }: { name: string; load: number }): { name: string; load: number } {
  return { name, load };
}

function nameAndWind({ name, wind }: { name: string; wind: number }): { name: string; wind: number } {
  return { name, wind };
}
