import type { ReactNode } from "react";
import { atDecimal, roomBefore } from "./at-decimal.ts";
import styles from "./by-decimal.module.css";

/**
 * Writes the texts of a column under one another by their decimal sign, a ± and a unit behind it too. Figures are as wide as
 * one another (theme/base.css), so that so many of them are so many `ch`.
 * @param texts of the whole column; what begins with no number stands as it is
 */
export function byDecimal(texts: readonly (string | null | undefined)[]): (text: string) => ReactNode {
  const widest = roomBefore(texts);
  return (text) => {
    const parts = atDecimal(text);
    if (parts === null) return text;
    return (
      <span className={styles.number}>
        <span className={styles.before} style={{ minWidth: `${widest}ch` }}>
          {parts[0]}
        </span>
        {parts[1]}
      </span>
    );
  };
}
