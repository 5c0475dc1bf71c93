import { type ReactNode, useId, useRef, useState } from "react";
import { inUnit, significant } from "../../quantity/index.ts";
import { quantityTyped } from "../show/quantity-field.tsx";
import { UnitChoice } from "../show/unit-choice.tsx";
import { useUnits } from "../state/preferences.ts";
import styles from "./entry-table.module.css";
import { type Column, readPasted } from "./pasted.ts";

/** A column of the table; `field` is the name under which its unit is chosen. */
export interface EntryColumn extends Omit<Column, "unit"> {
  readonly field: string;
}

/** What theory says of a row, beside it. */
export interface RowVerdict {
  readonly theory: string;
  readonly residual: string;
  readonly outlier: boolean;
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

/**
 * A table that grows as it is filled: there is always one empty row at its foot. Enter and the arrows go from row to row; a
 * table from elsewhere is pasted into any cell.
 */
export function EntryTable(props: Props) {
  const { columns, rows, verdicts } = props;
  const { unitOf } = useUnits();
  const units = columns.map((column) => unitOf(column.field, column.dimension));
  const body = useRef<HTMLTableSectionElement>(null);
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const id = useId();
  const all = [...rows, [null, null] as const];

  const goTo = (row: number, column: number): void => {
    const cell = body.current?.querySelector<HTMLInputElement>(`[data-cell="${row}-${column}"]`);
    cell?.focus();
    cell?.select();
  };
  const paste = (event: React.ClipboardEvent, row: number): void => {
    const text = event.clipboardData.getData("text/plain");
    if (!/[\n\t;]/.test(text.trim())) return;
    event.preventDefault();
    const read = readPasted(
      text,
      columns.map((column, i) => ({ name: column.name, dimension: column.dimension, unit: units[i]! })),
    );
    setWrong(read.wrong.slice(0, 5));
    if (read.rows.length > 0) props.onPaste(read.rows, read.words, row);
  };

  return (
    <div className={styles.wrap}>
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
            {props.besideHead !== undefined && <th scope="col">{props.besideHead}</th>}
            <th scope="col">theory</th>
            <th scope="col">
              <abbr title="read minus theory, in standard uncertainties">residual</abbr>
            </th>
            <th scope="col">
              <span className="unseen">remove</span>
            </th>
          </tr>
        </thead>
        <tbody ref={body}>
          {all.map((row, i) => {
            const verdict = verdicts[i] ?? null;
            const blank = i === rows.length;
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: rows have no name but their place
              <tr key={i} data-outlier={verdict?.outlier || undefined}>
                {([0, 1] as const).map((column) => (
                  <td key={column}>
                    <Cell
                      name={`${columns[column].name}, row ${i + 1}`}
                      address={`${i}-${column}`}
                      column={columns[column]}
                      unit={units[column]!}
                      value={row[column]}
                      onValue={(value) => props.onCell(i, column, value)}
                      onGo={(by) => goTo(i + by, column)}
                      onPaste={(event) => paste(event, i)}
                    />
                  </td>
                ))}
                {props.besideHead !== undefined && (
                  <td className={styles.beside}>{blank ? null : props.beside?.(i)}</td>
                )}
                <td className={styles.theory}>{verdict?.theory ?? ""}</td>
                <td className={styles.residual}>
                  {verdict === null ? (
                    ""
                  ) : verdict.outlier ? (
                    <strong>{verdict.residual} outlier</strong>
                  ) : (
                    verdict.residual
                  )}
                </td>
                <td className={styles.remove}>
                  {!blank && (
                    <button type="button" aria-label={`Remove row ${i + 1}`} onClick={() => props.onRemove(i)}>
                      ×
                    </button>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {wrong.length > 0 && (
        <ul className={styles.wrong} id={`${id}-wrong`} role="alert">
          {wrong.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </div>
  );
}

function Cell(props: {
  readonly name: string;
  readonly address: string;
  readonly column: EntryColumn;
  readonly unit: string;
  readonly value: number | null;
  readonly onValue: (value: number | null) => void;
  readonly onGo: (by: 1 | -1) => void;
  readonly onPaste: (event: React.ClipboardEvent) => void;
}) {
  const { column, unit, value } = props;
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const shown = value === null ? "" : significant(inUnit(value, unit, column.dimension), 4);
  const id = useId();
  return (
    <>
      <input
        type="text"
        inputMode="decimal"
        autoComplete="off"
        spellCheck={false}
        className={styles.cell}
        data-cell={props.address}
        aria-label={props.name}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : id}
        value={typed ?? shown}
        onPaste={props.onPaste}
        onChange={(event) => {
          const text = event.target.value;
          setTyped(text);
          if (text.trim() === "") {
            setWrong(null);
            props.onValue(null);
            return;
          }
          const answer = quantityTyped(text, unit, column.dimension, column.name, undefined);
          if (typeof answer === "string") setWrong(answer);
          else {
            setWrong(null);
            props.onValue(answer);
          }
        }}
        onBlur={() => {
          if (wrong === null) setTyped(null);
        }}
        onKeyDown={(event) => {
          if (event.key === "Enter" || event.key === "ArrowDown") {
            event.preventDefault();
            props.onGo(1);
          } else if (event.key === "ArrowUp") {
            event.preventDefault();
            props.onGo(-1);
          } else if (event.key === "Escape") {
            setTyped(null);
            setWrong(null);
          }
        }}
      />
      {wrong !== null && (
        <span className={styles.cellWrong} id={id} role="alert">
          {wrong}
        </span>
      )}
    </>
  );
}
