import { memo, useCallback, useEffect, useId, useRef, useState } from "react";
import { type Dimension, formatQuantity, inUnit, significant } from "../../quantity/index.ts";
import { useUnits } from "../state/preferences.ts";
import { withMinus } from "./numbers.ts";
import styles from "./quantity-field.module.css";
import { quantityTyped, type Range } from "./quantity-typed.ts";
import { UnitChoice } from "./unit-choice.tsx";

export interface QuantityFieldProps {
  /** Name of the field: its unit can be chosen, and errors begin with it. */
  readonly field: string;
  readonly label: string;
  readonly dimension: Dimension;
  /** SI; null shows an empty field. */
  readonly value: number | null;
  /** Called with SI when the text is a quantity the field may have. */
  readonly onChange: (valueSI: number) => void;
  /** Called when the field is emptied; without it an empty field is an error. */
  readonly onEmpty?: () => void;
  /** Bounds in SI; `expected` words them: "a length above zero is expected". */
  readonly range?: Range;
  /** Significant digits shown; default 4. */
  readonly digits?: number;
  /** Shows the label to screen readers only, where what stands beside the field names it. */
  readonly labelUnseen?: boolean;
  readonly placeholder?: string;
  /** The unit when none was chosen, where the system's own is not what people say: "%" for a tolerance. */
  readonly usualUnit?: string;
  /** One short line below the field. */
  readonly hint?: string | undefined;
  /** No unit is offered: a plain number. */
  readonly plain?: boolean;
}

/**
 * A quantity typed as people write it: `9 1/2 in`, `105' 6"`, `400 lbf`; a bare number is of the unit that is shown.
 * What was typed stands as typed while the field is at work, with what is wrong in one line below.
 */
export function QuantityField(props: QuantityFieldProps) {
  const { onChange, onEmpty, range, ...rest } = props;
  const latest = useRef(props);
  latest.current = props;
  // Twenty fields stand still while a hand draws: only those whose value changed are drawn again.
  const read = useCallback((text: string, unit: string): string | null => {
    const { dimension, label, range: now, onEmpty: empty, onChange: change } = latest.current;
    if (text.trim() === "" && empty) {
      empty();
      return null;
    }
    const answer = quantityTyped(text, unit, dimension, label, now);
    if (typeof answer === "string") return answer;
    change(answer);
    return null;
  }, []);
  return <Field {...rest} read={read} />;
}

interface FieldProps extends Omit<QuantityFieldProps, "onChange" | "onEmpty" | "range"> {
  /** Takes what was typed; answers with what is wrong. */
  readonly read: (text: string, unit: string) => string | null;
}

const Field = memo(function Field(props: FieldProps) {
  const { field, label, dimension, value, hint, digits = 4 } = props;
  const id = useId();
  const { system, unitOf } = useUnits();
  const unit = unitOf(field, dimension, props.usualUnit);
  const shown = value === null ? "" : significant(inUnit(value, unit, dimension), digits);
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);

  // Another value, by a drag or by undo, is what the field shows; what was typed wrong stands until mended.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only a new value or unit ends the typing
  useEffect(() => {
    if (document.activeElement?.id !== id) {
      setTyped(null);
      setWrong(null);
    }
  }, [value, unit]);

  return (
    <div className={styles.field}>
      <label className={props.labelUnseen ? "unseen" : styles.label} htmlFor={id}>
        {label}
      </label>
      <div className={styles.box} data-wrong={wrong !== null || undefined}>
        <input
          id={id}
          className={styles.input}
          type="text"
          inputMode="text"
          autoComplete="off"
          autoCapitalize="none"
          spellCheck={false}
          placeholder={props.placeholder ?? ""}
          value={typed ?? shown}
          aria-invalid={wrong !== null}
          aria-describedby={wrong !== null ? `${id}-wrong` : hint === undefined ? undefined : `${id}-hint`}
          onChange={(event) => {
            setTyped(event.target.value);
            setWrong(props.read(event.target.value, unit));
          }}
          onBlur={() => {
            if (wrong === null) setTyped(null);
          }}
          onKeyDown={(event) => {
            if (event.key === "Escape") {
              setTyped(null);
              setWrong(null);
            } else if (event.key === "Enter" && wrong === null) setTyped(null);
          }}
        />
        {!props.plain && (
          <UnitChoice
            field={field}
            dimension={dimension}
            label={label}
            {...(props.usualUnit === undefined ? {} : { usualUnit: props.usualUnit })}
          />
        )}
      </div>
      {wrong !== null && (
        <p className={styles.wrong} id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
      {hint !== undefined && (
        <p className={styles.hint} id={`${id}-hint`}>
          {hint}
        </p>
      )}
      <span className="unseen">
        {value === null ? "" : withMinus(formatQuantity(value, dimension, { system, unit, digits }))}
      </span>
    </div>
  );
});
