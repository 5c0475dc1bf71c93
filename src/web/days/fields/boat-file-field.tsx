import { useRef } from "react";
import { Button } from "../../show/button.tsx";
import styles from "../place.module.css";
import type { FieldProps } from "./framed.tsx";

/** A boat file, kept as it is written. */
export function BoatFileField({ field, value, wrong, onChange }: FieldProps) {
  const pick = useRef<HTMLInputElement>(null);
  return (
    <div className={`${styles.field} ${styles.wide}`}>
      <span className={styles.label}>{field.label}</span>
      <div className={styles.actions}>
        <Button onClick={() => pick.current?.click()}>
          {typeof value === "string" ? "Another file" : "From a boat file"}
        </Button>
        {typeof value === "string" && <Button onClick={() => onChange(null)}>Without it</Button>}
      </div>
      {typeof value === "string" && (
        <textarea className={styles.code} readOnly rows={10} aria-label={field.label} value={value} />
      )}
      <input
        ref={pick}
        type="file"
        className={styles.pick}
        tabIndex={-1}
        aria-label="A boat file"
        accept=".yaml,.yml,.json"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file !== undefined) void file.text().then(onChange);
        }}
      />
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
