/** The two chains by which a stronger grade shows what it costs: the heaviest and the lightest that stand side by side. */
import type { GearRow } from "./gear-work.ts";

export interface LostCatenary {
  readonly thick: string;
  readonly thin: string;
  /** Give of weight, m/N, at each load (by its place) at which both lie in equilibrium. */
  readonly cells: readonly { readonly at: number; readonly thick: number; readonly thin: number }[];
}

const grade = (name: string): number | null => {
  const said = /^chain\b.*\bgrade (\d+)\b/.exec(name)?.[1];
  return said === undefined ? null : Number(said);
};

/** @returns null unless a thinner chain of a stronger grade stands beside a heavier one of a weaker, and gives less at every load */
export function lostCatenary(rows: readonly GearRow[]): LostCatenary | null {
  const chains = rows.flatMap((row) => {
    const of = grade(row.name);
    return of === null || row.why !== null ? [] : [{ row, of }];
  });
  const byWeight = chains.sort((a, b) => b.row.weight - a.row.weight);
  const [thick, thin] = [byWeight[0], byWeight.at(-1)];
  if (thick === undefined || thin === undefined || !(thin.of > thick.of && thin.row.weight < thick.row.weight))
    return null;
  const cells = thick.row.cells.flatMap((heavy, at) => {
    const light = thin.row.cells[at] ?? null;
    return heavy === null || light === null
      ? []
      : [{ at, thick: Math.max(0, heavy.weight), thin: Math.max(0, light.weight) }];
  });
  if (cells.length === 0 || !cells.every((cell) => cell.thin < cell.thick)) return null;
  return { thick: thick.row.name, thin: thin.row.name, cells };
}
