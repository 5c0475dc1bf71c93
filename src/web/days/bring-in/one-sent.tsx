import { useEffect, useId, useMemo, useRef, useState } from "react";
import { book } from "../../api/client.ts";
import { Button } from "../../controls/button.tsx";
import { Hint } from "../../controls/hint.tsx";
import { Panel } from "../../controls/panel.tsx";
import { useHint } from "../../state/preferences.ts";
import { useStore } from "../../state/use-store.ts";
import { bookCopy } from "../book-copy.ts";
import { recordOf, titleOf } from "../record-text.ts";
import { type At, go, wholeLog } from "../state.ts";
import styles from "./bring-in.module.css";
import { Guess } from "./guess.tsx";
import type { LogChoices, Preview } from "./log-choices.ts";
import { ReadingState } from "./reading-state.tsx";
import { type Sent, sizeText } from "./sent.ts";

const file = book["sent-logs"][":id"];

/** One file that was sent: what it is taken for, which pull it is of, and its reading. */
export function OneSent({
  sent,
  at,
  tried,
  relook,
}: {
  readonly sent: Sent;
  readonly at: Extract<At, { page: "bring in" }>;
  readonly tried: (work: () => Promise<void>) => Promise<void>;
  readonly relook: () => Promise<void>;
}) {
  const copy = useStore(bookCopy);
  const [told, setTold] = useState<LogChoices>({});
  const [preview, setPreview] = useState<Preview | null>(null);
  const [pull, setPull] = useState(at.pull ?? "");
  const id = useId();
  const hint = useHint("days log columns");
  const asked = useRef(0);
  const param = useMemo(() => ({ id: sent.id }), [sent.id]);

  useEffect(() => {
    const mine = ++asked.current;
    void tried(async () => {
      const answer = await file.preview.$post({ param, json: { told } });
      const { preview: seen } = await answer.json();
      if (mine === asked.current) setPreview(seen);
    });
  }, [param, told, tried]);

  const { reading } = sent;
  const log = reading.kind === "done" && "log" in reading.answer ? reading.answer.log : null;
  const pulls = copy.records.pull.filter((one) => !one.hidden && one.waits !== true);
  const day = recordOf(copy.records, "pull", pull)?.day;
  const read = (again: boolean) =>
    tried(async () => {
      const json = {
        told,
        ...(pull === "" ? {} : { pull }),
        ...(typeof day === "string" ? { day } : {}),
        ...(again ? { again: true } : {}),
      };
      await file.read.$post({ param, json });
      await relook();
    });
  const letGo = () =>
    tried(async () => {
      await file.$delete({ param });
      await relook();
      go({ ...at, sent: null });
    });
  const open = questionsOf(preview).length > 0;
  const readable = preview !== null && preview.guess.kind !== "notATable" && preview.guess.kind !== "packed" && !open;

  return (
    <div className={styles.page}>
      <Panel title={sent.name} beside={<span className={styles.quiet}>{sizeText(sent.size)}</span>}>
        <ReadingState sent={sent} />
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
              onClick={() => void tried(async () => void (await file.stop.$post({ param, json: {} }))).then(relook)}
            >
              Stop; what was read stays
            </Button>
          </div>
        )}
        {reading.kind === "done" && reading.answer.kind !== "stopped" && (
          <div className={styles.actions}>
            {log !== null && (
              <Button look="strong" onClick={() => go(wholeLog(log))}>
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
            {hint.shown && <Hint>Each column says what it was taken for and why; change what is wrong.</Hint>}
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

const questionsOf = (preview: Preview | null) =>
  preview !== null && "questions" in preview.guess ? preview.guess.questions : [];
