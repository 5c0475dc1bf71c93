import type { ReactNode } from "react";
import styles from "./place.module.css";

/** Wide tables scroll by themselves, by keys too. */
export function Scroll({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keys
    <section className={styles.scroll} tabIndex={0} aria-label={name}>
      {children}
    </section>
  );
}
