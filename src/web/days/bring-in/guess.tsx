import { useState } from "react";
import { columnCauseWords, grantedWords, guessCauseWords, logQuestionWords } from "../../../words/index.ts";
import { Button } from "../../controls/button.tsx";
import styles from "./bring-in.module.css";
import {
  answerText,
  type ColumnGuess,
  type LogChoices,
  type Preview,
  type Question,
  roleOf,
  roles,
  type Table,
  typedBy,
  withAnswer,
  withColumn,
} from "./log-choices.ts";
import { WrittenOtherwise } from "./written-otherwise.tsx";

interface Props {
  readonly preview: Preview;
  readonly told: LogChoices;
  readonly onTold: (told: LogChoices) => void;
}

/** What a file was taken for, with reasons; each column can be told otherwise. */
export function Guess({ preview, told, onTold }: Props) {
  const { guess } = preview;
  if (guess.kind === "notATable")
    return (
      <>
        <p className={styles.wrong} role="alert">
          No log could be made out: {guess.why}.
        </p>
        <WrittenOtherwise told={told} onTold={onTold} />
      </>
    );
  if (guess.kind === "packed")
    return (
      <p className={styles.wrong} role="alert">
        It is {guess.what}: {guess.expected}.
      </p>
    );
  if (guess.kind === "nmea")
    return (
      <>
        <Open guess={guess} columns={[]} told={told} onTold={onTold} />
        <p>Sentences of NMEA 0183; {guessCauseWords(guess.why)}.</p>
        <p className={styles.quiet}>
          {Object.entries(guess.types)
            .map(([type, n]) => `${type} ${n}`)
            .join(", ")}
        </p>
      </>
    );
  if (guess.kind === "signalk")
    return (
      <>
        <Open guess={guess} columns={[]} told={told} onTold={onTold} />
        <p>Deltas of Signal K{guess.timed ? ", each with its time" : ""}.</p>
        <p className={styles.quiet}>{Object.keys(guess.paths).join(", ")}</p>
      </>
    );
  if (guess.kind === "gpx") return <p>A GPX track.</p>;
  if (guess.kind !== "table") return <p>Time marks: they become marks on the trace.</p>;
  return (
    <>
      {preview.remembered && (
        <p className={styles.quiet}>Taken as the last file of this source was. What you change is remembered.</p>
      )}
      <Open guess={guess} columns={guess.columns} told={told} onTold={onTold} />
      <p className={styles.quiet}>
        Columns parted by {guess.delimiter.value} ({guessCauseWords(guess.delimiter.why)}), decimals by a{" "}
        {guess.decimal.value === "." ? "point" : "comma"} ({guessCauseWords(guess.decimal.why)})
        {guess.headerLine === null ? ", no line of titles" : `, titles in line ${guess.headerLine}`}.
      </p>
      <ul className={styles.columns}>
        {guess.columns.map((column) => (
          <Column key={`${column.number} ${column.as} ${column.unit}`} column={column} told={told} onTold={onTold} />
        ))}
      </ul>
      <WrittenOtherwise told={told} onTold={onTold} />
    </>
  );
}

interface OpenProps extends Pick<Props, "told" | "onTold"> {
  readonly guess: Pick<Table, "questions" | "remarks">;
  readonly columns: readonly ColumnGuess[];
}

/** What the file leaves open, asked; and what is taken for granted, told. */
function Open({ guess, columns, told, onTold }: OpenProps) {
  return (
    <>
      {guess.questions.map(logQuestionWords).map((question) => (
        <Asked key={question.question} question={question} columns={columns} told={told} onTold={onTold} />
      ))}
      {guess.remarks.map(grantedWords).map((remark) => (
        <p key={remark} className={styles.quiet}>
          Taken for granted: {remark}.
        </p>
      ))}
    </>
  );
}

function Column({ column, told, onTold }: { readonly column: ColumnGuess } & Pick<Props, "told" | "onTold">) {
  const role = roleOf(column.as);
  const known = column.unit === "?" ? "" : column.unit;
  const [unit, setUnit] = useState(known);
  const about = roles.find((one) => one.role === role);
  const title = column.title === "" ? `column ${column.number}` : column.title;
  const tell = () => {
    if (unit !== known) onTold(withColumn(told, column.number, role, unit));
  };
  return (
    <li className={styles.column} data-taken={role !== "ignore" || undefined}>
      <p className={styles.title}>
        {title}
        <span className={styles.examples}>{column.examples.join("  ")}</span>
      </p>
      <select
        className={styles.select}
        aria-label={`What ${title} is`}
        value={role}
        onChange={(event) => onTold(withColumn(told, column.number, event.target.value, ""))}
      >
        {roles.map((one) => (
          <option key={one.role} value={one.role}>
            {one.says}
          </option>
        ))}
      </select>
      {role !== "ignore" && role !== "unit" && (
        <input
          className={styles.unit}
          aria-label={role === "time" || role === "date" ? `Format of ${title}` : `Unit of ${title}`}
          placeholder={about?.unit ?? ""}
          autoCapitalize="none"
          spellCheck={false}
          value={unit}
          onChange={(event) => setUnit(event.target.value)}
          onBlur={tell}
          onKeyDown={(event) => {
            if (event.key === "Enter") tell();
          }}
        />
      )}
      <p className={styles.why}>
        {columnCauseWords(column.why)}
        {column.confidence < 0.6 ? "; not sure" : ""}
      </p>
    </li>
  );
}

function Asked({
  question,
  columns,
  told,
  onTold,
}: { readonly question: Question; readonly columns: readonly ColumnGuess[] } & Pick<Props, "told" | "onTold">) {
  const [typed, setTyped] = useState("");
  const takes = question.answers.filter((answer) => withAnswer(told, answer) !== null);
  const types = typedBy(question);
  const labels = { rate: "rows a second", zone: "zone, such as +02:00", start: "day, such as 2031-05-17" } as const;
  const answer = () => {
    if (types === "rate" && Number(typed) > 0) onTold({ ...told, rate: Number(typed) });
    else if (types === "zone" && typed.trim() !== "") onTold({ ...told, zone: typed.trim() });
    else if (types === "start" && typed.trim() !== "") onTold({ ...told, start: typed.trim() });
  };
  return (
    <fieldset className={styles.asked} aria-label={question.about}>
      <p>{question.question}</p>
      <div className={styles.actions}>
        {takes.map((one) => (
          <Button key={one} onClick={() => onTold(withAnswer(told, one)!)}>
            {answerText(one, question.about === "several loads" ? columns : [])}
          </Button>
        ))}
        {types !== null && (
          <>
            <input
              className={styles.unit}
              aria-label={labels[types]}
              placeholder={labels[types]}
              value={typed}
              onChange={(event) => setTyped(event.target.value)}
              onKeyDown={(event) => {
                if (event.key === "Enter") answer();
              }}
            />
            <Button onClick={answer}>Say so</Button>
          </>
        )}
        {takes.length === 0 && types === null && <span className={styles.quiet}>Tell the column below.</span>}
      </div>
    </fieldset>
  );
}
