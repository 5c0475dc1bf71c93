import { cellsOf } from "./cells.ts";
import type { TablePlan } from "./plan.ts";
import { readTitle } from "./title.ts";
import { shown } from "./troubles.ts";
import { readUnit } from "./unit-name.ts";

/**
 * A header met among the rows: the same, as loggers write it again after a restart; or another, from which on the
 * readings are in another unit. Null for a line that is neither.
 */
export function headerIn(
  text: string,
  plan: TablePlan,
): { readonly kind: "same" } | { readonly kind: "other"; readonly why: string } | null {
  if (plan.titles.length === 0 || !/\p{L}/u.test(text)) return null;
  const cells = cellsOf(text.replace(/^\s*[#%;*]+\s*/, ""), plan.delimiter);
  if (plan.titles.every((title, i) => (cells[i] ?? "") === title)) return { kind: "same" };
  for (const value of plan.values) {
    const title = readTitle(cells[value.column] ?? "");
    const unit = title.unit === "" || title.name === "" ? null : readUnit(title.unit, value.channel.kind);
    if (unit === null || unit.scale === value.scale) continue;
    const why = `another header, "${shown(title.text)}": what follows is not in ${value.channel.fromUnit}; import it as a file of its own`;
    return { kind: "other", why };
  }
  return null;
}
