import { formatQuantity, type UnitSystem } from "../quantity/index.ts";
import type { Remark } from "../rode/index.ts";

/** What a rig leaves open and an answer therefore takes for granted. */
export function remarkLine({ part, name, diameter }: Remark, system: UnitSystem): string {
  const taken = formatQuantity(diameter, "length", { unit: system === "us" ? "in" : "mm", digits: 3 });
  return `part ${part}, ${name}, states no diameter; in the current it is dragged as ${taken}, the circle of its displaced volume`;
}
