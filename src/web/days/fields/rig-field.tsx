import { useRef, useState } from "react";
import { Button } from "../../controls/button.tsx";
import { FilePick } from "../../controls/file-pick.tsx";
import { formatQuantity } from "../../controls/numbers.ts";
import { rigStore } from "../../rig/store.ts";
import { useUnits } from "../../state/preferences.ts";
import { useStore } from "../../state/use-store.ts";
import styles from "../place.module.css";
import type { FieldProps } from "./framed.tsx";

/** The rig of the bench, kept whole with the pulls it is used for. */
export function RigField({ field, value, wrong, isNew, onChange, onWrong }: FieldProps) {
  const { rig } = useStore(rigStore);
  const { system } = useUnits();
  const pick = useRef<HTMLInputElement>(null);
  const [from, setFrom] = useState("");
  const take = async (): Promise<void> => {
    // Writing a rig file brings YAML: only when one is written.
    const { writeRigText } = await import("../../rig/files.ts");
    setFrom(`the bench's rig, ${rig.name}`);
    onChange(writeRigText(rig));
  };
  const read = async (file: File): Promise<void> => {
    const { readRigText } = await import("../../rig/files.ts");
    const text = await file.text();
    const answer = readRigText(text, file.name);
    if (answer.kind === "refused") onWrong(answer.line);
    else {
      setFrom(file.name);
      onChange(text);
    }
  };
  const parts = rig.rode
    .map((part) =>
      part.kind === "line" ? `${formatQuantity(part.length, "length", { system, digits: 3 })} ${part.name}` : part.name,
    )
    .join(", ");
  return (
    <div className={`${styles.field} ${styles.wide}`}>
      <span className={styles.label}>{isNew ? field.label : "A new version of its rode"}</span>
      <div className={styles.actions}>
        <Button onClick={() => void take()}>Take the rig from Rig</Button>
        <Button onClick={() => pick.current?.click()}>From a rig file</Button>
      </div>
      <p className={styles.fieldHint}>
        {typeof value === "string" ? `Taken from ${from}.` : `On the bench now: ${rig.name}: ${parts}`}
      </p>
      <FilePick pick={pick} label="A rig file" onPick={(file) => void read(file)} />
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
