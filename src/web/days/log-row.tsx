import { useStore } from "../state/use-store.ts";
import { type AnyRecord, bookCopy, type LogHere } from "./book-copy.ts";
import styles from "./place.module.css";
import { logLine, titleOf } from "./record-text.ts";
import { go, wholeLog } from "./state.ts";

/** What sets a record apart in a list: it waits here, it was put aside. */
export function Signs({ record }: { readonly record: AnyRecord }) {
  return (
    <>
      {record.waits === true && <span className={styles.tag}>waits here</span>}
      {record.hidden && <span className={styles.tag}>put aside</span>}
    </>
  );
}

/** A log in a list. */
export function LogRow({ log }: { readonly log: LogHere }) {
  const copy = useStore(bookCopy);
  const pull = copy.records.pull.find((one) => one.id === log.pull);
  return (
    <li>
      <button type="button" className={styles.row} onClick={() => go(wholeLog(log.id))}>
        <span className={styles.rowName}>
          {log.name}
          <Signs record={log} />
        </span>
        <span className={styles.rowValue}>{pull === undefined ? "log" : titleOf(copy.records, "pull", pull)}</span>
        <span className={styles.rowLine}>{logLine(log)}</span>
      </button>
    </li>
  );
}
