import { useState } from "react";
import styles from "./bring-in.module.css";
import type { LogChoices } from "./log-choices.ts";

/** How the file is written, and what its times count from: for files that leave it open. */
export function WrittenOtherwise({
  told,
  onTold,
}: {
  readonly told: LogChoices;
  readonly onTold: (told: LogChoices) => void;
}) {
  return (
    <details className={styles.layout}>
      <summary>It is written otherwise</summary>
      <div className={styles.layoutFields}>
        <label>
          Columns parted by
          <select
            className={styles.select}
            value={told.delimiter ?? ""}
            onChange={(event) => onTold(without(told, "delimiter", event.target.value))}
          >
            <option value="">as found</option>
            <option value=",">comma</option>
            <option value=";">semicolon</option>
            <option value={"\t"}>tab</option>
            <option value="|">bar</option>
            <option value=" ">blanks</option>
          </select>
        </label>
        <label>
          Decimals by a
          <select
            className={styles.select}
            value={told.decimal ?? ""}
            onChange={(event) => onTold(without(told, "decimal", event.target.value))}
          >
            <option value="">as found</option>
            <option value=".">point</option>
            <option value=",">comma</option>
          </select>
        </label>
        <Typed
          label="Zone of its times"
          placeholder="+02:00"
          told={told.zone}
          onTell={(zone) => onTold(without(told, "zone", zone))}
        />
        <Typed
          label="Day or start of its times"
          placeholder="2031-05-17"
          told={told.start}
          onTell={(start) => onTold(without(told, "start", start))}
        />
      </div>
    </details>
  );
}

function Typed({
  label,
  placeholder,
  told,
  onTell,
}: {
  readonly label: string;
  readonly placeholder: string;
  readonly told: string | undefined;
  readonly onTell: (text: string) => void;
}) {
  const [typed, setTyped] = useState(told ?? "");
  const tell = () => {
    if (typed.trim() !== (told ?? "")) onTell(typed.trim());
  };
  return (
    <label>
      {label}
      <input
        className={styles.unit}
        placeholder={placeholder}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={tell}
        onKeyDown={(event) => {
          if (event.key === "Enter") tell();
        }}
      />
    </label>
  );
}

function without(told: LogChoices, field: "delimiter" | "decimal" | "zone" | "start", value: string): LogChoices {
  const { [field]: _, ...others } = told;
  return value === "" ? others : ({ ...others, [field]: value } as LogChoices);
}
