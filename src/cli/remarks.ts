/** What a rig leaves open, as text below an answer and as fields within its JSON; nothing where nothing is open. */
import type { UnitSystem } from "../quantity/index.ts";
import { type Rig, remarksOn } from "../rode/index.ts";
import { remarkLine } from "../words/index.ts";
import { labelled } from "./text-table.ts";

/** A line a remark; the rig's name stands before it where an answer is of more than one. */
export function remarkText(units: UnitSystem, ...rigs: readonly Rig[]): string {
  return rigs
    .flatMap((rig) =>
      remarksOn(rig).map(
        (remark) => `${labelled("taken", `${rigs.length > 1 ? `${rig.name}: ` : ""}${remarkLine(remark, units)}`)}\n`,
      ),
    )
    .join("");
}

export function remarkFields(...rigs: readonly Rig[]): { readonly remarks?: readonly object[] } {
  const remarks = rigs.flatMap((rig) =>
    remarksOn(rig).map(({ diameter, ...remark }) => ({ rig: rig.name, ...remark, diameter_m: diameter })),
  );
  return remarks.length === 0 ? {} : { remarks };
}
