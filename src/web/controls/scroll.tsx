import type { ReactNode } from "react";
import styles from "./scroll.module.css";

/** Wide tables scroll by themselves, by keys too. */
export function Scroll({
  name,
  className,
  children,
}: {
  readonly name: string;
  readonly className?: string | undefined;
  readonly children: ReactNode;
}) {
  const look = className === undefined ? styles.scroll : `${styles.scroll} ${className}`;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keys
    <section className={look} tabIndex={0} aria-label={name}>
      {children}
    </section>
  );
}
