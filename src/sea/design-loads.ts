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

/** One cell on which tables print different loads. */
export interface Disagreement {
  readonly length: number;
  readonly wind: number;
  readonly printed: readonly { readonly name: string; readonly load: number }[];
}

/** Every length and wind that two or more tables print, with different loads. */
export function disagreements(tables: readonly DesignLoadTable[]): readonly Disagreement[] {
  const cells = new Map<string, { length: number; wind: number; printed: { name: string; load: number }[] }>();
  for (const { name, rows } of tables) {
    for (const { length, loads } of rows) {
      for (const { wind, load } of loads) {
        const key = `${length.toFixed(3)} ${wind.toFixed(3)}`;
        const cell = cells.get(key) ?? { length, wind, printed: [] };
        cell.printed.push({ name, load });
        cells.set(key, cell);
      }
    }
  }
  return [...cells.values()].filter(({ printed }) =>
    printed.some(({ load }) => Math.abs(load - printed[0]!.load) > 1e-9 * load),
  );
}
