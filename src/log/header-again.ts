import type { EndCause } from "./cause.ts";
import { cellsOf, lookOf } from "./cells.ts";
import type { TablePlan } from "./plan.ts";
import { readTitle, speaksFor } from "./title.ts";
import { shown } from "./troubles.ts";
import { readUnit } from "./unit-name.ts";

/** A line among the rows that may be a header. */
export type HeaderIn =
  | { readonly kind: "same" }
  /** The same columns in other units: their sizes, in the order of the plan's values and addends. */
  | { readonly kind: "units"; readonly scales: readonly number[] }
  /** Of another table. */
  | { readonly kind: "other"; readonly why: EndCause }
  /** Nothing but words, as many as there are columns: a header, or a remark. */
  | { readonly kind: "words" };

/**
 * A header met among the rows: the same, as loggers write it again after a restart; the same columns in another unit;
 * or that of another table. Null for a line that is none.
 */
export function headerIn(text: string, plan: TablePlan): HeaderIn | null {
  if (!/\p{L}/u.test(text)) return null;
  const cells = cellsOf(text.replace(/^\s*[#%;*]+\s*/, ""), plan.delimiter);
  const written = cells.filter((cell) => cell !== "");
  if (plan.titles.length > 0 && plan.titles.every((title, i) => (cells[i] ?? "") === title)) return { kind: "same" };
  if (written.length < 2 || written.some((cell) => lookOf(cell) !== "text")) return null;
  const columns = [...plan.values, ...(plan.addends ?? [])];
  const titles = cells.map((cell) => readTitle(cell));
  const speak = titles.filter((title) => speaksFor(title).for !== "other").length;
  const alike = columns.every(({ column, channel }) => {
    const title = titles[column];
    const before = readTitle(plan.titles[column] ?? "").name.toLowerCase();
    return (
      title !== undefined &&
      (title.name.toLowerCase() === before || (title.name === "" && readUnit(title.unit, channel.kind)))
    );
  });
  if (alike && plan.titles.length > 0) {
    const units = columns.map(({ column, channel }) => readUnit(titles[column]!.unit, channel.kind));
    if (units.every((unit, k) => unit !== null || titles[columns[k]!.column]!.unit === ""))
      return { kind: "units", scales: units.map((unit, k) => unit?.scale ?? columns[k]!.scale ?? Number.NaN) };
  }
  if (speak >= 2) return { kind: "other", why: { kind: "otherHeader", header: shown(text) } };
  return written.length >= Math.min(plan.width, 2) ? { kind: "words" } : null;
}
