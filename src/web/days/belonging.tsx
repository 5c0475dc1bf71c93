import { useState } from "react";
import { Button } from "../controls/button.tsx";
import { Panel } from "../controls/panel.tsx";
import { useStore } from "../state/use-store.ts";
import { type AnyRecord, bookCopy, type RecordHere } from "./book-copy.ts";
import { type Kept, words } from "./kinds.ts";
import styles from "./place.module.css";
import { lineOf, resultText, titleOf } from "./record-text.ts";
import { go } from "./state.ts";
import { useSay } from "./use-say.ts";

/** Which field of which kind points to a kind: what belongs to a record; `through` a kind that belongs to it itself. */
const belonging: Partial<
  Record<Kept, readonly { readonly kind: Kept; readonly field: string; readonly through?: Kept }[]>
> = {
  site: [
    { kind: "day", field: "site" },
    { kind: "seabed", field: "site" },
  ],
  anchor: [{ kind: "pull", field: "anchor" }],
  seabed: [{ kind: "pull", field: "seabed" }],
  boat: [{ kind: "day", field: "boat" }],
  series: [{ kind: "pull", field: "series" }],
  day: [{ kind: "pull", field: "day" }],
  rig: [
    { kind: "rigVersion", field: "rig" },
    { kind: "pull", field: "rigVersion", through: "rigVersion" },
  ],
  rigVersion: [{ kind: "pull", field: "rigVersion" }],
};

const FEW = 12;

/** What belongs to a record: the pulls of a day, the days of a site. */
export function Belonging({ kind, id }: { readonly kind: Kept; readonly id: string }) {
  const { records } = useStore(bookCopy);
  const say = useSay();
  const [all, setAll] = useState(false);
  return (belonging[kind] ?? []).map(({ kind: of, field, through }) => {
    const ofKind: readonly AnyRecord[] = records[of];
    const between: readonly AnyRecord[] = through === undefined ? [] : records[through];
    const to = through === undefined ? [id] : between.filter((one) => one[kind] === id).map((one) => one.id);
    const own = ofKind.filter((one) => to.includes(String(one[field])) && !one.hidden);
    if (own.length === 0) return null;
    const shown = all ? own : own.slice(0, FEW);
    return (
      <Panel key={of} title={own.length === 1 ? `One ${words[of].one}` : `${own.length} ${words[of].many}`}>
        <ul className={styles.rows}>
          {shown.map((one) => (
            <li key={one.id}>
              <button type="button" className={styles.row} onClick={() => go({ page: "record", kind: of, id: one.id })}>
                <span className={styles.rowName}>{titleOf(records, of, one)}</span>
                <span className={styles.rowValue}>
                  {of === "pull" ? resultText(one as RecordHere<"pull">, say) : ""}
                </span>
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
