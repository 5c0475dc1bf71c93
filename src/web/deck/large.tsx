import type { UnitSystem } from "../../quantity/index.ts";
import { formatQuantity, significant } from "../controls/numbers.ts";
import styles from "./place.module.css";

/** At most four digits, so that they can be large: from 10 kN on in kN. */
export function largeText({ value, u }: { value: number; u: number }, system: UnitSystem, unit: string): string {
  if (unit !== "N" || value < 9950)
    return formatQuantity(value, "force", { system, unit, ...(u > 0 ? { u } : { digits: 3 }) });
  return `${(value / 1000).toFixed(1)} ± ${significant(Math.max(u, 50) / 1000, 1)} kN`;
}

/** The load as large as the screen lets it be: a touch shows the other end. */
export function Large({
  where,
  text,
  onTouch,
}: {
  readonly where: string;
  readonly text: string;
  readonly onTouch: () => void;
}) {
  const [, value = text, spread, unit = ""] = /^(\S+?)(?: ± (\S+))?( \S+)?$/.exec(text) ?? [];
  // A point is half as wide as a digit.
  const signs = value.replace(/\./, "").length + (value.includes(".") ? 0.5 : 0);
  return (
    <button type="button" className={styles.large} onClick={onTouch} aria-live="off">
      <span className={styles.where}>Load {where}</span>
      <span
        className={styles.number}
        style={{ fontSize: `min(8.6rem, ${92 / (0.7 * Math.max(2, signs))}vw)` }}
        data-number
      >
        {value}
      </span>
      <span className={styles.unit}>
        {unit}
        {spread === undefined ? "" : ` ± ${spread}`}
      </span>
    </button>
  );
}
