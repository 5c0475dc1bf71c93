import { useEffect, useState } from "react";
import { withWaiting } from "../../../record/index.ts";
import type { BookMark, Veer } from "../../../study/index.ts";
import { ApiTrouble, book, OutOfReach, until } from "../../api/client.ts";
import { waitingHere } from "../../api/outbox.ts";
import { useStore } from "../../state/use-store.ts";
import type { LogContent, RecordHere } from "../records.ts";
import { changes } from "../written.ts";

export interface LogAnswer {
  readonly log: RecordHere<"log">;
  readonly content: LogContent;
  readonly marks: readonly BookMark[];
  /** Veers by the marks of the pull's other logs. */
  readonly veersBeside: readonly Veer[];
}

/** The server answers records whole: a log and its marks have the fields of their kinds. */
export async function logOf(id: string, signal: AbortSignal): Promise<LogAnswer> {
  const answer = await book.logs[":id"].$get({ param: { id } }, until(signal));
  return (await answer.json()) as unknown as LogAnswer;
}

/** A log with its marks, those that wait on this device among them; asked again when anything was written. */
export function useLog(id: string): { readonly answer: LogAnswer | null; readonly wrong: string | null } {
  const count = useStore(changes);
  const [answer, setAnswer] = useState<LogAnswer | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each change of the book is a reason to look again
  useEffect(() => {
    const stop = new AbortController();
    const look = async (): Promise<void> => {
      try {
        const got = await logOf(id, stop.signal);
        const marks = await withOwn(got.marks);
        if (stop.signal.aborted) return;
        setAnswer((before) =>
          before !== null && JSON.stringify(before.content) === JSON.stringify(got.content)
            ? { ...got, content: before.content, marks }
            : { ...got, marks },
        );
        setWrong(null);
      } catch (error) {
        if (stop.signal.aborted) return;
        if (error instanceof OutOfReach) {
          setWrong("The readings are in the book, which is out of reach now.");
          // The marks on the page, with what was written since.
          const own = await withOwn([]);
          setAnswer((before) => (before === null ? null : { ...before, marks: joined(before.marks, own, id) }));
        } else if (error instanceof ApiTrouble) setWrong(error.message);
        else throw error;
      }
    };
    void look();
    return () => stop.abort();
  }, [id, count]);
  return { answer, wrong };
}

async function withOwn(marks: readonly BookMark[]): Promise<readonly BookMark[]> {
  const laid = withWaiting({ mark: marks }, await waitingHere());
  const own = new Set(marks.map((mark) => mark.id));
  return laid.mark!.map((mark) => (own.has(mark.id) ? mark : { ...nothingSaid, ...mark }));
}

const nothingSaid = { to_s: null, corrects: null, detail: null, remarks: null };

function joined(marks: readonly BookMark[], own: readonly BookMark[], log: string): readonly BookMark[] {
  const waiting = new Map(own.map((mark) => [mark.id, mark]));
  const known = new Set(marks.map((mark) => mark.id));
  return [
    ...marks.map((mark) => {
      const said = waiting.get(mark.id);
      return said === undefined
        ? mark
        : { ...mark, ...Object.fromEntries(Object.entries(said).filter(([, v]) => v !== undefined && v !== null)) };
    }),
    ...own.filter((mark) => !known.has(mark.id) && mark.log === log),
  ];
}
