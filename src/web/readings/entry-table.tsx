import { type ReactNode, useId, useRef, useState } from "react";
import { Button } from "../show/button.tsx";
import { UnitChoice } from "../show/unit-choice.tsx";
import { useUnits } from "../state/preferences.ts";
import { EntryRow, type RowVerdict } from "./entry-row.tsx";
import styles from "./entry-table.module.css";
import { type Column, readPasted } from "./pasted.ts";

/** A column of the table; `field` is the name under which its unit is chosen. */
export interface EntryColumn extends Omit<Column, "unit"> {
  readonly field: string;
}

interface Props {
  readonly caption: string;
  readonly columns: readonly [EntryColumn, EntryColumn];
  readonly rows: readonly (readonly [number | null, number | null])[];
  /** A sign beside a row: the lift-off switch. */
  readonly beside?: (row: number) => ReactNode;
  readonly besideHead?: string;
  readonly verdicts: readonly (RowVerdict | null)[];
  readonly onCell: (row: number, column: 0 | 1, value: number | null) => void;
  readonly onPaste: (rows: readonly (readonly (number | null)[])[], words: readonly string[], at: number) => void;
  readonly onRemove: (row: number) => void;
}

const MOST_TOLD = 5;

/**
 * A table that grows as it is filled: there is always one empty row at its foot. Enter and the arrows go from row to row; a
 * table from elsewhere is pasted into any cell.
 */
export function EntryTable(props: Props) {
  const { rows, verdicts } = props;
  const { unitOf } = useUnits();
  const columns = props.columns.map((column) => ({ ...column, unit: unitOf(column.field, column.dimension) })) as [
    EntryColumn & Column,
    EntryColumn & Column,
  ];
  const body = useRef<HTMLTableSectionElement>(null);
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const id = useId();
  const all = [...rows, [null, null] as const];
  const keys = useKeys(all.length);

  const goTo = (row: number, column: 0 | 1): void => {
    const cell = body.current?.querySelector<HTMLInputElement>(`[data-cell="${row}-${column}"]`);
    cell?.focus();
    cell?.select();
  };
  const paste = (event: React.ClipboardEvent, row: number): void => {
    const text = event.clipboardData.getData("text/plain");
    if (!/[\n\t;]/.test(text.trim())) return;
    event.preventDefault();
    const read = readPasted(text, columns);
    const more = read.wrong.length - MOST_TOLD;
    setWrong(more > 0 ? [...read.wrong.slice(0, MOST_TOLD), `and ${more} more`] : read.wrong);
    if (read.rows.length === 0) return;
    // What was typed in the rows that are written over goes with them.
    keys.renew(row, read.rows.length);
    props.onPaste(read.rows, read.words, row);
  };

  return (
    <div>
      <table className={styles.table}>
        <caption className={styles.caption}>{props.caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column.name} scope="col">
                <span className={styles.head}>
                  {column.name}
                  <UnitChoice field={column.field} dimension={column.dimension} label={column.name} />
                </span>
              </th>
            ))}
            {props.besideHead !== undefined && (
              <th scope="col" className={styles.beside}>
                {props.besideHead}
              </th>
            )}
            <th scope="col">
              <span className={styles.verdict}>
                <span>theory</span> <span>residual</span>
              </span>
            </th>
            <th scope="col">
              <span className="unseen">remove</span>
            </th>
          </tr>
        </thead>
        <tbody ref={body}>
          {all.map((row, i) => (
            <EntryRow
              key={keys.of(i)}
              at={i}
              columns={columns}
              row={row}
              blank={i === rows.length}
              beside={props.besideHead === undefined ? undefined : i === rows.length ? null : props.beside?.(i)}
              verdict={verdicts[i] ?? null}
              onCell={(column, value) => props.onCell(i, column, value)}
              onGo={goTo}
              onPaste={(event) => paste(event, i)}
              onRemove={() => {
                keys.remove(i);
                props.onRemove(i);
              }}
            />
          ))}
        </tbody>
      </table>
      {wrong.length > 0 && (
        <div className={styles.wrong}>
          <ul id={`${id}-wrong`} role="alert">
            {wrong.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <Button onClick={() => setWrong([])}>Understood</Button>
        </div>
      )}
    </div>
  );
}

/** Names of the rows, so that what is being typed in one goes with it when rows above it come or go. */
function useKeys(length: number) {
  const kept = useRef<number[]>([]);
  const next = useRef(0);
  const keys = kept.current;
  while (keys.length < length) keys.push(next.current++);
  keys.length = length;
  return {
    of: (row: number) => keys[row]!,
    remove: (row: number) => void keys.splice(row, 1),
    renew: (row: number, count: number) => {
      for (let i = row; i < Math.min(keys.length, row + count); i++) keys[i] = next.current++;
    },
  };
}
