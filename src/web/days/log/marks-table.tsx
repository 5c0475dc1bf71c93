import { useState } from "react";
import { addableMarks, type EffectiveMark } from "../../../study/index.ts";
import { markWords } from "../../../words/index.ts";
import { newId } from "../../api/ids.ts";
import { Button } from "../../controls/button.tsx";
import { byDecimal } from "../../controls/by-decimal.tsx";
import { Panel } from "../../controls/panel.tsx";
import type { Store } from "../../state/store.ts";
import { useSay } from "../use-say.ts";
import { write } from "../written.ts";
import { clockText } from "./clock.ts";
import styles from "./log.module.css";
import { type Window, within } from "./window.ts";

const FEW = 10;

/** The marks in words: the same as on the trace, for the keyboard, for those who do not see it, and to add one. */
export function MarksTable(props: {
  readonly marks: readonly EffectiveMark[];
  readonly valueOf: (mark: EffectiveMark) => { value: number; u: number } | null;
  readonly chosen: string | null;
  readonly view: Store<Window>;
  readonly whole: Window;
  readonly log: string;
  readonly readOnly: boolean;
  readonly onChoose: (id: string) => void;
}) {
  const { marks, view, whole } = props;
  const say = useSay();
  const [all, setAll] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  if (marks.length === 0 && props.readOnly) return null;
  const shown = all ? marks : marks.slice(0, FEW);
  const loadText = (mark: EffectiveMark): string => {
    const value = props.valueOf(mark);
    return value === null || value.value === 0 ? "" : say(value.value, "load", "force", value.u);
  };
  const aligned = byDecimal(shown.map(loadText));

  const add = (kind: string) => {
    const { from, to } = view.get();
    const third = (to - from) / 3;
    const id = newId();
    const spans = kind !== "note" && kind !== "set" && kind !== "reset";
    void write(`mark ${kind}`, [
      {
        kind: "mark",
        id,
        makes: true,
        set: {
          log: props.log,
          kind,
          from_s: spans ? from + third : (from + to) / 2,
          to_s: spans ? to - third : null,
          origin: "by hand",
        },
      },
    ]).then((line) => {
      setWrong(line);
      if (line === null) props.onChoose(id);
    });
  };
  const choose = (mark: EffectiveMark) => {
    props.onChoose(mark.id);
    const { from, to } = view.get();
    if (mark.to < from || mark.from > to || mark.to - mark.from > to - from) {
      const width = Math.max(to - from, 2 * (mark.to - mark.from));
      const middle = (mark.from + mark.to) / 2;
      view.put(within({ from: middle - width / 2, to: middle + width / 2 }, whole));
    }
  };

  return (
    <Panel
      title={marks.length === 0 ? "Marks" : `Marks, ${marks.length}`}
      beside={
        !props.readOnly && (
          <select
            className={styles.select}
            aria-label="Add a mark in the middle of the view"
            value=""
            onChange={(event) => {
              if (event.target.value !== "") add(event.target.value);
            }}
          >
            <option value="">Add a mark…</option>
            {addableMarks.map((kind) => (
              <option key={kind} value={kind}>
                {kind}: {markWords[kind]}
              </option>
            ))}
          </select>
        )
      }
    >
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      {marks.length > 0 && (
        <div className={styles.scroll}>
          <table className={styles.table}>
            <thead>
              <tr>
                <th scope="col">mark</th>
                <th scope="col">from</th>
                <th scope="col">to</th>
                <th scope="col">load</th>
                <th scope="col">made</th>
              </tr>
            </thead>
            <tbody>
              {shown.map((mark) => {
                return (
                  <tr
                    key={mark.id}
                    data-chosen={mark.id === props.chosen || undefined}
                    data-away={mark.takenAway || undefined}
                  >
                    <th scope="row">
                      <button
                        type="button"
                        className={styles.name}
                        aria-pressed={mark.id === props.chosen}
                        onClick={() => choose(mark)}
                      >
                        {mark.kind}
                      </button>
                    </th>
                    <td>{clockText(mark.from, 0.1)}</td>
                    <td>{mark.to > mark.from ? clockText(mark.to, 0.1) : ""}</td>
                    <td>{aligned(loadText(mark))}</td>
                    <td>
                      {mark.takenAway
                        ? "taken away"
                        : mark.origin === "automatic"
                          ? "automatic"
                          : mark.origin === "corrected"
                            ? "corrected"
                            : "by hand"}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
      {marks.length > FEW && <Button onClick={() => setAll(!all)}>{all ? "Fewer" : `All ${marks.length}`}</Button>}
    </Panel>
  );
}
