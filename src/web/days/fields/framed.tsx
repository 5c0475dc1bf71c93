import { useId } from "react";
import type { FormField } from "../kinds.ts";
import styles from "../place.module.css";

export interface FieldProps<F extends FormField = FormField> {
  readonly field: F;
  readonly value: unknown;
  readonly wrong: string | null;
  readonly isNew: boolean;
  readonly onChange: (value: unknown) => void;
  readonly onWrong: (line: string) => void;
}

/** What the field of one sort is given. */
export type Of<A extends FormField["as"]> = FieldProps<Extract<FormField, { as: A }>>;

/** Label, input, hint, and what is wrong in one line. */
export function Framed({
  field,
  wrong,
  wide,
  children,
}: Pick<FieldProps, "field" | "wrong"> & {
  readonly wide?: boolean;
  readonly children: (ids: { id: string; described: string | undefined }) => React.ReactNode;
}) {
  const id = useId();
  const described = [wrong === null ? "" : `${id}-wrong`, field.hint === undefined ? "" : `${id}-hint`]
    .filter((part) => part !== "")
    .join(" ");
  return (
    <div className={`${styles.field} ${wide ? styles.wide : ""}`}>
      <label htmlFor={id}>
        {field.label}
        {field.required && <span aria-hidden="true"> (needed)</span>}
      </label>
      {children({ id, described: described === "" ? undefined : described })}
      {wrong !== null && (
        <p className={styles.fieldWrong} id={`${id}-wrong`} role="alert">
          {wrong}
        </p>
      )}
      {field.hint !== undefined && (
        <p className={styles.fieldHint} id={`${id}-hint`}>
          {field.hint}
        </p>
      )}
    </div>
  );
}
