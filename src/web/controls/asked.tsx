import { type ReactNode, useState } from "react";
import styles from "./asked.module.css";
import type { Share } from "./shares.ts";

/** A number of the place in words. */
export interface AskedNumber {
  /** As it stands on the screen. */
  readonly name: string;
  /** What it is, and from what. */
  readonly means: string;
  /** What its ± holds and what it does not. */
  readonly sure?: string | undefined;
  /** What the ± comes of, in shares of its square; empty or absent: no picture. */
  readonly shares?: readonly Share[] | undefined;
}

/** What can be asked of the numbers above it; what answers is drawn, and works, only once it is asked. */
export function Asked({ children }: { readonly children: ReactNode }) {
  const [open, setOpen] = useState(false);
  return (
    <details className={styles.asked} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What these are, and how sure</summary>
      {open && children}
    </details>
  );
}

/** Numbers in words, each with the small picture of what its ± comes of where that is known. */
export function AskedNumbers({ intro, numbers }: { readonly intro: string; readonly numbers: readonly AskedNumber[] }) {
  return (
    <>
      <p>{intro}</p>
      <dl className={styles.each}>
        {numbers.map(({ name, means, sure, shares = [] }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <p>{means}</p>
              {sure !== undefined && <p className={styles.quiet}>{sure}</p>}
              {shares.length > 0 && <Shares of={shares} />}
            </dd>
          </div>
        ))}
      </dl>
    </>
  );
}

/** Bars of shares, largest first; those that round to nothing make none. */
function Shares({ of }: { readonly of: readonly Share[] }) {
  const told = of.filter(({ share }) => share >= 0.005).sort((a, b) => b.share - a.share);
  return (
    <ul className={styles.bars}>
      {told.map(({ name, share }) => (
        <li key={name}>
          <span>{name}</span>
          <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
            <rect className={styles.whole} width="100" height="8" />
            <rect className={styles.share} width={100 * share} height="8" />
          </svg>
          <span>{Math.round(100 * share)} %</span>
        </li>
      ))}
    </ul>
  );
}
