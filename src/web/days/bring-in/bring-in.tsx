import { type DragEvent, useCallback, useEffect, useRef, useState } from "react";
import { ApiTrouble, asBytes, book, OutOfReach } from "../../api/client.ts";
import { announce } from "../../controls/announce.ts";
import { Button } from "../../controls/button.tsx";
import { FilePick } from "../../controls/file-pick.tsx";
import { Panel } from "../../controls/panel.tsx";
import { useStore } from "../../state/use-store.ts";
import { bookCopy, look } from "../book-copy.ts";
import { Heading } from "../heading.tsx";
import { recordOf, titleOf } from "../record-text.ts";
import { type At, go } from "../state.ts";
import { changes } from "../written.ts";
import styles from "./bring-in.module.css";
import { OneSent } from "./one-sent.tsx";
import { type Sent, sizeText, stateText } from "./sent.ts";

const POLL = 300;

/** A log file into the book: chosen or dropped, looked at, its columns corrected, read with progress. */
export function BringIn({ at }: { readonly at: Extract<At, { page: "bring in" }> }) {
  const copy = useStore(bookCopy);
  const [all, setAll] = useState<readonly Sent[]>([]);
  const [wrong, setWrong] = useState<string | null>(null);
  const [sending, setSending] = useState<string | null>(null);
  const [over, setOver] = useState(false);
  const pick = useRef<HTMLInputElement>(null);
  const pull = recordOf(copy.records, "pull", at.pull);
  const sent = all.find((one) => one.id === at.sent) ?? null;

  const tried = useCallback(async (work: () => Promise<void>): Promise<void> => {
    try {
      await work();
      setWrong(null);
    } catch (error) {
      if (error instanceof OutOfReach) setWrong("Log files go straight to the book, which is out of reach now.");
      else if (error instanceof ApiTrouble) setWrong(error.message);
      else throw error;
    }
  }, []);
  const relook = useCallback(
    () => tried(async () => setAll((await (await book["sent-logs"].$get()).json()).sent)),
    [tried],
  );
  useEffect(() => {
    void relook();
  }, [relook]);
  const busy = all.some((one) => one.reading.kind === "reading");
  useEffect(() => {
    if (!busy) return;
    const timer = setInterval(() => void relook(), POLL);
    return () => clearInterval(timer);
  }, [busy, relook]);
  const done = sent?.reading.kind === "done" ? sent.id : null;
  useEffect(() => {
    if (done === null) return;
    announce("the log is read");
    changes.put(changes.get() + 1);
    void look();
  }, [done]);

  const send = (file: File) =>
    tried(async () => {
      setSending(file.name);
      try {
        const answer = await book["sent-logs"].$post({ query: { name: file.name } }, asBytes(file));
        const { sent: made } = await answer.json();
        await relook();
        go({ ...at, sent: made.id });
      } finally {
        setSending(null);
      }
    });
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const file = event.dataTransfer.files[0];
    if (file !== undefined) void send(file);
  };
  const others = all.filter((one) => one.id !== sent?.id);

  return (
    <>
      <Heading
        back={
          pull === undefined
            ? { at: { page: "book" }, label: "Book" }
            : { at: { page: "record", kind: "pull", id: pull.id }, label: titleOf(copy.records, "pull", pull) }
        }
        title="Bring in a log"
        line={pull === undefined ? "" : `for ${titleOf(copy.records, "pull", pull)}`}
      />
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
      {sent === null && (
        // biome-ignore lint/a11y/noStaticElementInteractions: the button inside does the same for everybody else
        <div
          className={styles.drop}
          data-over={over || undefined}
          onDragOver={(event) => {
            event.preventDefault();
            setOver(true);
          }}
          onDragLeave={() => setOver(false)}
          onDrop={drop}
        >
          <Button look="strong" disabled={sending !== null} onClick={() => pick.current?.click()}>
            {sending === null ? "Choose a log file" : `Sending ${sending}…`}
          </Button>
          <p className={styles.quiet}>
            or drop it here: a load cell's CSV in any dialect, NMEA 0183, Signal K, a GPX track, time marks of a video.
            Nothing is read before you have seen what it is taken for.
          </p>
          <FilePick pick={pick} label="A log file" accept={null} onPick={(file) => void send(file)} />
        </div>
      )}
      {sent !== null && <OneSent key={sent.id} sent={sent} at={at} tried={tried} relook={relook} />}
      {others.length > 0 && (
        <Panel title="Sent before">
          <ul className={styles.others}>
            {others.map((one) => (
              <li key={one.id}>
                <span>
                  {one.name}, {sizeText(one.size)}, {stateText(one)}
                </span>
                <Button onClick={() => go({ ...at, sent: one.id })}>Open</Button>
              </li>
            ))}
          </ul>
        </Panel>
      )}
    </>
  );
}
