import { useEffect, useState } from "react";
import { ApiTrouble, api, OutOfReach } from "../api/client.ts";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { bookCopy } from "./book-copy.ts";
import { forms, isFormed } from "./kinds.ts";
import styles from "./place.module.css";
import { changes, takeBack } from "./written.ts";

interface Entry {
  readonly act: string;
  readonly who: string;
  readonly at: string;
  readonly manner: string;
  readonly label: string;
  readonly changes: readonly {
    readonly kind: string;
    readonly field: string;
    readonly was: unknown;
    readonly value: unknown;
  }[];
}

const FEW = 5;

/** Who said what of a record, and when; any of it can be taken back. */
export function RecordHistory({ id }: { readonly id: string }) {
  const { readOnly } = useStore(bookCopy);
  const count = useStore(changes);
  const [acts, setActs] = useState<readonly Entry[] | null>(null);
  const [all, setAll] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each change of the book is a reason to look again
  useEffect(() => {
    const stop = new AbortController();
    api
      .get<{ acts: Entry[] }>("/history", { record: id, limit: 200 }, stop.signal)
      .then((answer) => setActs(answer.acts))
      .catch((error: unknown) => {
        if (!stop.signal.aborted && !(error instanceof OutOfReach || error instanceof ApiTrouble)) throw error;
      });
    return () => stop.abort();
  }, [id, count]);
  if (acts === null || acts.length === 0) return null;
  const shown = all ? acts : acts.slice(0, FEW);
  return (
    <Panel title="History">
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
      <ol className={styles.acts}>
        {shown.map((act) => (
          <li key={act.act}>
            <p>
              <strong>{act.label}</strong>
              <br />
              <span className={styles.quiet}>
                {act.who},{" "}
                <time dateTime={act.at}>
                  {new Date(act.at).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" })}
                </time>
              </span>
            </p>
            {!readOnly && (
              <Button
                look="bare"
                aria-label={`Take back: ${act.label}, ${new Date(act.at).toLocaleString("en-GB")}`}
                onClick={() => void takeBack(act.act, act.label).then(setWrong)}
              >
                Take back
              </Button>
            )}
            <ul>
              {act.changes
                .filter((change) => change.field !== "hidden" || act.changes.length === 1)
                .slice(0, 20)
                .map((change) => (
                  <li key={change.field}>{changeText(change)}</li>
                ))}
            </ul>
          </li>
        ))}
      </ol>
      {acts.length > FEW && <Button onClick={() => setAll(!all)}>{all ? "Fewer" : `All ${acts.length}`}</Button>}
    </Panel>
  );
}

function changeText({ kind, field, was, value }: Entry["changes"][number]): string {
  if (field === "hidden") return value === true ? "put aside" : "brought back";
  const label = isFormed(kind) ? (forms[kind].find((one) => one.name === field)?.label ?? field) : field;
  return was === null || was === undefined
    ? `${label}: ${short(value)}`
    : `${label}: ${short(was)} → ${value === null ? "nothing" : short(value)}`;
}

function short(value: unknown): string {
  const text = typeof value === "string" ? value : JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
