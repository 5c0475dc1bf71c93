import { useEffect, useState } from "react";
import { ApiTrouble, api, OutOfReach } from "../api/client.ts";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { bookCopy, type Records } from "./book-copy.ts";
import { forms, isFormed } from "./kinds.ts";
import styles from "./place.module.css";
import { placeText } from "./projection.ts";
import { countText, recordOf, resultText, type Say, titleOf } from "./said.ts";
import { useSay } from "./use-say.ts";
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
  const { readOnly, records } = useStore(bookCopy);
  const say = useSay();
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
            <Changes lines={linesOf(act.changes, records, say)} />
          </li>
        ))}
      </ol>
      {acts.length > FEW && <Button onClick={() => setAll(!all)}>{all ? "Fewer" : `All ${acts.length}`}</Button>}
    </Panel>
  );
}

/** More than this many fields of one act are folded away: a new record says them all, and they stand beside. */
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

/** One change in words: names for ids, quantities in the reader's units. */
function changeText({ kind, field, was, value }: Entry["changes"][number], records: Records, say: Say): string {
  if (field === "hidden") return value === true ? "put aside" : "brought back";
  const form = isFormed(kind) ? forms[kind].find((one) => one.name === field) : undefined;
  const label = form?.label ?? field;
  const shown = (given: unknown): string => {
    if (given === null || given === undefined) return "nothing";
    if (form?.as === "refer") {
      const to = recordOf(records, form.to, given);
      return to === undefined ? "one that is not here" : titleOf(records, form.to, to);
    }
    if (form?.as === "quantity") return say(Number(given), label.toLowerCase(), form.dimension);
    if (form?.as === "number") return `${given}${form.unit.replace(" ", "")}`;
    if (form?.as === "place") return placeText(Number(given), form.axis);
    if (form?.as === "result") return resultText({ id: "", hidden: false, result: given }, say);
    if (form?.as === "steps") return countText((given as unknown[]).length, "step", "steps");
    if (form?.as === "moment") return momentText(String(given));
    const text = typeof given === "string" ? given : JSON.stringify(given);
    return text.length > 60 ? `${text.slice(0, 57)}…` : text;
  };
  return was === null || was === undefined ? `${label}: ${shown(value)}` : `${label}: ${shown(was)} → ${shown(value)}`;
}

const momentText = (moment: string): string =>
  new Date(moment).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
