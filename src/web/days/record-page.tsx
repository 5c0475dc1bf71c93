import { useState } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import { useOutbox } from "../api/outbox.ts";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { bookCopy, type Rec } from "./book-copy.ts";
import { type At, go, wholeLog } from "./desk.ts";
import { Heading } from "./heading.tsx";
import { type FormField, forms, isFormed, type Kept, words } from "./kinds.ts";
import { Pictures } from "./pictures.tsx";
import styles from "./place.module.css";
import { placeText } from "./projection.ts";
import { RecordHistory } from "./record-history.tsx";
import { lineOf, logLine, logsOf, recordOf, resultText, titleOf } from "./said.ts";
import { useSay } from "./use-say.ts";
import { putAside } from "./written.ts";

/** One record: its fields, what belongs to it, and who said what when. */
export function RecordPage({ at }: { readonly at: Extract<At, { page: "record" }> }) {
  const copy = useStore(bookCopy);
  const { waiting } = useOutbox();
  const say = useSay();
  const [wrong, setWrong] = useState<string | null>(null);
  const record = recordOf(copy.records, at.kind, at.id);
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
  const day = kind === "pull" ? recordOf(copy.records, "day", record.day) : undefined;
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
          kind === "pull" ? resultText(record, say) : words[kind].one,
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
      <div className={styles.columns}>
        <div className={styles.column}>
          {logs.length > 0 && (
            <Panel title={logs.length === 1 ? "Log" : "Logs"}>
              <ul className={styles.rows}>
                {logs.map((log) => (
                  <li key={log.id}>
                    <button type="button" className={styles.row} onClick={() => go(wholeLog(log.id))}>
                      <span className={styles.rowName}>{log.name}</span>
                      <span className={styles.rowValue}>open the trace</span>
                      <span className={styles.rowLine}>{logLine(log)}</span>
                    </button>
                  </li>
                ))}
              </ul>
            </Panel>
          )}
          <Said kind={kind} record={record} />
          <Belonging kind={kind} id={record.id} />
          <Pictures about={record.id} waits={record.waits === true} />
        </div>
        <div className={styles.column}>
          <Notes about={record.id} />
          <RecordHistory key={`${record.id} ${waiting}`} id={record.id} />
        </div>
      </div>
    </>
  );
}

/** The fields that say something, each with its name. */
function Said({ kind, record }: { readonly kind: Kept; readonly record: Rec }) {
  const fields: readonly FormField[] =
    kind === "rigVersion"
      ? [
          { name: "rig", label: "Rig", as: "refer", to: "rig" },
          { name: "reason", label: "Why this version", as: "text" },
          { name: "file", label: "Rig file", as: "rig" },
        ]
      : forms[kind];
  const said = fields.filter(({ name }) => record[name] !== null && record[name] !== undefined && record[name] !== "");
  if (said.length === 0) return null;
  return (
    <Panel title="What is said of it">
      <dl className={styles.fields}>
        {said.map((field) => (
          <div key={field.name} className={isWide(field) ? styles.wide : undefined}>
            <dt>{field.label}</dt>
            <dd>
              <Value field={field} record={record} />
            </dd>
          </div>
        ))}
      </dl>
    </Panel>
  );
}

const isWide = (field: FormField): boolean =>
  (field.as === "text" && field.long === true) || field.as === "steps" || field.as === "rig" || field.as === "boatFile";

function Value({ field, record }: { readonly field: FormField; readonly record: Rec }) {
  const { records } = useStore(bookCopy);
  const say = useSay();
  const value = record[field.name];
  switch (field.as) {
    case "quantity":
      return say(Number(value), field.label.toLowerCase(), field.dimension);
    case "number":
      return field.unit.startsWith(":") ? `${value}${field.unit.replace(" ", "")}` : `${value}${field.unit}`;
    case "place":
      return placeText(Number(value), field.axis);
    case "moment":
      return new Date(String(value)).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
    case "result":
      return resultText(record, say);
    case "steps":
      return (value as { load_N: number; duration_s?: number }[])
        .map(
          (step) =>
            say(step.load_N, "load", "force") +
            (step.duration_s === undefined ? "" : ` for ${formatQuantity(step.duration_s, "time", { digits: 3 })}`),
        )
        .join(", then ");
    case "refer": {
      const to = recordOf(records, field.to, value);
      if (to === undefined) return "not in this book";
      return (
        <button type="button" className={styles.link} onClick={() => go({ page: "record", kind: field.to, id: to.id })}>
          {titleOf(records, field.to, to)}
        </button>
      );
    }
    case "rig":
    case "boatFile":
      return <textarea className={styles.code} readOnly rows={10} aria-label={field.label} value={String(value)} />;
    default:
      return String(value);
  }
}

/** Which field of which kind points to a kind: what belongs to a record. */
const belonging: Partial<Record<Kept, readonly { readonly kind: Kept; readonly field: string }[]>> = {
  site: [
    { kind: "day", field: "site" },
    { kind: "seabed", field: "site" },
  ],
  anchor: [{ kind: "pull", field: "anchor" }],
  seabed: [{ kind: "pull", field: "seabed" }],
  boat: [{ kind: "day", field: "boat" }],
  series: [{ kind: "pull", field: "series" }],
  day: [{ kind: "pull", field: "day" }],
  rig: [{ kind: "rigVersion", field: "rig" }],
  rigVersion: [{ kind: "pull", field: "rigVersion" }],
};

const FEW = 12;

function Belonging({ kind, id }: { readonly kind: Kept; readonly id: string }) {
  const { records } = useStore(bookCopy);
  const say = useSay();
  const [all, setAll] = useState(false);
  return (belonging[kind] ?? []).map(({ kind: of, field }) => {
    const own = records[of].filter((one) => one[field] === id && !one.hidden);
    if (own.length === 0) return null;
    const shown = all ? own : own.slice(0, FEW);
    return (
      <Panel key={of} title={own.length === 1 ? `One ${words[of].one}` : `${own.length} ${words[of].many}`}>
        <ul className={styles.rows}>
          {shown.map((one) => (
            <li key={one.id}>
              <button type="button" className={styles.row} onClick={() => go({ page: "record", kind: of, id: one.id })}>
                <span className={styles.rowName}>{titleOf(records, of, one)}</span>
                <span className={styles.rowValue}>{of === "pull" ? resultText(one, say) : ""}</span>
                <span className={styles.rowLine}>{lineOf(records, of, one, say)}</span>
              </button>
            </li>
          ))}
        </ul>
        {own.length > FEW && <Button onClick={() => setAll(!all)}>{all ? "Fewer" : `All ${own.length}`}</Button>}
      </Panel>
    );
  });
}

function Notes({ about }: { readonly about: string }) {
  const { records, readOnly } = useStore(bookCopy);
  const notes = records.note.filter((note) => note.about === about && !note.hidden);
  if (notes.length === 0) return null;
  return (
    <Panel
      title="Notes"
      beside={
        !readOnly && (
          <Button onClick={() => go({ page: "form", kind: "note", id: null, about: `about:${about}` })}>
            Add a note
          </Button>
        )
      }
    >
      {
        <ul className={styles.acts}>
          {notes.map((note) => (
            <li key={note.id}>
              <p>{String(note.text)}</p>
              {!readOnly && (
                <Button
                  look="bare"
                  onClick={() => go({ page: "form", kind: "note", id: note.id, about: `about:${about}` })}
                >
                  Change
                </Button>
              )}
            </li>
          ))}
        </ul>
      }
    </Panel>
  );
}
