import { type DragEvent, useCallback, useEffect, useId, useRef, useState } from "react";
import { ApiTrouble, api, OutOfReach } from "../../api/client.ts";
import { announce } from "../../show/announce.ts";
import { Button } from "../../show/button.tsx";
import { Panel } from "../../show/panel.tsx";
import { useHint } from "../../state/preferences.ts";
import { useStore } from "../../state/use-store.ts";
import { bookCopy, look } from "../book-copy.ts";
import { type At, go, wholeLog } from "../desk.ts";
import { Heading } from "../heading.tsx";
import { countText, recordOf, titleOf } from "../said.ts";
import { changes } from "../written.ts";
import styles from "./bring-in.module.css";
import { Guess } from "./guess.tsx";
import type { Preview, Told } from "./told.ts";

export interface Sent {
  readonly id: string;
  readonly name: string;
  readonly size: number;
  readonly reading:
    | { readonly kind: "waiting" }
    | { readonly kind: "reading"; readonly position: number; readonly rows: number }
    | {
        readonly kind: "done";
        readonly answer: {
          readonly kind: string;
          readonly log?: string;
          readonly rows?: number;
          readonly known?: number;
          readonly marks?: number;
        };
      }
    | {
        readonly kind: "failed";
        readonly error?: { readonly place: string; readonly given: string; readonly expected: string };
      };
}

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

  const tried = useCallback(async (act: () => Promise<void>): Promise<void> => {
    try {
      await act();
      setWrong(null);
    } catch (error) {
      if (error instanceof OutOfReach) setWrong("Log files go straight to the book, which is out of reach now.");
      else if (error instanceof ApiTrouble) setWrong(error.message);
      else throw error;
    }
  }, []);
  const relook = useCallback(
    () => tried(async () => setAll((await api.get<{ sent: Sent[] }>("/sent-logs")).sent)),
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
        const answer = await api.send<{ sent: Sent }>("/sent-logs", file, "application/octet-stream", {
          name: file.name,
        });
        await relook();
        go({ ...at, sent: answer.sent.id });
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
          <input
            ref={pick}
            type="file"
            className={styles.pick}
            tabIndex={-1}
            aria-label="A log file"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = "";
              if (file !== undefined) void send(file);
            }}
          />
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

function sizeText(bytes: number): string {
  return bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

function stateText({ reading }: Sent): string {
  switch (reading.kind) {
    case "waiting":
      return "waits to be read";
    case "reading":
      return "is being read";
    case "failed":
      return "could not be read";
    case "done":
      return reading.answer.kind === "stopped" ? "stopped" : "read";
  }
}

function OneSent({
  sent,
  at,
  tried,
  relook,
}: {
  readonly sent: Sent;
  readonly at: Extract<At, { page: "bring in" }>;
  readonly tried: (act: () => Promise<void>) => Promise<void>;
  readonly relook: () => Promise<void>;
}) {
  const copy = useStore(bookCopy);
  const [told, setTold] = useState<Told>({});
  const [preview, setPreview] = useState<Preview | null>(null);
  const [pull, setPull] = useState(at.pull ?? "");
  const id = useId();
  const hint = useHint("days log columns");
  const asked = useRef(0);

  useEffect(() => {
    const mine = ++asked.current;
    void tried(async () => {
      const answer = await api.post<{ preview: Preview }>(`/sent-logs/${sent.id}/preview`, { told });
      if (mine === asked.current) setPreview(answer.preview);
    });
  }, [sent.id, told, tried]);

  const { reading } = sent;
  const pulls = copy.records.pull.filter((one) => !one.hidden && one.waits !== true);
  const day = recordOf(copy.records, "pull", pull)?.day;
  const read = (again: boolean) =>
    tried(async () => {
      await api.post(`/sent-logs/${sent.id}/read`, {
        told,
        ...(pull === "" ? {} : { pull }),
        ...(typeof day === "string" ? { day } : {}),
        ...(again ? { again: true } : {}),
      });
      await relook();
    });
  const letGo = () =>
    tried(async () => {
      await api.delete(`/sent-logs/${sent.id}`);
      await relook();
      go({ ...at, sent: null });
    });
  const open = questionsOf(preview).length > 0;
  const readable = preview !== null && preview.guess.kind !== "notATable" && !open;

  return (
    <div className={styles.page}>
      <Panel title={sent.name} beside={<span className={styles.quiet}>{sizeText(sent.size)}</span>}>
        <State sent={sent} />
        {reading.kind !== "reading" &&
          !(reading.kind === "done" && reading.answer.kind !== "stopped" && reading.answer.kind !== "asks") && (
            <>
              {pulls.length > 0 && (
                <div className={styles.field}>
                  <label htmlFor={id}>It is the log of</label>
                  <select
                    id={id}
                    className={styles.select}
                    value={pull}
                    onChange={(event) => setPull(event.target.value)}
                  >
                    <option value="">no pull in particular</option>
                    {pulls.map((one) => {
                      const when = recordOf(copy.records, "day", one.day);
                      return (
                        <option key={one.id} value={one.id}>
                          {[
                            when === undefined ? "" : titleOf(copy.records, "day", when),
                            titleOf(copy.records, "pull", one),
                          ]
                            .filter((part) => part !== "")
                            .join(": ")}
                        </option>
                      );
                    })}
                  </select>
                </div>
              )}
              <div className={styles.actions}>
                <Button look="strong" disabled={!readable} onClick={() => void read(false)}>
                  {reading.kind === "done" ? "Read on" : "Read it into the book"}
                </Button>
                <Button onClick={() => void letGo()}>Let the file go</Button>
              </div>
            </>
          )}
        {reading.kind === "reading" && (
          <div className={styles.actions}>
            <Button
              onClick={() =>
                void tried(async () => void (await api.post(`/sent-logs/${sent.id}/stop`, {}))).then(relook)
              }
            >
              Stop; what was read stays
            </Button>
          </div>
        )}
        {reading.kind === "done" && reading.answer.kind !== "stopped" && (
          <div className={styles.actions}>
            {reading.answer.log !== undefined && (
              <Button look="strong" onClick={() => go(wholeLog(reading.answer.log!))}>
                Open the trace
              </Button>
            )}
            {reading.answer.kind === "already" && <Button onClick={() => void read(true)}>Read it anew</Button>}
            <Button onClick={() => void letGo()}>Let the file go</Button>
          </div>
        )}
      </Panel>
      {preview !== null &&
        (reading.kind === "waiting" ||
          reading.kind === "failed" ||
          (reading.kind === "done" && reading.answer.kind === "asks")) && (
          <Panel title="What it is taken for">
            {hint.shown && (
              <p className={styles.hint}>Each column says what it was taken for and why; change what is wrong.</p>
            )}
            <Guess
              preview={preview}
              told={told}
              onTold={(next) => {
                hint.used();
                setTold(next);
              }}
            />
          </Panel>
        )}
    </div>
  );
}

const questionsOf = (preview: Preview | null) => (preview?.guess.kind === "table" ? preview.guess.questions : []);

function State({ sent }: { readonly sent: Sent }) {
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
