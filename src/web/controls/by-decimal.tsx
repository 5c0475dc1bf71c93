import type { ReactNode } from "react";
import { atDecimal, roomBefore, roomBehind } from "./at-decimal.ts";
import styles from "./by-decimal.module.css";

/**
 * Writes the texts of a column under one another by their decimal sign, a ± and a unit behind it too. Figures are as wide as
 * one another (theme/base.css), so that so many of them are so many `ch`.
 * @param texts of the whole column; what begins with no number stands as it is
 * @param side where the column's texts meet: at the end what stands behind the decimal sign is of one width as well
 */
export function byDecimal(
  texts: readonly (string | null | undefined)[],
  side: "start" | "end" = "start",
): (text: string) => ReactNode {
  const widest = roomBefore(texts);
  const behind = side === "end" ? { minWidth: `${roomBehind(texts)}ch` } : undefined;
  return (text) => {
    const parts = atDecimal(text);
    if (parts === null) return text;
    return (
      <span className={styles.number}>
        <span className={styles.before} style={{ minWidth: `${widest}ch` }}>
          {parts[0]}
        </span>
        <span className={styles.behind} style={behind}>
          {parts[1]}
        </span>
      </span>
    );
  };
}
