import { Button } from "../controls/button.tsx";
import { saveFile } from "../controls/save-file.ts";
import { addressNote } from "../state/address.ts";
import { problemLine } from "../state/fields.ts";
import { useStore } from "../state/use-store.ts";
import styles from "./shell.module.css";

/** Enough to mend an address by; a broken one may hold hundreds. */
const MOST_SHOWN = 5;

/** What could not be read of an address, or of what this device kept: by name, with nothing of it lost. */
export function UnreadAddress() {
  const note = useStore(addressNote);
  if (note === null) return null;
  if (note.kind === "long")
    return (
      <div className={styles.unread} role="status">
        <p>This is too long for an address. It is kept on this device; save its file to send it to somebody.</p>
      </div>
    );
  const { problems, given, place, from } = note;
  const more = problems.length - MOST_SHOWN;
  return (
    <div className={styles.unread} role="alert">
      <p>
        {from === "address"
          ? "This address cannot be read, and nothing of it was taken over:"
          : "What this device kept of this place cannot be read, and nothing of it was taken over:"}
      </p>
      <ul>
        {[...new Set(problems.map(problemLine))].slice(0, MOST_SHOWN).map((line) => (
          <li key={line}>{line}</li>
        ))}
        {more > 0 && <li>and {more} more</li>}
      </ul>
      <p>
        <Button onClick={() => saveFile(given, "text/plain", `${place}-unread.txt`)}>Save what was given</Button>{" "}
        <Button look="bare" onClick={() => addressNote.put(null)}>
          Close this note
        </Button>
      </p>
    </div>
  );
}
