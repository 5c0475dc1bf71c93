import { useStore } from "../../state/use-store.ts";
import { bookCopy } from "../book-copy.ts";
import { Heading } from "../heading.tsx";
import { logLine, recordOf, titleOf } from "../record-text.ts";
import type { At, LogPlace } from "../state.ts";
import styles from "./log.module.css";
import { OpenedLog } from "./opened-log.tsx";
import { useLog } from "./use-log.ts";

/** The trace of a log, its marks, and what they say. */
export function LogPage({ at }: { readonly at: LogPlace }) {
  const copy = useStore(bookCopy);
  const { answer, wrong } = useLog(at.id);
  const info = copy.logs.find((log) => log.id === at.id);
  const pull = recordOf(copy.records, "pull", answer?.log.pull ?? info?.pull);
  const day = recordOf(copy.records, "day", answer?.log.day ?? info?.day ?? pull?.day);
  const back: { at: At; label: string } =
    pull !== undefined
      ? { at: { page: "record", kind: "pull", id: pull.id }, label: titleOf(copy.records, "pull", pull) }
      : day !== undefined
        ? { at: { page: "record", kind: "day", id: day.id }, label: titleOf(copy.records, "day", day) }
        : { at: { page: "book" }, label: "Book" };
  const title = String(answer?.log.name ?? info?.name ?? "Log");
  const line = info === undefined ? "" : logLine(info);
  if (answer === null) {
    return (
      <>
        <Heading back={back} title={title} line={line} />
        {wrong === null ? <p className={styles.quiet}>Fetching the log…</p> : <p role="alert">{wrong}</p>}
      </>
    );
  }
  const { from_s, to_s, rows } = answer.content;
  return (
    <>
      <Heading back={back} title={title} line={line} />
      {wrong !== null && <p role="alert">{wrong}</p>}
      {rows === 0 || from_s === null || to_s === null ? (
        <p className={styles.quiet}>No readings are in the book yet.</p>
      ) : (
        <OpenedLog at={at} answer={answer} whole={{ from: from_s, to: Math.max(to_s, from_s + 1e-3) }} pull={pull} />
      )}
    </>
  );
}
