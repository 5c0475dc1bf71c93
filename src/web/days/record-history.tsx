import { useState } from "react";
import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { bookCopy, type Records } from "./book-copy.ts";
import { changeText } from "./change-text.ts";
import styles from "./place.module.css";
import type { Say } from "./record-text.ts";
import type { Entry } from "./use-history.ts";
import { useSay } from "./use-say.ts";
import { takeBack } from "./written.ts";

const FEW = 5;

/** Who said what of a record, and when; any of it can be taken back. */
export function RecordHistory({ transactions }: { readonly transactions: readonly Entry[] | null }) {
  const { readOnly, records } = useStore(bookCopy);
  const say = useSay();
  const [all, setAll] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  if (transactions === null || transactions.length === 0) return null;
  const shown = all ? transactions : transactions.slice(0, FEW);
  return (
    <Panel title="History">
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
      <ol className={styles.entries}>
        {shown.map((transaction) => (
          <li key={transaction.transaction}>
            <p>
              <strong>{transaction.label}</strong>
              <br />
              <span className={styles.quiet}>
                {transaction.who},{" "}
                <time dateTime={transaction.at}>
                  {new Date(transaction.at).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" })}
                </time>
              </span>
            </p>
            {!readOnly && (
              <Button
                look="bare"
                aria-label={`Take back: ${transaction.label}, ${new Date(transaction.at).toLocaleString("en-GB")}`}
                onClick={() => void takeBack(transaction.transaction, transaction.label).then(setWrong)}
              >
                Take back
              </Button>
            )}
            <Changes lines={linesOf(transaction.changes, records, say)} />
          </li>
        ))}
      </ol>
      {transactions.length > FEW && (
        <Button onClick={() => setAll(!all)}>{all ? "Fewer" : `All ${transactions.length}`}</Button>
      )}
    </Panel>
  );
}

/** More than this many fields of one transaction are folded away: a new record says them all, and they stand beside. */
const MANY = 4;

function Changes({ lines }: { readonly lines: readonly string[] }) {
  const list = (
    <ul>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
  if (lines.length <= MANY) return list;
  return (
    <details className={styles.folded}>
      <summary>{lines.length} fields</summary>
      {list}
    </details>
  );
}

const linesOf = (changes: Entry["changes"], records: Records, say: Say): readonly string[] =>
  changes
    .filter((change) => change.field !== "hidden" || changes.length === 1)
    .slice(0, 20)
    .map((change) => changeText(change, records, say));
