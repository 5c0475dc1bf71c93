import type { RefObject } from "react";
import styles from "./file-pick.module.css";

/** What the browser asks a file by: out of sight, opened by a button of the place. The same file can be picked twice. */
export function FilePick({
  pick,
  label,
  accept = ".yaml,.yml,.json",
  onPick,
}: {
  readonly pick: RefObject<HTMLInputElement | null>;
  readonly label: string;
  /** Endings or kinds of file; null for any. */
  readonly accept?: string | null;
  readonly onPick: (file: File) => void;
}) {
  return (
    <input
      ref={pick}
      type="file"
      className={styles.pick}
      tabIndex={-1}
      aria-label={label}
      {...(accept === null ? {} : { accept })}
      onChange={(event) => {
        const file = event.target.files?.[0];
        event.target.value = "";
        if (file !== undefined) onPick(file);
      }}
    />
  );
}
