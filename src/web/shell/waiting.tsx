import { isPaired, PAIRING_PAGE } from "../api/client.ts";
import { useOutbox } from "../api/outbox.ts";
import { Button } from "../controls/button.tsx";
import { useStore } from "../state/use-store.ts";
import styles from "./shell.module.css";

/** What waits on this device for the book, and what the book refused. */
export function Waiting() {
  const mayCome = useStore(isPaired);
  const { waiting, elsewhere, refused, sending, send, letGo } = useOutbox();
  if (waiting === 0 && elsewhere === 0 && refused.length === 0) return null;
  return (
    <div className={styles.note} role="status">
      {waiting > 0 && (
        <>
          <p>
            {waiting === 1 ? "1 change waits" : `${waiting} changes wait`} on this device for the book.
            {!mayCome && " This device is not let in now; a new code lets it in."}
          </p>
          {mayCome ? (
            <Button disabled={sending} onClick={() => void send()}>
              {sending ? "Sending…" : "Send now"}
            </Button>
          ) : (
            <a className={styles.link} href={PAIRING_PAGE}>
              Type the code
            </a>
          )}
        </>
      )}
      {elsewhere > 0 && (
        <p>
          {elsewhere === 1 ? "1 change waits" : `${elsewhere} changes wait`} on this device for another book, and{" "}
          {elsewhere === 1 ? "goes" : "go"} there when that is open again.
        </p>
      )}
      {refused.map(({ id, label, why }) => (
        <p key={id}>
          The book refused “{label}”: {why}{" "}
          <Button look="bare" onClick={() => void letGo(id)}>
            Let it go
          </Button>
        </p>
      ))}
    </div>
  );
}
