import { InputError, quoted } from "../quantity/index.ts";
import type { Title } from "./title.ts";

/** Column (0 first) of a title or a number counted from 1. */
export function columnOf(column: string, titles: readonly Title[]): number {
  const wanted = column.trim().toLowerCase();
  const exact = titles.findIndex((title) => title.text.toLowerCase() === wanted);
  if (exact >= 0) return exact;
  if (/^\d+$/.test(wanted) && Number(wanted) >= 1 && Number(wanted) <= titles.length) return Number(wanted) - 1;
  const named = titles.findIndex((title) => title.name !== "" && title.name.toLowerCase() === wanted);
  if (named >= 0) return named;
  const known = titles.map((title, i) => (title.text === "" ? String(i + 1) : title.text)).join(", ");
  throw new InputError("--map", quoted(column), `a column of the file is expected: ${known}`);
}
