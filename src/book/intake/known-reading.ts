import type { LogMark } from "../../log/index.ts";
import type { Book } from "../book.ts";
import type { LogFile } from "./log-file.ts";
import { mappingOf } from "./log-mapping.ts";

/** What an unfinished log keeps with its position: the reader's state and the hash of all before it. */
export interface ReadState {
  readonly sha256: string;
  readonly reader: unknown;
  readonly known: number;
  /** Logs that hold part of the same recording. */
  readonly recordings: readonly string[];
  /** Gaps and restarts met so far, kept as marks when the log is finished. */
  readonly marks: readonly LogMark[];
}

/** A reading of a file's front that the book holds. */
export interface KnownReading {
  readonly kind: "begun" | "finished";
  readonly log: string;
  readonly rows: number;
  readonly position: number;
  readonly state: unknown;
}

/** The log that holds the front of this very file, however it is called now: the one that got furthest. */
export function knownReading(book: Book, file: LogFile, signature: string, again: boolean): KnownReading | null {
  const candidates = book
    .list("log")
    .filter((log) => mappingOf(log.mapping)?.signature === signature)
    .map((log) => book.logs.progress(log.id))
    .filter(({ state, position }) => typeof (state as ReadState | null)?.sha256 === "string" && position > 0);
  const hashes = file.prefixHashes([...new Set(candidates.map(({ position }) => position))]);
  const same = candidates.filter(({ position, state }) => hashes.get(position) === (state as ReadState).sha256);
  if (again) {
    for (const { log } of same) book.hide(log);
    return null;
  }
  const best = same.sort((a, b) => b.position - a.position || (a.log < b.log ? -1 : 1))[0];
  return best === undefined ? null : { ...best, kind: best.kind === "finished" ? "finished" : "begun" };
}
