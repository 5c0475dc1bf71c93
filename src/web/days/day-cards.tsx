import { Fragment, useMemo } from "react";
import { byDecimal } from "../controls/by-decimal.tsx";
import { Hint } from "../controls/hint.tsx";
import { useHint } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import { type DayGroup, dayGroups } from "./find.ts";
import { LogRow, Signs } from "./log-row.tsx";
import { NothingFound } from "./nothing-found.tsx";
import styles from "./place.module.css";
import { lineOf, logsOf, resultParts, titleOf } from "./record-text.ts";
import { SmallTrace } from "./small-trace.tsx";
import { daysStore, go } from "./state.ts";
import { useSay } from "./use-say.ts";

/** The days, the newest first, each a card with its pulls. */
export function DayList() {
  const copy = useStore(bookCopy);
  const { narrow } = useStore(daysStore);
  const groups = useMemo(() => dayGroups(copy, narrow), [copy, narrow]);
  const hint = useHint("days open a pull");
  if (groups.length === 0) return <NothingFound />;
  return (
    <>
      {hint.shown && groups.some(({ pulls }) => pulls.length > 0) && (
        <Hint>Open a pull to see its log, its fields and their history.</Hint>
      )}
      {groups.map((group) => (
        <DayCard key={group.day?.id ?? "none"} group={group} onOpened={hint.used} />
      ))}
    </>
  );
}

function DayCard({ group, onOpened }: { readonly group: DayGroup; readonly onOpened: () => void }) {
  const copy = useStore(bookCopy);
  const say = useSay();
  const { day, pulls, logs } = group;
  const results = pulls.map((pull) => resultParts(pull, say));
  const loads = byDecimal(
    results.map(({ load }) => load),
    "end",
  );
  return (
    <section className={styles.day}>
      {day === null ? (
        <h2>Pulls and logs of no day</h2>
      ) : (
        <h2>
          <button
            type="button"
            className={styles.dayHead}
            onClick={() => go({ page: "record", kind: "day", id: day.id })}
          >
            {titleOf(copy.records, "day", day)}
            <Signs record={day} />
          </button>
        </h2>
      )}
      {day !== null && <p className={styles.quiet}>{lineOf(copy.records, "day", day, say)}</p>}
      <ul className={styles.rows}>
        {pulls.map((pull, i) => (
          <li key={pull.id}>
            <button
              type="button"
              className={styles.row}
              onClick={() => {
                onOpened();
                go({ page: "record", kind: "pull", id: pull.id });
              }}
            >
              <span className={styles.rowName}>
                {titleOf(copy.records, "pull", pull)}
                <Signs record={pull} />
              </span>
              <span className={styles.rowValue}>
                {results[i]!.said} {loads(results[i]!.load)}
              </span>
              <span className={styles.rowLine}>
                {lineOf(copy.records, "pull", pull, say)}
                {logsOf(copy, "pull", pull.id)
                  .slice(0, 1)
                  .map((log) => (
                    <Fragment key={log.id}>
                      <span className={styles.tag}>log</span>
                      <SmallTrace log={log} />
                    </Fragment>
                  ))}
              </span>
            </button>
          </li>
        ))}
        {logs.map((log) => (
          <LogRow key={log.id} log={log} />
        ))}
      </ul>
    </section>
  );
}
