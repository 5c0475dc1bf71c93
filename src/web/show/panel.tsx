import { type ReactNode, useId } from "react";
import styles from "./panel.module.css";

/** A part of a place with a heading; what belongs beside the heading (a button) goes in `beside`. */
export function Panel({
  title,
  beside,
  children,
  className,
}: {
  readonly title: string;
  readonly beside?: ReactNode;
  readonly children: ReactNode;
  readonly className?: string | undefined;
}) {
  const id = useId();
  return (
    <section className={`${styles.panel} ${className ?? ""}`} aria-labelledby={id}>
      <div className={styles.head}>
        <h2 id={id}>{title}</h2>
        {beside}
      </div>
      {children}
    </section>
  );
}
