import { useEffect } from "react";
import { isPaired, PAIRING_PAGE } from "../api/client.ts";
import { useOutbox } from "../api/outbox.ts";
import { useAddress } from "../state/address.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { daysCodec } from "./address.ts";
import { bookCopy, look } from "./book-copy.ts";
import { Books } from "./books/books.tsx";
import { DemoNote } from "./books/demo-note.tsx";
import { BringIn } from "./bring-in/bring-in.tsx";
import { ConflictNote } from "./conflict-note.tsx";
import { Devices } from "./devices/devices.tsx";
import { LogPage } from "./log/log-page.tsx";
import { Overview } from "./overview.tsx";
import styles from "./place.module.css";
import { RecordForm } from "./record-form.tsx";
import { RecordPage } from "./record-page.tsx";
import { daysStore } from "./state.ts";
import { trouble, writtenHere } from "./written.ts";

/** Days: the book in the browser. */
export function Place() {
  useAddress(daysStore, daysCodec);
  useUndoable(writtenHere);
  const { waiting } = useOutbox();
  // What waited has joined, or something new waits: the copy follows.
  // biome-ignore lint/correctness/useExhaustiveDependencies: each change of the number is a reason to look
  useEffect(() => {
    void look();
  }, [waiting]);
  useEffect(() => {
    const seen = () => {
      if (document.visibilityState === "visible") void look();
    };
    document.addEventListener("visibilitychange", seen);
    window.addEventListener("online", seen);
    return () => {
      document.removeEventListener("visibilitychange", seen);
      window.removeEventListener("online", seen);
    };
  }, []);
  const { at } = useStore(daysStore);
  const copy = useStore(bookCopy);
  const wrong = useStore(trouble);

  return (
    <div className={styles.place}>
      {(wrong ?? copy.trouble) !== null && (
        <p className={styles.wrong} role="alert">
          {wrong ?? copy.trouble}
        </p>
      )}
      <Apart />
      <DemoNote way={at.page === "book"} />
      <ConflictNote />
      {copy.state === "asking" ? (
        <p className={styles.quiet}>Opening the book…</p>
      ) : (
        <Shown at={at} key={at.page === "record" || at.page === "form" ? `${at.page} ${at.kind} ${at.id}` : at.page} />
      )}
    </div>
  );
}

/** Why the book is not at hand, and what becomes of what is written meanwhile. */
function Apart() {
  const copy = useStore(bookCopy);
  const mayCome = useStore(isPaired);
  const seen =
    copy.state === "none" ? "This device has not seen the book yet." : "This is how this device last saw the book.";
  if (!mayCome)
    return (
      <p className={styles.note} role="status">
        This device is not let in: its key was withdrawn at the computer, or was not used for half a year. {seen}{" "}
        Nothing is lost: what you write waits here, and joins the book when a new code lets the device in.{" "}
        <a href={PAIRING_PAGE}>Type the code</a>
      </p>
    );
  if (copy.state === "fresh" || copy.state === "asking" || copy.trouble !== null) return null;
  return (
    <p className={styles.note} role="status">
      The book is out of reach. {seen} What you write waits here and joins it later.
    </p>
  );
}

function Shown({ at }: { readonly at: ReturnType<typeof daysStore.get>["at"] }) {
  switch (at.page) {
    case "book":
      return <Overview />;
    case "record":
      return <RecordPage at={at} />;
    case "form":
      return <RecordForm at={at} />;
    case "log":
      return <LogPage key={at.id} at={at} />;
    case "bring in":
      return <BringIn at={at} />;
    case "books":
      return <Books />;
    case "devices":
      return <Devices />;
  }
}
