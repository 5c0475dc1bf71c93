import type { UnitSystem } from "../../../quantity/index.ts";
import { countText, endedWords, grantedWords, leftOutWords, loadWarnings } from "../../../words/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { useUnits } from "../../state/preferences.ts";
import styles from "./bring-in.module.css";
import type { Sent } from "./sent.ts";

/** How far the reading of a file is, and what came of it. */
export function ReadingState({ sent }: { readonly sent: Sent }) {
  const { reading } = sent;
  const { system } = useUnits();
  if (reading.kind === "reading") {
    const share = sent.size === 0 ? 0 : reading.position / sent.size;
    return (
      <>
        <progress className={styles.progress} max={1} value={share} aria-label="Read so far" />
        <p className={styles.quiet}>
          {Math.round(100 * share)} %, {countText(reading.rows, "reading", "readings")} in the book
        </p>
      </>
    );
  }
  if (reading.kind === "failed") {
    const { error } = reading;
    return (
      <p className={styles.wrong} role="alert">
        {error === undefined
          ? "It could not be read."
          : `${error.place}: ${[error.given, error.expected].filter((text) => text !== "").join("; ")}`}
      </p>
    );
  }
  if (reading.kind === "done") {
    const { answer } = reading;
    const told = answer.kind === "imported" || answer.kind === "stopped" ? toldOf(answer, system) : [];
    return (
      <>
        <p role="status">{answerText(answer)}</p>
        {told.map((line) => (
          <p key={line} className={styles.quiet}>
            {line}
          </p>
        ))}
      </>
    );
  }
  return null;
}

type Answer = Extract<Sent["reading"], { kind: "done" }>["answer"];

/** What was taken for granted, left out or is to be doubted of a log that was read. */
function toldOf(answer: Extract<Answer, { kind: "imported" | "stopped" }>, system: UnitSystem): string[] {
  const { troubles, remarks, seen, ended } = answer;
  const left = leftOutWords(troubles);
  return [
    ...remarks.map((remark) => `Taken for granted: ${grantedWords(remark)}.`),
    ...(left.length === 0 ? [] : [`Left out: ${left.join(", ")}.`]),
    ...troubles.first.slice(0, 3).map((one) => `Line ${one.line}: ${one.value}; ${one.expected}.`),
    ...loadWarnings(seen, troubles, (newtons) => formatQuantity(newtons, "force", { system, digits: 3 })),
    ...endedWords(ended).map((words) => `Reading ${words}.`),
  ];
}

function answerText(answer: Answer): string {
  switch (answer.kind) {
    case "imported":
      return `Read: ${countText(answer.rows, "reading", "readings")} in the book${answer.known > 0 ? `, ${countText(answer.known, "of them was", "of them were")} there before` : ""}.`;
    case "stopped":
      return `Stopped: ${countText(answer.rows, "reading", "readings")} are in the book; it goes on where it stopped.`;
    case "already":
      return "This file is in the book already; nothing was added.";
    case "marks":
      return `${countText(answer.marks, "mark", "marks")} in the book.`;
    case "asks":
      return "It cannot be read before the question below is answered.";
  }
}
