import { useId } from "react";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import styles from "./place.module.css";
import { titleOf } from "./record-text.ts";
import { daysStore, narrowed } from "./state.ts";

/** Finds by words, and narrows the days to a site, an anchor or a series where there are several. */
export function FindBar() {
  const { shelf, narrow } = useStore(daysStore);
  const { records, logs } = useStore(bookCopy);
  const id = useId();
  const aside = [...Object.values(records).flat(), ...logs].some((record) => record.hidden);
  const facets = (["site", "anchor", "series"] as const).filter(
    (kind) => shelf === "days" && (records[kind].filter((one) => !one.hidden).length > 1 || narrow[kind] !== null),
  );
  return (
    <search className={styles.find}>
      <label className="unseen" htmlFor={id}>
        Find in the book
      </label>
      <input
        id={id}
        type="search"
        className={styles.input}
        placeholder="Find"
        value={narrow.find}
        onChange={(event) => narrowed({ find: event.target.value })}
      />
      {facets.map((kind) => (
        <select
          key={kind}
          className={styles.select}
          aria-label={`Only this ${kind}`}
          value={narrow[kind] ?? ""}
          onChange={(event) => narrowed({ [kind]: event.target.value === "" ? null : event.target.value })}
        >
          <option value="">every {kind}</option>
          {records[kind]
            .filter((one) => !one.hidden || one.id === narrow[kind])
            .map((one) => (
              <option key={one.id} value={one.id}>
                {titleOf(records, kind, one)}
              </option>
            ))}
        </select>
      ))}
      {(aside || narrow.aside) && (
        <label className={styles.check}>
          <input
            type="checkbox"
            checked={narrow.aside}
            onChange={(event) => narrowed({ aside: event.target.checked })}
          />
          what was put aside too
        </label>
      )}
    </search>
  );
}
