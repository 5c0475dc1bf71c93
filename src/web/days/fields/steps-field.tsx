import { Button } from "../../show/button.tsx";
import { QuantityField } from "../../show/quantity-field.tsx";
import styles from "../place.module.css";
import type { FieldProps } from "./framed.tsx";

interface Step {
  readonly load_N: number;
  readonly duration_s?: number;
  readonly movement_m?: number;
  readonly remarks?: string;
}

/** The loads of a pull in their order, each with how long it was held. */
export function StepsField({ field, value, wrong, onChange }: FieldProps) {
  const steps = Array.isArray(value) ? (value as readonly Step[]) : [];
  const put = (next: readonly Step[]) => onChange(next.length === 0 ? null : next);
  const change = (i: number, step: Step) => put(steps.map((one, k) => (k === i ? step : one)));
  const add = () => {
    const [before, last] = [steps.at(-2), steps.at(-1)];
    // Protocols go up evenly: the next step is guessed, and typed over where it is not so.
    const rise = last === undefined ? 0 : last.load_N - (before?.load_N ?? 0);
    put([
      ...steps,
      { load_N: last === undefined ? 1000 : last.load_N + Math.max(0, rise), duration_s: last?.duration_s ?? 30 },
    ]);
  };
  return (
    <fieldset className={`${styles.field} ${styles.wide}`}>
      <legend className={styles.fieldHint}>{field.label}: the loads in their order, and how long each was held</legend>
      <div className={styles.stepRows}>
        {steps.map((step, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: steps have no name but their place
          <div className={styles.stepRow} key={i}>
            <QuantityField
              field="load"
              label={`Step ${i + 1}`}
              dimension="force"
              value={step.load_N}
              range={{ least: 0, expected: "a load of 0 or more is expected" }}
              onChange={(load_N) => change(i, { ...step, load_N })}
            />
            <QuantityField
              field="held"
              label={`held for, step ${i + 1}`}
              dimension="time"
              value={step.duration_s ?? null}
              range={{ least: 0, expected: "a time of 0 or more is expected" }}
              onChange={(duration_s) => change(i, { ...step, duration_s })}
              onEmpty={() => {
                const { duration_s: _, ...rest } = step;
                change(i, rest);
              }}
            />
            <Button aria-label={`Remove step ${i + 1}`} onClick={() => put(steps.filter((_, k) => k !== i))}>
              ×
            </Button>
          </div>
        ))}
      </div>
      <div className={styles.actions}>
        <Button onClick={add}>{steps.length === 0 ? "Add steps" : "Another step"}</Button>
      </div>
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </fieldset>
  );
}
