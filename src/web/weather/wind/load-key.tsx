import type { ReactNode } from "react";
import type { Boat } from "../../../sea/index.ts";
import styles from "./chart.module.css";
import type { LoadCurves } from "./load-curves.ts";

/** What each sign of the chart of loads is. */
export function LoadKey({ curves, boat }: { readonly curves: LoadCurves; readonly boat: Boat }) {
  const { curve, gust } = curves;
  const peaks = curve.rows[0]!.measured.some(({ peak }) => peak !== undefined);
  const entries: { name: string; sign: ReactNode }[] = [];
  if (curve.points.length > 0) {
    entries.push({
      name: "own points and their law, 95 % and the next reading",
      sign: (
        <>
          <rect className={styles.ownBand} width="28" height="14" />
          <path className={styles.own} d="M0 9L28 4" />
          <path className={styles.point} d="M14 2l5 5-5 5-5-5Z" />
        </>
      ),
    });
  }
  if (peaks) {
    entries.push({
      name: "brief peaks",
      sign: (
        <>
          <path className={styles.ownPeak} d="M0 7H28" />
          <path className={styles.point} d="M14 2l5 9H9Z" />
        </>
      ),
    });
  }
  if (boat.windage !== undefined) {
    entries.push({
      name: "by windage, 95 %",
      sign: (
        <>
          <rect className={styles.windageBand} width="28" height="14" />
          <path className={styles.windage} d="M0 9L28 4" />
        </>
      ),
    });
  }
  if (gust !== null) entries.push({ name: "in the gust", sign: <path className={styles.windageGust} d="M0 7H28" /> });
  return (
    <ul className={styles.key} aria-label="Signs">
      {entries.map(({ name, sign }) => (
        <li key={name}>
          <svg viewBox="0 0 28 14" aria-hidden="true">
            {sign}
          </svg>
          {name}
        </li>
      ))}
    </ul>
  );
}
