import type { InferResponseType } from "hono/client";
import { useEffect, useState } from "react";
import { ApiTrouble, book, OutOfReach, until } from "../api/client.ts";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import { changes } from "./written.ts";

/** One transaction of the book's history. */
export type Entry = InferResponseType<typeof book.history.$get>["transactions"][number];

/**
 * The history of one record, or of the whole book, the newest first; null while it is not known, or the book is out of
 * reach. Asked anew whenever the book was looked at again.
 */
export function useHistory(record: string | null, limit: number): readonly Entry[] | null {
  const count = useStore(changes);
  const { records } = useStore(bookCopy);
  const [entries, setEntries] = useState<readonly Entry[] | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each change of the book is a reason to look again
  useEffect(() => {
    const stop = new AbortController();
    book.history
      .$get({ query: { ...(record === null ? {} : { record }), limit } }, until(stop.signal))
      .then(async (answer) => setEntries((await answer.json()).transactions))
      .catch((error: unknown) => {
        if (!stop.signal.aborted && !(error instanceof OutOfReach || error instanceof ApiTrouble)) throw error;
      });
    return () => stop.abort();
  }, [record, limit, count, records]);
  return entries;
}
