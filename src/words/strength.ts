import { formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { PartStrength } from "../rode/index.ts";

/** What a part is past, with its loads; null where it is past nothing that is known. */
export function strengthLine(one: PartStrength, system: UnitSystem): string | null {
  if (one.past === null) return null;
  const force = (newtons: number) => formatQuantity(newtons, "force", { system });
  const limit = one.past === "breakingLoad" ? one.breakingLoad! : one.workingLoad!;
  const what = one.past === "breakingLoad" ? "minimum breaking load" : "working load limit";
  return `part ${one.part}, ${one.name}: ${force(one.load)} is past its ${what} of ${force(limit)}`;
}

/** The parts of which nothing is known of what they stand, as a line; null where each states a limit. */
export function unknownStrengthLine(parts: readonly PartStrength[]): string | null {
  const without = parts.filter(({ workingLoad, breakingLoad }) => workingLoad === null && breakingLoad === null);
  if (without.length === 0) return null;
  const named = without.map(({ part, name }) => `part ${part}, ${name}`).join("; ");
  return `${named}: no strength is stated, so the answer may lie beyond what breaks`;
}
