import { useId } from "react";
import { type Dimension, InputError } from "../../quantity/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import styles from "./place.module.css";
import type { DeckStep } from "./pull.ts";
import { stepsTyped } from "./setup-state.ts";
import { stepText } from "./step-text.ts";

/** The steps of a pull as they are typed, and below them as they are read: what is to be done, one after another. */
export function StepsField({
  loads,
  hold,
  onChange,
}: {
  readonly loads: string;
  /** s each load is held */
  readonly hold: number;
  readonly onChange: (loads: string) => void;
}) {
  const id = useId();
  const { system, unitOf } = useUnits();
  const show = (value: number, dimension: Dimension) =>
    formatQuantity(value, dimension, { system, unit: unitOf("deck load", dimension), digits: 3 });
  const read = stepsRead(loads, hold);
  return (
    <div className={styles.steps}>
      <label className={styles.text}>
        Loads at the anchor, one after another
        <input
          value={loads}
          maxLength={2000}
          spellCheck={false}
          autoCapitalize="none"
          aria-invalid={typeof read === "string"}
          aria-describedby={`${id}-how ${id}-read`}
          onChange={(event) => onChange(event.target.value)}
        />
      </label>
      <p id={`${id}-how`} className={styles.quiet}>
        With a comma between them. Between loads, <q>veer 45 m</q> lets rode out until 45 m are out, and <q>reset</q>{" "}
        breaks the anchor out and sets it anew.
      </p>
      {typeof read === "string" ? (
        <p id={`${id}-read`} className={styles.trouble} role="alert">
          {read}
        </p>
      ) : (
        <ol id={`${id}-read`} aria-label="The steps of this pull">
          {read.map((step, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: steps have no identity but their place
            <li key={i}>{stepText(step, null, show)}</li>
          ))}
        </ol>
      )}
    </div>
  );
}

/** The steps, or what is wrong with them in one line. */
function stepsRead(loads: string, hold: number): readonly DeckStep[] | string {
  try {
    return stepsTyped(loads, hold);
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}
