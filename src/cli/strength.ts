/** What parts of a rode stand, below an answer and within its JSON. */
import { formatQuantity, type UnitSystem } from "../quantity/index.ts";
import { type PartStrength, type Rig, type SettledTrace, strengthOf } from "../rode/index.ts";
import { strengthLine, unknownStrengthLine } from "../words/index.ts";
import { labelled } from "./text-table.ts";

/** A line for each part loaded past what it stands; the rig's name stands before it where an answer is of more than one. */
export function overloaded(rig: Rig, traced: SettledTrace, units: UnitSystem, name = ""): string {
  return strengthOf(rig, traced)
    .map((one) => {
      const line = strengthLine(one, units);
      return line === null ? "" : `${labelled(label(one), `${name === "" ? "" : `${name}: `}${line}`)}\n`;
    })
    .join("");
}

/** The same below a search, which knows no bounds of itself: also of what no strength is stated. */
export function searched(rig: Rig, traced: SettledTrace, units: UnitSystem, name = ""): string {
  const unknown = unknownStrengthLine(strengthOf(rig, traced));
  const line = unknown === null ? "" : `${labelled("strength", `${name === "" ? "" : `${name}: `}${unknown}`)}\n`;
  return `${overloaded(rig, traced, units, name)}${line}`;
}

/** Below a table: from which of its rows on each part is past what it stands. */
export function overloadedRows(
  rows: readonly { readonly anchor: number; readonly parts: readonly PartStrength[] }[],
  units: UnitSystem,
): string {
  const told = new Set<string>();
  return rows
    .flatMap(({ anchor, parts }) => parts.map((one) => ({ one, anchor })))
    .map(({ one, anchor }) => {
      const key = `${one.part} ${one.past}`;
      if (one.past === null || told.has(key)) return "";
      told.add(key);
      const from = formatQuantity(anchor, "force", { system: units, digits: 4 });
      return `${labelled(label(one), `${strengthLine(one, units)}, first with ${from} at the anchor`)}\n`;
    })
    .join("");
}

function label({ past }: PartStrength): string {
  return past === "breakingLoad" ? "breaks" : "overloaded";
}

/** The part of a JSON answer that tells it: a row a part. */
export function strengthFields(parts: readonly PartStrength[]): { readonly strength: readonly object[] } {
  return {
    strength: parts.map(({ load, workingLoad, breakingLoad, ...rest }) => ({
      ...rest,
      load_N: load,
      workingLoad_N: workingLoad,
      breakingLoad_N: breakingLoad,
    })),
  };
}
