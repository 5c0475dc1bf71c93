import type { ReactNode } from "react";
import styles from "./ways.module.css";

/** Links to other places that carry along what is at hand here. */
export function Ways({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <nav className={styles.ways} aria-label={label}>
      {children}
    </nav>
  );
}
