import { type ReactNode, useMemo, useRef, useState } from "react";
import { byDecimal } from "../controls/by-decimal.tsx";
import { UnitChoice } from "../controls/unit-choice.tsx";
import { useUnits } from "../state/preferences.ts";
import { EntryRow, type RowVerdict } from "./entry-row.tsx";
import styles from "./entry-table.module.css";
import { type Column, guessReading, type Pasted, readPasted } from "./pasted.ts";
import { PastedPanel } from "./pasted-panel.tsx";

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
  /** A table was pasted into row `at`: its rows, and which of them say that the rode had come level. */
  readonly onPaste: (rows: Pasted["rows"], liftoff: readonly boolean[], at: number) => void;
  readonly onRemove: (row: number) => void;
}

/**
 * A table that grows as it is filled: there is always one empty row at its foot. Enter goes on to the next cell that is typed, the arrows from row to row; a
 * table from elsewhere is pasted into any cell.
 */
export function EntryTable(props: Props) {
  const { rows, verdicts } = props;
  const aligned = {
    theory: byDecimal(verdicts.map((one) => one?.theory)),
    residual: byDecimal(verdicts.map((one) => one?.residual)),
  };
  const { unitOf } = useUnits();
  const [first, second] = props.columns;
  const units = [unitOf(first.field, first.dimension), unitOf(second.field, second.dimension)] as const;
  const columns = useMemo(
    (): [EntryColumn & Column, EntryColumn & Column] => [
      { ...first, unit: units[0] },
      { ...second, unit: units[1] },
    ],
    [first, second, units[0], units[1]],
  );
  const body = useRef<HTMLTableSectionElement>(null);
  /** A pasted table that waits for an answer, and the row it goes to. */
  const [asked, setAsked] = useState<{ readonly text: string; readonly row: number } | null>(null);
  const takesWords = props.besideHead !== undefined;
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
    const { cells, reading, open } = guessReading(text, columns, takesWords);
    const pasted = readPasted(cells, reading, columns);
    const plain = open.length === 0 && pasted.wrong.length === 0 && pasted.unusedWords.length === 0;
    if (plain) take(pasted, row);
    else setAsked({ text, row });
  };
  const take = (pasted: Pasted, row: number): void => {
    setAsked(null);
    if (pasted.rows.length === 0) return;
    // What was typed in the rows that are written over goes with them.
    keys.renew(row, pasted.rows.length);
    props.onPaste(pasted.rows, pasted.liftoff, row);
  };

  return (
    <div className={styles.whole}>
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
              aligned={aligned}
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
      {asked !== null && (
        <PastedPanel
          key={asked.text}
          text={asked.text}
          columns={columns}
          takesWords={takesWords}
          onTake={(pasted) => {
            take(pasted, asked.row);
            goTo(asked.row, 0);
          }}
          onLeave={() => {
            setAsked(null);
            goTo(asked.row, 0);
          }}
        />
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
