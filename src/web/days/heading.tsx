import type { ReactNode } from "react";
import styles from "./place.module.css";
import { type At, go } from "./state.ts";

/** The head of a page of the book: the way back, what it is, what can be done. */
export function Heading({
  back,
  title,
  line,
  children,
}: {
  readonly back?: { readonly at: At; readonly label: string };
  readonly title: string;
  readonly line?: string;
  readonly children?: ReactNode;
}) {
  return (
    <header className={styles.head}>
      <div className={styles.headText}>
        {back !== undefined && (
          <button type="button" className={styles.back} onClick={() => go(back.at)}>
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <path d="M15 5l-7 7 7 7" />
            </svg>
            {back.label}
          </button>
        )}
        <h1 id="days-heading" tabIndex={-1}>
          {title}
        </h1>
        {line !== undefined && line !== "" && <p className={styles.quiet}>{line}</p>}
      </div>
      {children !== undefined && <div className={styles.actions}>{children}</div>}
    </header>
  );
}
