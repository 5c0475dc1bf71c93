import { useMemo } from "react";
import { bookCopy } from "../days/book-copy.ts";
import { useStore } from "../state/use-store.ts";
import { type Outcome, type Question, useNewest } from "../work/worker.ts";
import type { BookPulls } from "./book-pulls.ts";
import { useLogVerdicts } from "./use-log-verdicts.ts";

/** The book's pulls as comparing reads them, logs of those whose records do not tell among them; anew as the book changes. */
export function useBookPulls(): Outcome<BookPulls> {
  const copy = useStore(bookCopy);
  const { pull, series, day, site, seabed, anchor, rigVersion } = copy.records;
  const asking = copy.state === "asking";
  const logs = useLogVerdicts(copy.records, copy.logs);
  const question = useMemo(
    () =>
      asking
        ? null
        : (((work) =>
            work.bookPulls(
              { pull, series, day, site, seabed, anchor, rigVersion } as never,
              logs,
            )) satisfies Question<BookPulls>),
    [asking, pull, series, day, site, seabed, anchor, rigVersion, logs],
  );
  return useNewest(question);
}
