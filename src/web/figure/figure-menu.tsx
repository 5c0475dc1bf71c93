import { lazy, type RefObject, Suspense, useEffect, useRef, useState } from "react";
import { announce } from "../controls/announce.ts";
import styles from "./figure-frame.module.css";
import type { FigureSource } from "./figure-source.ts";

const FigureChoices = lazy(() => import("./figure-choices.tsx"));

/** How a figure leaves the bench: as a drawing, a picture, a table, or the address that shows it again. */
export function FigureMenu({
  source,
  holds,
}: {
  readonly source: FigureSource;
  /** What holds the drawing. */
  readonly holds: RefObject<HTMLElement | null>;
}) {
  const { title } = source;
  const menu = useRef<HTMLDivElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const [open, setOpen] = useState(false);
  const [said, setSaid] = useState<string | null>(null);
  useEffect(() => {
    if (!open) return;
    const away = (event: Event): void => {
      if (menu.current?.contains(event.target as Node) !== true) setOpen(false);
    };
    document.addEventListener("pointerdown", away);
    return () => document.removeEventListener("pointerdown", away);
  }, [open]);
  const tell = (sentence: string): void => {
    setSaid(sentence);
    announce(sentence);
  };
  const close = (): void => {
    setOpen(false);
    opener.current?.focus();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape closes what stands open inside
    <div
      ref={menu}
      className={styles.menu}
      data-for-hand
      onKeyDown={(event) => {
        if (event.key !== "Escape" || !open) return;
        event.stopPropagation();
        close();
      }}
    >
      <button
        ref={opener}
        type="button"
        className={styles.opener}
        aria-expanded={open}
        aria-label={`Export: ${title}`}
        onClick={() => {
          setSaid(null);
          setOpen(!open);
        }}
      >
        Export
      </button>
      {open && (
        <Suspense>
          <FigureChoices {...source} holds={holds} onDone={close} onSaid={tell} />
        </Suspense>
      )}
      {said !== null && <p className={styles.said}>{said}</p>}
    </div>
  );
}
