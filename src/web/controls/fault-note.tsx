import type { Outcome } from "../work/worker.ts";
import { Button } from "./button.tsx";
import styles from "./fault-note.module.css";

/** Why there is no answer, where the answer would stand; asked once more by a button. */
export function FaultNote({
  of: { fault, again },
  what,
}: {
  readonly of: Pick<Outcome<unknown>, "fault" | "again">;
  readonly what: string;
}) {
  if (fault === null) return null;
  return (
    <div className={styles.fault} role="alert">
      {fault.kind === "input" && <p>{fault.line}</p>}
      {fault.kind === "program" && (
        <p>
          A fault of the program kept {what} from being worked out ({fault.line}). What you entered is kept.
        </p>
      )}
      {fault.kind === "late" && (
        <p>
          {what}: {fault.line}. A rode of fewer parts, or without a current, takes less.
        </p>
      )}
      {fault.kind !== "input" && <Button onClick={again}>Try again</Button>}
    </div>
  );
}
