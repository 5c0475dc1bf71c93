import { countText } from "../said.ts";
import styles from "./bring-in.module.css";
import type { Sent } from "./sent.ts";

/** How far the reading of a file is, and what came of it. */
export function ReadingState({ sent }: { readonly sent: Sent }) {
  const { reading } = sent;
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
    const rows = countText(answer.rows ?? 0, "reading", "readings");
    const says: Readonly<Record<string, string>> = {
      imported: `Read: ${rows} in the book${answer.known ? `, ${countText(answer.known, "of them was", "of them were")} there before` : ""}.`,
      stopped: `Stopped: ${rows} are in the book; it goes on where it stopped.`,
      already: "This file is in the book already; nothing was added.",
      marks: `${countText(answer.marks ?? 0, "mark", "marks")} in the book.`,
      asks: "It cannot be read before the question below is answered.",
    };
    return <p role="status">{says[answer.kind] ?? answer.kind}</p>;
  }
  return null;
}
