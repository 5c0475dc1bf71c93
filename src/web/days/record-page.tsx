import { useMemo, useState } from "react";
import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { Belonging } from "./belonging.tsx";
import { bookCopy } from "./book-copy.ts";
import { ConflictPanel } from "./conflict-panel.tsx";
import { conflictsIn } from "./conflicts.ts";
import { Heading } from "./heading.tsx";
import { isFormed, words } from "./kinds.ts";
import { Notes } from "./notes.tsx";
import { Pictures } from "./pictures.tsx";
import styles from "./place.module.css";
import { PullEvidencePanel } from "./pull-evidence.tsx";
import { PullHeadline } from "./pull-headline.tsx";
import { RecordFields } from "./record-fields.tsx";
import { RecordHistory } from "./record-history.tsx";
import { logLine, logsOf, recordOf, resultText, titleOf } from "./record-text.ts";
import { type At, go, wholeLog } from "./state.ts";
import { useHistory } from "./use-history.ts";
import { useSay } from "./use-say.ts";
import { putAside } from "./written.ts";

/** Transactions of one record: more than anybody writes about one. */
const WHOLE = 1000;

/** One record: its fields, what belongs to it, and who said what when. */
export function RecordPage({ at }: { readonly at: Extract<At, { page: "record" }> }) {
  const copy = useStore(bookCopy);
  const say = useSay();
  const [wrong, setWrong] = useState<string | null>(null);
  const record = recordOf(copy.records, at.kind, at.id);
  const history = useHistory(at.id, WHOLE);
  const conflicts = useMemo(() => conflictsIn(history ?? []), [history]);
  if (record === undefined) {
    return (
      <Heading
        back={{ at: { page: "book" }, label: "Book" }}
        title={`No such ${words[at.kind].one}`}
        line="It may be in another book, or deleted for good."
      />
    );
  }
  const { kind } = at;
  const title = titleOf(copy.records, kind, record);
  const pull = kind === "pull" ? recordOf(copy.records, "pull", at.id) : undefined;
  const day = recordOf(copy.records, "day", pull?.day);
  const back =
    day === undefined
      ? { at: { page: "book" } as const, label: "Book" }
      : { at: { page: "record", kind: "day", id: day.id } as const, label: titleOf(copy.records, "day", day) };
  const logs = kind === "pull" || kind === "day" ? logsOf(copy, kind, record.id) : [];
  return (
    <>
      <Heading
        back={back}
        title={title}
        line={[
          pull !== undefined ? resultText(pull, say) : words[kind].one,
          record.waits ? "waits on this device" : "",
          record.hidden ? "put aside" : "",
        ]
          .filter((part) => part !== "")
          .join(" · ")}
      >
        {!copy.readOnly && (
          <>
            {kind === "day" && (
              <Button
                look="strong"
                onClick={() => go({ page: "form", kind: "pull", id: null, about: `day:${record.id}` })}
              >
                Add a pull
              </Button>
            )}
            {kind === "pull" && (
              <Button
                look="strong"
                onClick={() =>
                  go({
                    page: "form",
                    kind: "pull",
                    id: null,
                    about: pull?.day == null ? null : `day:${pull.day}`,
                  })
                }
              >
                Next pull
              </Button>
            )}
            {(kind === "pull" || kind === "day") && logs.length === 0 && (
              <Button onClick={() => go({ page: "bring in", sent: null, pull: kind === "pull" ? record.id : null })}>
                Bring in its log
              </Button>
            )}
            {!record.hidden &&
              kind !== "note" &&
              !copy.records.note.some((note) => note.about === record.id && !note.hidden) && (
                <Button onClick={() => go({ page: "form", kind: "note", id: null, about: `about:${record.id}` })}>
                  Add a note
                </Button>
              )}
            {isFormed(kind) && !record.hidden && (
              <Button onClick={() => go({ page: "form", kind, id: record.id, about: null })}>Change</Button>
            )}
            {record.waits !== true && (
              <Button
                onClick={() => void putAside(kind, record.id, !record.hidden, title).then(setWrong)}
                title="Nothing is deleted: it leaves the lists and can be brought back"
              >
                {record.hidden ? "Bring back" : "Put aside"}
              </Button>
            )}
          </>
        )}
      </Heading>
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      <ConflictPanel conflicts={conflicts} />
      {pull !== undefined && <PullHeadline pull={pull} />}
      <div className={styles.columns}>
        <div className={styles.column}>
          {logs.length > 0 && (
            <Panel title={logs.length === 1 ? "Log" : "Logs"}>
              <ul className={styles.rows}>
                {logs.map((log) => (
                  <li key={log.id}>
                    <button type="button" className={styles.row} onClick={() => go(wholeLog(log.id))}>
                      <span className={styles.rowName}>{log.name}</span>
                      <span className={`${styles.rowValue} ${styles.rowOpen}`}>open the trace</span>
                      <span className={styles.rowLine}>{logLine(log)}</span>
                    </button>
                  </li>
                ))}
              </ul>
            </Panel>
          )}
          <RecordFields kind={kind} record={record} />
          {pull !== undefined && <PullEvidencePanel records={copy.records} pull={pull} />}
          <Belonging kind={kind} id={record.id} />
          <Pictures about={record.id} waits={record.waits === true} />
        </div>
        <div className={styles.column}>
          <Notes about={record.id} />
          <RecordHistory transactions={history} />
        </div>
      </div>
    </>
  );
}
