import { type PullCase, pullCases } from "../study/index.ts";
import type { Book } from "./book.ts";

/** A pull with the records it is judged by, those put aside too; null where there is no such pull. */
export function pullCaseOf(book: Book, id: string): PullCase | null {
  const pull = book.get("pull", id);
  if (pull === undefined) return null;
  const all = <K extends "pull" | "series" | "day" | "site" | "seabed" | "anchor" | "rigVersion">(kind: K) =>
    book.list(kind, { hidden: "with" });
  const records = {
    pull: all("pull"),
    series: all("series"),
    day: all("day"),
    site: all("site"),
    seabed: all("seabed"),
    anchor: all("anchor"),
    rigVersion: all("rigVersion"),
  };
  return pullCases(records, [pull])[0] ?? null;
}
