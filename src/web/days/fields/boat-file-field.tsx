import { useRef } from "react";
import { Button } from "../../controls/button.tsx";
import { FilePick } from "../../controls/file-pick.tsx";
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
      <FilePick pick={pick} label="A boat file" onPick={(file) => void file.text().then(onChange)} />
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
