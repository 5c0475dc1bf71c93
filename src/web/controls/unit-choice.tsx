import { type Dimension, unitChoices } from "../../quantity/index.ts";
import { prefer, preferences, unitByCustom, useUnits } from "../state/preferences.ts";
import styles from "./unit-choice.module.css";

/** The unit of one field; choosing another shows the same value in it, here and wherever the field is shown. */
export function UnitChoice({
  field,
  dimension,
  label,
  usualUnit,
}: {
  readonly field: string;
  readonly dimension: Dimension;
  readonly label: string;
  readonly usualUnit?: string;
}) {
  const { system, unitOf } = useUnits();
  const unit = unitOf(field, dimension, usualUnit);
  const usual = unitByCustom(field, dimension, system, usualUnit);
  const choices = [...new Set([usual, ...unitChoices(dimension), unit])];
  if (choices.length < 2) return null;
  return (
    <select
      className={styles.unit}
      aria-label={`Unit of ${label}`}
      value={unit}
      onChange={(event) => {
        const { units } = preferences.get();
        const { [field]: _, ...others } = units;
        const chosen = event.target.value;
        prefer({ units: chosen === usual ? others : { ...others, [field]: chosen } });
      }}
    >
      {choices.map((choice) => (
        <option key={choice} value={choice}>
          {choice === "" ? "1" : choice}
        </option>
      ))}
    </select>
  );
}
