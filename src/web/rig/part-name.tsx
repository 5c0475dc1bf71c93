import { memo } from "react";
import type { Part } from "../../rode/index.ts";
import { partRows } from "./part-rows.gen.ts";
import styles from "./parts-list.module.css";
import { partNamed } from "./state.ts";

const weightOf = (part: Part): number => (part.kind === "line" ? part.massPerLength : part.mass);

/** The catalogue's gear of a part's own sort, the lightest first. */
const sameSort = (part: Part): readonly Part[] =>
  partRows
    .filter(
      (row) =>
        row.kind === part.kind && (row.kind === "point" || part.kind === "point" || row.material === part.material),
    )
    .sort((one, other) => weightOf(one) - weightOf(other));

/** A part's name; touched, another of its sort is taken in its place, as long as it was. */
export const PartName = memo(function PartName({
  part,
  called,
  onChange,
}: {
  readonly part: Part;
  readonly called: string;
  readonly onChange: (next: Part) => void;
}) {
  const rows = sameSort(part);
  if (rows.length === 0) return <span className={styles.name}>{part.name}</span>;
  return (
    <span className={styles.pick}>
      <span className={styles.name} aria-hidden="true">
        {part.name}
      </span>
      <select
        aria-label={`Size of ${called}`}
        value={part.name}
        onChange={(event) => {
          const next = partNamed(event.target.value, part.kind === "line" ? part.length : 0);
          if (next !== undefined) onChange(next);
        }}
      >
        {!rows.some(({ name }) => name === part.name) && <option value={part.name}>{part.name}</option>}
        {rows.map(({ name }) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </select>
    </span>
  );
});
