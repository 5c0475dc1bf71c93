import { useMemo } from "react";
import { driftOf } from "../../../study/index.ts";
import { driftLine } from "../../../words/index.ts";
import { useUnits } from "../../state/preferences.ts";
import styles from "../place.module.css";
import { fixesOf, type LiveReading } from "./reading.ts";

/** How far the boat has come since the pull began, by the positions that are followed. */
export function Drift({
  rows,
  direction,
}: {
  readonly rows: readonly LiveReading[];
  readonly direction: number | null;
}) {
  const { system } = useUnits();
  const fixes = useMemo(() => fixesOf(rows), [rows]);
  const drift = useMemo(() => driftOf(fixes, direction), [fixes, direction]);
  if (fixes.length === 0) return null;
  return (
    <p className={styles.drift} data-drift>
      {driftLine(drift, system)}
    </p>
  );
}
