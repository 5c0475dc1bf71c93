import { useEffect } from "react";
import { useOutbox } from "../api/outbox.ts";
import { useAddress } from "../state/address.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { daysCodec } from "./address.ts";
import { bookCopy, look } from "./book-copy.ts";
import { BringIn } from "./bring-in/bring-in.tsx";
import { daysDesk } from "./desk.ts";
import { Devices } from "./devices.tsx";
import { LogPage } from "./log/log-page.tsx";
import { Overview } from "./overview.tsx";
import styles from "./place.module.css";
import { RecordForm } from "./record-form.tsx";
import { RecordPage } from "./record-page.tsx";
import { trouble, writtenHere } from "./written.ts";

/** Days: the book in the browser. */
export function Place() {
  useAddress(daysDesk, daysCodec);
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
  const { at } = useStore(daysDesk);
  const copy = useStore(bookCopy);
  const wrong = useStore(trouble);

  return (
    <div className={styles.place}>
      {(wrong ?? copy.trouble) !== null && (
        <p className={styles.wrong} role="alert">
          {wrong ?? copy.trouble}
        </p>
      )}
      {copy.state === "kept" && (
        <p className={styles.note} role="status">
          The book is out of reach; this is how this device last saw it. What you write waits here and joins it later.
        </p>
      )}
      {copy.state === "none" && copy.trouble === null && (
        <p className={styles.note} role="status">
          The book is out of reach and this device has not seen it yet. What you write waits here and joins it later.
        </p>
      )}
      {copy.state === "asking" ? (
        <p className={styles.quiet}>Opening the book…</p>
      ) : (
        <Shown at={at} key={at.page === "record" || at.page === "form" ? `${at.page} ${at.kind} ${at.id}` : at.page} />
      )}
    </div>
  );
}

function Shown({ at }: { readonly at: ReturnType<typeof daysDesk.get>["at"] }) {
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
    case "devices":
      return <Devices />;
  }
}
