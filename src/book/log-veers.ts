/** Veers of a pull that another of its logs was marked with. */
import { clockBetween, effectiveMarks, logsBeside, type Veer, veersOf, veersTogether } from "../study/index.ts";
import type { Book } from "./book.ts";

/** Veers by the marks of the other logs that ran while one did, in the order of time. */
export function veersBeside(book: Book, id: string): Veer[] {
  const pull = book.get("log", id)?.pull ?? null;
  if (pull === null) return [];
  const logs = book.list("log", { where: { pull } }).map((log) => {
    const { from_s, to_s } = book.logs.content(log.id);
    return { id: log.id, hidden: log.hidden, pull: log.pull, clockOffset_s: log.clockOffset_s, from_s, to_s };
  });
  const own = logs.find((log) => log.id === id);
  if (own === undefined) return [];
  const marksOf = (log: string) =>
    effectiveMarks(book.list("mark", { where: { log } }) as Parameters<typeof effectiveMarks>[0]);
  return veersTogether(
    ...logsBeside(own, logs).map((log) =>
      veersOf(marksOf(log.id)).map((veer) => ({ ...veer, from: veer.from + clockBetween(own, log) })),
    ),
  );
}
