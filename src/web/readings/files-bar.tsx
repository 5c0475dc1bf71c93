import { useRef, useState } from "react";
import { InputError } from "../../quantity/index.ts";
import { announce } from "../show/announce.ts";
import { Button } from "../show/button.tsx";
import { type ReadingsState, readingsDesk, runOf, usualReadings } from "./desk.ts";
import styles from "./place.module.css";

/** Run files in and out, the demo, and a clean table. */
export function FilesBar({ state }: { readonly state: ReadingsState }) {
  const pick = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const run = runOf(state);

  const take = async (text: string, place: string): Promise<void> => {
    try {
      // Reading a file brings a parser and a schema: only when a file is read.
      const { stateOfRunFile } = await import("./run-files.ts");
      readingsDesk.set(stateOfRunFile(text, place), { label: `readings of ${place}` });
      setWrong(null);
      announce(`${place} is read`);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      setWrong(error.message);
    }
  };

  const save = async (): Promise<void> => {
    if (run === null) return;
    const { textOfRun } = await import("./run-files.ts");
    const url = URL.createObjectURL(new Blob([textOfRun(run, state.rig)], { type: "application/yaml" }));
    const link = document.createElement("a");
    link.href = url;
    link.download = `${
      state.name
        .trim()
        .replace(/[^\w-]+/g, "-")
        .toLowerCase() || "readings"
    }.yaml`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 10_000);
  };

  return (
    <div className={styles.files}>
      <label className={styles.name}>
        <span className="unseen">Name of the readings</span>
        <input
          type="text"
          value={state.name}
          maxLength={200}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) =>
            readingsDesk.set((before) => ({ ...before, name: event.target.value }), {
              label: "name of the readings",
              stroke: "name of the readings",
            })
          }
        />
      </label>
      <input
        ref={pick}
        type="file"
        className={styles.pick}
        tabIndex={-1}
        aria-label="A run file"
        accept=".yaml,.yml,.json"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = "";
          if (file !== undefined) void file.text().then((text) => take(text, file.name));
        }}
      />
      <Button onClick={() => pick.current?.click()}>Open a run file</Button>
      <Button disabled={run === null} onClick={() => void save()}>
        Save as a file
      </Button>
      <Button
        onClick={() =>
          void import("./run-files.ts").then(({ demoRun }) =>
            readingsDesk.set(demoRun(), { label: "the demo's readings" }),
          )
        }
      >
        The demo's readings
      </Button>
      <Button
        disabled={state === usualReadings}
        onClick={() => readingsDesk.set(usualReadings, { label: "cleared table" })}
      >
        Clear
      </Button>
      {wrong !== null && (
        <p className={styles.wrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
