import { type ReactNode, useEffect, useId, useRef, useState } from "react";
import { inUnit, significant } from "../../quantity/index.ts";
import { quantityTyped } from "../controls/quantity-typed.ts";
import styles from "./entry-table.module.css";
import type { Column } from "./pasted.ts";

/** What theory says of a row, beside it. */
export interface RowVerdict {
  readonly theory: string;
  /** In standard uncertainties, with its sign. */
  readonly residual: string;
  /** "outlier": what is wrong with the row, told beside it. */
  readonly flag: string | null;
}

interface Props {
  readonly at: number;
  /** The columns in the units now shown. */
  readonly columns: readonly [Column, Column];
  readonly row: readonly [number | null, number | null];
  /** The empty row at the foot: nothing to remove yet. */
  readonly blank: boolean;
  readonly beside: ReactNode | undefined;
  readonly verdict: RowVerdict | null;
  /** How the numbers of the verdicts are written under one another. */
  readonly aligned: { readonly theory: (text: string) => ReactNode; readonly residual: (text: string) => ReactNode };
  readonly onCell: (column: 0 | 1, value: number | null) => void;
  readonly onGo: (row: number, column: 0 | 1) => void;
  readonly onPaste: (event: React.ClipboardEvent) => void;
  readonly onRemove: () => void;
}

/** A row being entered. What was typed wrong stands as typed, with one line below the row that says why. */
export function EntryRow(props: Props) {
  const { at, columns, verdict } = props;
  const id = useId();
  const [wrong, setWrong] = useState<readonly [string | null, string | null]>([null, null]);
  const told = wrong.filter((line) => line !== null);
  return (
    <>
      <tr data-flagged={(verdict !== null && verdict.flag !== null) || undefined}>
        {([0, 1] as const).map((column) => (
          <td key={column}>
            <Cell
              name={`${columns[column].name}, row ${at + 1}`}
              address={`${at}-${column}`}
              column={columns[column]}
              value={props.row[column]}
              wrong={wrong[column] !== null}
              toldBy={`${id}-wrong`}
              onWrong={(line) => setWrong((before) => (column === 0 ? [line, before[1]] : [before[0], line]))}
              onValue={(value) => props.onCell(column, value)}
              onGo={(by) => props.onGo(at + by, column)}
              onNext={() => (column === 0 ? props.onGo(at, 1) : props.onGo(at + 1, 0))}
              onPaste={props.onPaste}
            />
          </td>
        ))}
        {props.beside !== undefined && <td className={styles.beside}>{props.beside}</td>}
        <td>
          {verdict !== null && (
            <span className={styles.verdict}>
              <span className={styles.theory}>{props.aligned.theory(verdict.theory)}</span>
              <span className={styles.residual}>
                {props.aligned.residual(verdict.residual)}
                {verdict.flag !== null && <strong> {verdict.flag}</strong>}
              </span>
            </span>
          )}
        </td>
        <td className={styles.remove}>
          {!props.blank && (
            <button type="button" aria-label={`Remove row ${at + 1}`} onClick={props.onRemove}>
              ×
            </button>
          )}
        </td>
      </tr>
      {told.length > 0 && (
        <tr>
          <td colSpan={props.beside === undefined ? 4 : 5} className={styles.cellWrong}>
            <p id={`${id}-wrong`} role="alert">
              {told.join("; ")}
            </p>
          </td>
        </tr>
      )}
    </>
  );
}

function Cell(props: {
  readonly name: string;
  readonly address: string;
  readonly column: Column;
  readonly value: number | null;
  readonly wrong: boolean;
  readonly toldBy: string;
  readonly onWrong: (line: string | null) => void;
  readonly onValue: (value: number | null) => void;
  readonly onGo: (by: 1 | -1) => void;
  /** On to what is typed next: the angle beside its load, the load of the row below. */
  readonly onNext: () => void;
  readonly onPaste: (event: React.ClipboardEvent) => void;
}) {
  const { column, value, wrong, onWrong } = props;
  const [typed, setTyped] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const shown = value === null ? "" : significant(inUnit(value, column.unit, column.dimension), 4);

  // Another value, by undo or a pasted table, is what the cell shows; what was typed wrong stands until mended.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only a new value or unit ends the typing
  useEffect(() => {
    if (document.activeElement !== input.current) {
      setTyped(null);
      if (wrong) onWrong(null);
    }
  }, [value, column.unit]);

  const read = (text: string): void => {
    setTyped(text);
    if (text.trim() === "") {
      onWrong(null);
      props.onValue(null);
      return;
    }
    const answer = quantityTyped(text, column.unit, column.dimension, column.name, column.range);
    if (typeof answer === "string") onWrong(answer);
    else {
      onWrong(null);
      props.onValue(answer);
    }
  };

  return (
    <input
      ref={input}
      type="text"
      inputMode="text"
      autoComplete="off"
      autoCapitalize="none"
      spellCheck={false}
      className={styles.cell}
      data-cell={props.address}
      aria-label={props.name}
      aria-invalid={wrong}
      aria-describedby={wrong ? props.toldBy : undefined}
      value={typed ?? shown}
      onPaste={props.onPaste}
      onChange={(event) => read(event.target.value)}
      onBlur={() => {
        if (!wrong) setTyped(null);
      }}
      onKeyDown={(event) => {
        if (event.key === "Enter") {
          event.preventDefault();
          props.onNext();
        } else if (event.key === "ArrowDown") {
          event.preventDefault();
          props.onGo(1);
        } else if (event.key === "ArrowUp") {
          event.preventDefault();
          props.onGo(-1);
        } else if (event.key === "Escape") {
          setTyped(null);
          onWrong(null);
        }
      }}
    />
  );
}
