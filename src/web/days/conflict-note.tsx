import { useMemo } from "react";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import { fieldLabel } from "./change-text.ts";
import { conflictsIn } from "./conflicts.ts";
import { type Kept, kept } from "./kinds.ts";
import styles from "./place.module.css";
import { recordOf, titleOf } from "./record-text.ts";
import { go } from "./state.ts";
import { useHistory } from "./use-history.ts";

/** Transactions looked through: what lies farther back is told on the page of its record. */
const LOOKED_THROUGH = 300;

/** Tells wherever one is in the book that two devices wrote one field, and leads to where it is settled. */
export function ConflictNote() {
  const { records } = useStore(bookCopy);
  const history = useHistory(null, LOOKED_THROUGH);
  const found = useMemo(() => {
    const fields = new Map<string, { kind: Kept; record: string; labels: string[] }>();
    for (const { kind, record, field } of conflictsIn(history ?? [])) {
      const known = kept.find((one) => one === kind);
      if (known === undefined) continue;
      const labels = [...(fields.get(record)?.labels ?? []), fieldLabel(kind, field).toLowerCase()];
      fields.set(record, { kind: known, record, labels });
    }
    return [...fields.values()];
  }, [history]);
  if (found.length === 0) return null;
  return (
    <div className={styles.note} role="status">
      <p>Two devices wrote one field. The later stands; both are shown where you choose:</p>
      <ul>
        {found.map(({ kind, record, labels }) => {
          const here = recordOf(records, kind, record);
          if (here === undefined) return null;
          return (
            <li key={record}>
              <button type="button" className={styles.link} onClick={() => go({ page: "record", kind, id: record })}>
                {titleOf(records, kind, here)}: {labels.join(", ")}
              </button>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
