import { countText } from "../../words/index.ts";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import { listed, saysAll } from "./find.ts";
import { type Kept, words } from "./kinds.ts";
import { LogRow, Signs } from "./log-row.tsx";
import { NothingFound } from "./nothing-found.tsx";
import styles from "./place.module.css";
import { lineOf, titleOf } from "./record-text.ts";
import { daysStore, go } from "./state.ts";
import { useSay } from "./use-say.ts";

/** The shelf of logs. */
export function LogList() {
  const copy = useStore(bookCopy);
  const { narrow } = useStore(daysStore);
  const find = narrow.find.trim();
  const logs = copy.logs.filter(
    (log) => (narrow.aside || !log.hidden) && (find === "" || saysAll(find, log.name ?? "")),
  );
  if (logs.length === 0) return <NothingFound />;
  return (
    <ul className={styles.rows}>
      {logs.map((log) => (
        <LogRow key={log.id} log={log} />
      ))}
    </ul>
  );
}

/** A shelf of records, kind by kind. */
export function KindLists({ kinds }: { readonly kinds: readonly Kept[] }) {
  const copy = useStore(bookCopy);
  const say = useSay();
  const { narrow } = useStore(daysStore);
  const lists = kinds.map((kind) => ({ kind, records: listed(copy, kind, narrow) }));
  if (lists.every(({ records }) => records.length === 0)) return <NothingFound />;
  return lists
    .filter(({ records }) => records.length > 0)
    .map(({ kind, records }) => (
      <section key={kind} className={styles.day}>
        <h2>{countText(records.length, words[kind].one, words[kind].many)}</h2>
        <ul className={styles.rows}>
          {records.map((record) => (
            <li key={record.id}>
              <button type="button" className={styles.row} onClick={() => go({ page: "record", kind, id: record.id })}>
                <span className={styles.rowName}>
                  {titleOf(copy.records, kind, record)}
                  <Signs record={record} />
                </span>
                <span className={styles.rowLine}>{lineOf(copy.records, kind, record, say)}</span>
              </button>
            </li>
          ))}
        </ul>
      </section>
    ));
}
