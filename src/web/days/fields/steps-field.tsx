import { useState } from "react";
import { bounds } from "../../../record/index.ts";
import { Button } from "../../controls/button.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import styles from "../place.module.css";
import type { FieldProps } from "./framed.tsx";

interface Step {
  readonly load_N: number;
  readonly duration_s?: number;
  readonly paidOut_m?: number;
  readonly movement_m?: number;
  readonly remarks?: string;
}

/** The loads of a pull in their order, each with how long it was held, and what was then out where the rode was veered. */
export function StepsField({ field, value, wrong, onChange }: FieldProps) {
  const steps = Array.isArray(value) ? (value as readonly Step[]) : [];
  /** The row at the foot that has no load yet: a step once it has. Nothing stands in it that nobody typed. */
  const [blank, setBlank] = useState<Omit<Step, "load_N"> | null>(null);
  const rows: readonly (Omit<Step, "load_N"> & { readonly load_N: number | null })[] =
    blank === null ? steps : [...steps, { ...blank, load_N: null }];
  const put = (next: readonly Step[]) => onChange(next.length === 0 ? null : next);
  const change = (i: number, { load_N, ...rest }: (typeof rows)[number]) => {
    if (load_N === null) return setBlank(rest);
    if (i === steps.length) setBlank(null);
    put([...steps.slice(0, i), { load_N, ...rest }, ...steps.slice(i + 1)]);
  };
  const remove = (i: number) => (i === steps.length ? setBlank(null) : put(steps.filter((_, k) => k !== i)));
  return (
    <fieldset className={`${styles.field} ${styles.wide}`}>
      <legend className={styles.fieldHint}>
        {field.label}: the loads in their order, how long each was held, and what was then out where the rode was veered
      </legend>
      <div className={styles.stepRows}>
        {rows.map((step, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: steps have no name but their place
          <div className={styles.stepRow} key={i}>
            <QuantityField
              field="load"
              label={`Step ${i + 1}`}
              dimension="force"
              value={step.load_N}
              placeholder="load"
              range={{ least: 0, expected: "a load of 0 or more is expected" }}
              onChange={(load_N) => change(i, { ...step, load_N })}
            />
            <QuantityField
              field="held"
              label={`held for, step ${i + 1}`}
              dimension="time"
              value={step.duration_s ?? null}
              placeholder="not timed"
              range={{ least: 0, expected: "a time of 0 or more is expected" }}
              onChange={(duration_s) => change(i, { ...step, duration_s })}
              onEmpty={() => {
                const { duration_s: _, ...rest } = step;
                change(i, rest);
              }}
            />
            <QuantityField
              field="paid out"
              label={`paid out, step ${i + 1}`}
              dimension="length"
              value={step.paidOut_m ?? null}
              placeholder="as before"
              range={{ ...bounds.pull.paidOut_m, expected: "a length above zero is expected" }}
              onChange={(paidOut_m) => change(i, { ...step, paidOut_m })}
              onEmpty={() => {
                const { paidOut_m: _, ...rest } = step;
                change(i, rest);
              }}
            />
            <Button aria-label={`Remove step ${i + 1}`} onClick={() => remove(i)}>
              ×
            </Button>
          </div>
        ))}
      </div>
      <div className={styles.actions}>
        <Button disabled={blank !== null} onClick={() => setBlank({})}>
          {steps.length === 0 ? "Add steps" : "Another step"}
        </Button>
      </div>
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </fieldset>
  );
}
