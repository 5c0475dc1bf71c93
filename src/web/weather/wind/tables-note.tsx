import { memo } from "react";
import { type DesignLoadTable, disagreements } from "../../../sea/index.ts";
import styles from "../place.module.css";
import { TableSign } from "./table-sign.tsx";

/** The published tables beside the curves: what each holds and where it comes from. */
export const TablesNote = memo(function TablesNote({
  tables,
  boat,
}: {
  readonly tables: readonly DesignLoadTable[];
  readonly boat: string;
}) {
  if (tables.length === 0) return null;
  const apart = disagreements(tables).length;
  return (
    <details className={styles.details}>
      <summary>
        Published design loads for a boat as long as {boat} ({tables.length}), shown beside, part of no answer
      </summary>
      <ul className={styles.sources}>
        {tables.map((table, i) => (
          <li key={table.name}>
            <svg viewBox="-7 -7 14 14" aria-hidden="true">
              <TableSign index={i} />
            </svg>
            <span>
              <strong>{table.name}</strong>: {table.holds}. {table.source} ({table.standing})
            </span>
          </li>
        ))}
      </ul>
      <p className={styles.quiet}>
        They hold yaw, surge and a margin, so they lie above a steady drag.
        {apart > 0 && " They do not agree with each other either."} An arrow at the top edge is a load beyond the axis.
      </p>
    </details>
  );
});
