import { useEffect, useId, useMemo, useRef, useState } from "react";
import { unitChoices } from "../../quantity/index.ts";
import { Button } from "../controls/button.tsx";
import { Choice } from "../controls/choice.tsx";
import { type Column, guessReading, type Pasted, type Reading, readPasted, type Use } from "./pasted.ts";
import styles from "./pasted-panel.module.css";

interface Props {
  readonly text: string;
  readonly columns: readonly Column[];
  /** Words beside a row may say that the rode had come level. */
  readonly takesWords: boolean;
  readonly onTake: (pasted: Pasted) => void;
  readonly onLeave: () => void;
}

const SHOWN_ROWS = 5;
const MOST_TOLD = 5;

/** A pasted table that is not plain: its columns shown, what each is asked, and nothing taken before the answer. */
export function PastedPanel({ text, columns, takesWords, onTake, onLeave }: Props) {
  const id = useId();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const guess = useMemo(() => guessReading(text, columns, takesWords), [text, columns, takesWords]);
  const [reading, setReading] = useState<Reading>(guess.reading);
  const { cells, open } = guess;
  const pasted = useMemo(() => readPasted(cells, reading, columns), [cells, reading, columns]);
  const { rows, wrong, unusedWords } = pasted;
  const takeAs = (i: number, next: Use): void => {
    // A column of the table has one source: the one before gives way.
    const uses = reading.uses.map((before, j) =>
      j === i ? next : typeof next === "number" && before === next ? "none" : before,
    );
    const unit = typeof next === "number" ? columns[next]!.unit : "";
    const asTitled = guess.reading.uses[i] === next ? guess.reading.units[i]! : unit;
    setReading({ ...reading, uses, units: reading.units.map((before, j) => (j === i ? asTitled : before)) });
  };
  const counted = (n: number): string => `${n} ${n === 1 ? "row" : "rows"}`;
  const missing = columns.filter((_, n) => !reading.uses.includes(n));
  const notes = [
    ...(reading === guess.reading ? open : []),
    ...missing.map((column) => `no column is the ${column.name}: it is left empty`),
    ...(unusedWords.length > 0 ? [`words that are not kept: ${some(unusedWords).join(", ")}`] : []),
  ];
  return (
    <section className={styles.panel} aria-labelledby={id}>
      <h3 id={id} ref={heading} tabIndex={-1}>
        A pasted table: what is what?
      </h3>
      <div className={styles.scroll}>
        <table>
          <thead>
            <tr>
              {reading.uses.map((now, i) => {
                const name = cells.titles?.[i] || `column ${i + 1}`;
                const column = typeof now === "number" ? columns[now]! : null;
                return (
                  // biome-ignore lint/suspicious/noArrayIndexKey: columns of a table from elsewhere have no other name
                  <th key={i} scope="col">
                    {name}
                    <select
                      aria-label={`${name} is`}
                      value={String(now)}
                      onChange={(event) => takeAs(i, chosenUse(event.target.value))}
                    >
                      {columns.map((one, n) => (
                        <option key={one.name} value={n}>
                          {one.name}
                        </option>
                      ))}
                      {takesWords && <option value="words">lift-off, in words</option>}
                      <option value="none">not used</option>
                    </select>
                    {column !== null && (
                      <select
                        aria-label={`Unit of ${name}`}
                        value={reading.units[i]}
                        onChange={(event) =>
                          setReading({
                            ...reading,
                            units: reading.units.map((before, j) => (j === i ? event.target.value : before)),
                          })
                        }
                      >
                        {[...new Set([guess.reading.units[i]!, reading.units[i]!, ...unitChoices(column.dimension)])]
                          .filter((unit) => unit !== "")
                          .map((unit) => (
                            <option key={unit}>{unit}</option>
                          ))}
                      </select>
                    )}
                  </th>
                );
              })}
            </tr>
          </thead>
          <tbody>
            {cells.rows.slice(0, SHOWN_ROWS).map((row) => (
              <tr key={row.at}>
                {reading.uses.map((now, i) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: cells go by their column
                  <td key={i} className={now === "none" ? styles.unused : ""}>
                    {row.cells[i] ?? ""}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {cells.rows.some((row) => row.cells.some((cell) => /\d[.,]\d/.test(cell))) && (
        <Choice
          label="Decimal sign"
          value={reading.decimal}
          options={[
            { value: "point", label: "point" },
            { value: "comma", label: "comma" },
          ]}
          onChange={(decimal) => setReading({ ...reading, decimal })}
        />
      )}
      {notes.length > 0 && (
        <ul className={styles.told}>
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      {wrong.length > 0 && (
        <div role="alert">
          <ul className={`${styles.told} ${styles.wrong}`}>
            {some(wrong).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      )}
      <div className={styles.buttons}>
        {rows.length > 0 && missing.length < columns.length && (
          <Button look="strong" onClick={() => onTake(pasted)}>
            {wrong.length === 0
              ? `Take ${counted(rows.length)}`
              : `Take ${counted(rows.length)}, leave out ${wrong.length === 1 ? "the one" : `the ${wrong.length}`} told above`}
          </Button>
        )}
        <Button onClick={onLeave}>Take nothing</Button>
      </div>
    </section>
  );
}

const chosenUse = (value: string): Use => (value === "words" || value === "none" ? value : Number(value));

const some = (lines: readonly string[]): readonly string[] =>
  lines.length > MOST_TOLD ? [...lines.slice(0, MOST_TOLD), `and ${lines.length - MOST_TOLD} more`] : lines;
