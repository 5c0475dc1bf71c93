import { type ReactNode, useState } from "react";
import { Button } from "../controls/button.tsx";
import styles from "./place.module.css";

const KEYS = ["7", "8", "9", "⌫", "4", "5", "6", "1", "2", "3", ".", "0", "00"] as const;
const MOST_SIGNS = 7;

/** Big keys for what a display at the bow shows. A load leaves the keys once this device has it. */
export function Keys({
  unit,
  beside,
  onKeep,
}: {
  readonly unit: string;
  /** What stands beside what was typed: the touch that takes back. */
  readonly beside: ReactNode;
  readonly onKeep: (value: number) => Promise<boolean>;
}) {
  const [typed, setTyped] = useState("");
  const value = typed === "" || typed === "." ? null : Number(typed);
  const press = (key: (typeof KEYS)[number]) => {
    if (key === "⌫") setTyped(typed.slice(0, -1));
    else if (typed.length + key.length <= MOST_SIGNS && !(key === "." && typed.includes("."))) setTyped(typed + key);
  };
  const keep = async () => {
    if (value !== null && (await onKeep(value))) setTyped("");
  };
  return (
    <>
      <div className={styles.lastLine}>
        <output className={styles.typed}>
          {typed === "" ? "bow load," : typed} {unit}
        </output>
        {beside}
      </div>
      <section className={styles.keys} aria-label="Load read at the bow">
        {KEYS.map((key) => (
          <Button key={key} onClick={() => press(key)} aria-label={key === "⌫" ? "Delete" : key}>
            {key}
          </Button>
        ))}
        <Button look="strong" className={styles.keep} disabled={value === null} onClick={() => void keep()}>
          Keep
        </Button>
      </section>
    </>
  );
}
