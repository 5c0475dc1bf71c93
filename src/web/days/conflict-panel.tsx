import { useState } from "react";
import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import { fieldLabel, momentText, valueText } from "./change-text.ts";
import type { Conflict, WrittenChange } from "./conflicts.ts";
import styles from "./place.module.css";
import { useSay } from "./use-say.ts";
import { write } from "./written.ts";

/** What two devices wrote into one field of this record: both values, and a person to choose. */
export function ConflictPanel({ conflicts }: { readonly conflicts: readonly Conflict[] }) {
  const { records, readOnly } = useStore(bookCopy);
  const say = useSay();
  const [wrong, setWrong] = useState<string | null>(null);
  if (conflicts.length === 0) return null;
  const choose = ({ kind, record, field, stands }: Conflict, chosen: WrittenChange, left: WrittenChange): void => {
    const label = `choose ${fieldLabel(kind, field).toLowerCase()} of the two written`;
    const keeps = chosen === stands;
    void write(label, [
      {
        kind,
        id: record,
        makes: false,
        set: { [field]: chosen.value },
        was: { [field]: keeps ? left.value : stands.value },
      },
    ]).then(setWrong);
  };
  return (
    <Panel title="Written on two devices">
      <p className={styles.quiet}>
        Neither had seen what the other wrote. The later one stands until you choose; both stay in the history.
      </p>
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      {conflicts.map((conflict) => {
        const { kind, field, stands, others } = conflict;
        const label = fieldLabel(kind, field);
        const text = ({ value }: WrittenChange): string => valueText(kind, field, value, records, say);
        return (
          <section key={field} aria-label={label}>
            <h3>{label}</h3>
            <ul className={styles.rows}>
              {[stands, ...others].map((said) => (
                <li key={`${said.who} ${said.at}`} className={styles.choice}>
                  <span>
                    <strong>{text(said)}</strong>
                    {said === stands && <span className={styles.tag}>stands now</span>}
                    <br />
                    <span className={styles.quiet}>
                      {said.who}, <time dateTime={said.at}>{momentText(said.at)}</time>
                    </span>
                  </span>
                  {!readOnly && (
                    <Button
                      aria-label={`${said === stands ? "Keep" : "Take"} ${text(said)}: ${label}`}
                      onClick={() => choose(conflict, said, others[0]!)}
                    >
                      {said === stands ? "Keep" : "Take"} {text(said)}
                    </Button>
                  )}
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </Panel>
  );
}
