import { useEffect, useState } from "react";
import type { LogVerdict } from "../../study/index.ts";
import type { LogHere, Records } from "../days/book-copy.ts";
import { readLogVerdicts } from "./log-verdicts.ts";

const none: ReadonlyMap<string, LogVerdict> = new Map();

/** Verdicts of the logs as they come in; the same map while they say the same. */
export function useLogVerdicts(records: Records, logs: readonly LogHere[]): ReadonlyMap<string, LogVerdict> {
  const [verdicts, setVerdicts] = useState(none);
  useEffect(() => {
    const stop = new AbortController();
    void readLogVerdicts(records, logs, stop.signal)
      .then((found) => {
        if (stop.signal.aborted) return;
        setVerdicts((before) => (JSON.stringify([...before]) === JSON.stringify([...found]) ? before : found));
      })
      .catch((error: unknown) => {
        if (!stop.signal.aborted) throw error;
      });
    return () => stop.abort();
  }, [records, logs]);
  return verdicts;
}
