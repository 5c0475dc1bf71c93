import { useEffect, useMemo } from "react";
import about from "../../../package.json" with { type: "json" };
import { Button } from "../controls/button.tsx";
import { bookCopy, look } from "../days/book-copy.ts";
import { DemoNote } from "../days/books/demo-note.tsx";
import { useLogVerdicts } from "../holding/use-log-verdicts.ts";
import { useAddress } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { publishCodec } from "./address.ts";
import { Choose } from "./choose.tsx";
import { FilmPanel } from "./film/film-panel.tsx";
import { Made } from "./made.tsx";
import { make, making, stopMaking } from "./making.ts";
import styles from "./place.module.css";
import { publishStore } from "./state.ts";
import type { OutgoingAsked } from "./work.ts";

/** What leaves the bench: a page, a report, open data, a film overlay. */
export function Place() {
  useAddress(publishStore, publishCodec);
  useUndoable(publishStore);
  useEffect(() => void look(), []);
  const copy = useStore(bookCopy);
  const { sent } = useStore(publishStore);
  const { system } = useUnits();
  const now = useStore(making);
  const logs = useLogVerdicts(copy.records, copy.logs);
  const { pull, day, site, seabed, anchor, rigVersion, series, note, boat } = copy.records;
  const asked = useMemo(
    () =>
      ({
        ...sent,
        records: { pull, day, site, seabed, anchor, rigVersion, series, note, boat },
        logs,
        rawLogs: [],
        units: system,
        program: about.version,
        invented: copy.simulated,
      }) as unknown as OutgoingAsked,
    [sent, pull, day, site, seabed, anchor, rigVersion, series, note, boat, logs, system, copy.simulated],
  );
  const reading = copy.state === "asking";
  const count = pull.filter((one) => !one.hidden && (sent.series === "" || one.series === sent.series)).length;
  return (
    <div className={styles.place}>
      <h1>Publish</h1>
      <DemoNote />
      {reading ? (
        <p className={styles.quiet}>Reading the book…</p>
      ) : copy.state === "none" ? (
        <p className={styles.quiet}>This device has not seen the book yet.</p>
      ) : (
        <>
          <Choose />
          <div className={styles.buttons}>
            {now.kind === "working" ? (
              <>
                <progress value={now.share} max={1} aria-label="draws made" />
                <Button onClick={stopMaking}>Stop</Button>
              </>
            ) : (
              <Button look="strong" disabled={count === 0} onClick={() => void make(asked, copy.logs, sent.rawLogs)}>
                Make page, report and data
              </Button>
            )}
            <span className={styles.quiet}>
              {count === 0 ? "no pull to publish" : `${count} ${count === 1 ? "pull" : "pulls"}`}
              {now.kind === "made" && now.of !== asked && "; what stands below was made before the last change"}
            </span>
          </div>
          {now.kind === "failed" && (
            <p className={styles.wrong} role="alert">
              {now.line}
            </p>
          )}
          {now.kind === "made" && <Made made={now.made} by={now.of.by} />}
          <FilmPanel />
        </>
      )}
      <p className={styles.quiet}>
        Estimates, never a promise that anything holds: look through what goes out, and who is named in it, before you
        send it anywhere.
      </p>
    </div>
  );
}
