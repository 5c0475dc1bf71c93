import type { ReactNode } from "react";
import styles from "./hint.module.css";

/** One line that tells what can be done here, shown until it was done once (useHint). */
export function Hint({ children }: { readonly children: ReactNode }) {
  return <p className={styles.hint}>{children}</p>;
}
