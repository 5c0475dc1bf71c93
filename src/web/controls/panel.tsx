import { type ReactNode, useId } from "react";
import { useOpen } from "../state/preferences.ts";
import styles from "./panel.module.css";
import { usePhone } from "./use-media.ts";

interface Props {
  readonly title: string;
  readonly beside?: ReactNode;
  readonly children: ReactNode;
  readonly className?: string | undefined;
}

/** A part of a place with a heading; what belongs beside the heading (a button) goes in `beside`. */
export function Panel({ title, beside, children, className }: Props) {
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

/**
 * A panel that folds to its heading, so that a long place stays in view: on a phone at first, unless `open` says
 * otherwise; then as it was left by hand. What is folded is not drawn and asks nothing.
 */
export function FoldingPanel({
  name,
  open: openAtFirst,
  ...panel
}: Props & { readonly name: string; readonly open?: boolean }) {
  const id = useId();
  const phone = usePhone();
  const [open, setOpen] = useOpen(name, openAtFirst ?? !phone);
  const { title, beside, children, className } = panel;
  return (
    <section className={`${styles.panel} ${className ?? ""}`} aria-labelledby={id}>
      <div className={styles.head}>
        <h2 id={id}>
          <button type="button" className={styles.fold} aria-expanded={open} onClick={() => setOpen(!open)}>
            {title}
          </button>
        </h2>
        {open && beside}
      </div>
      {open && children}
    </section>
  );
}
