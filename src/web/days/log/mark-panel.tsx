import { useId, useState } from "react";
import type { MarkCause } from "../../../pull/index.ts";
import { addableMarks, type EffectiveMark, type MarkChange } from "../../../study/index.ts";
import { markCauseWords } from "../../../words/index.ts";
import { Button } from "../../controls/button.tsx";
import { withMinus } from "../../controls/numbers.ts";
import { Panel } from "../../controls/panel.tsx";
import { useUnits } from "../../state/preferences.ts";
import { putAside } from "../written.ts";
import { clockText } from "./clock.ts";
import styles from "./log.module.css";

/** The mark in hand: what it says, how it was found, and what a person may make of it. */
export function MarkPanel({
  mark,
  text,
  why,
  readOnly,
  onClose,
  onChange,
}: {
  readonly mark: EffectiveMark;
  readonly text: string;
  /** Why it is one, as it lies now; null where nobody knows. */
  readonly why: MarkCause | null;
  readonly readOnly: boolean;
  readonly onClose: () => void;
  readonly onChange: (label: string, change: MarkChange) => void;
}) {
  const id = useId();
  const { system } = useUnits();
  const [wrong, setWrong] = useState<string | null>(null);
  const span = (from: number, to: number) =>
    to > from ? `${clockText(from, 0.1)} to ${clockText(to, 0.1)}` : clockText(from, 0.1);
  const kinds = [...new Set<string>([mark.kind, ...addableMarks, "peak", "spike", "easing", "reversal"])];
  const found = mark.automatic;
  return (
    <Panel
      title={text}
      beside={
        <Button look="bare" aria-label="Close this mark" onClick={onClose}>
          ×
        </Button>
      }
    >
      <p>
        {span(mark.from, mark.to)}
        {mark.takenAway && ", taken away by hand"}
      </p>
      {why !== null && <p className={styles.quiet}>{withMinus(markCauseWords(why, system))}</p>}
      {found !== null && mark.byHand !== null && (
        <p className={styles.quiet}>
          The reduction found: {found.kind}, {span(found.from_s, found.to_s ?? found.from_s)}. It is kept beside the
          correction.
        </p>
      )}
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      {!readOnly && (
        <div className={styles.group}>
          {!mark.takenAway && (
            <>
              <label className="unseen" htmlFor={id}>
                Call it
              </label>
              <select
                id={id}
                className={styles.select}
                value={mark.kind}
                onChange={(event) =>
                  onChange(`call ${mark.kind} ${event.target.value}`, { change: "call", kind: event.target.value })
                }
              >
                {kinds.map((kind) => (
                  <option key={kind} value={kind}>
                    {kind}
                  </option>
                ))}
              </select>
            </>
          )}
          {mark.takenAway ? (
            <Button onClick={() => onChange(`bring back ${mark.kind}`, { change: "bring back" })}>Bring it back</Button>
          ) : (
            <Button onClick={() => onChange(`take away ${mark.kind}`, { change: "take away" })}>Take it away</Button>
          )}
          {mark.origin === "corrected" && mark.byHand !== null && (
            <Button
              onClick={() => void putAside("mark", mark.byHand!.id, true, `correction of ${mark.kind}`).then(setWrong)}
            >
              As it was found
            </Button>
          )}
        </div>
      )}
    </Panel>
  );
}
