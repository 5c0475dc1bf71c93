import { useRef, useState } from "react";
import { InputError } from "../../quantity/index.ts";
import { announce } from "../controls/announce.ts";
import { AskFirst } from "../controls/ask-first.tsx";
import { Button } from "../controls/button.tsx";
import { FilePick } from "../controls/file-pick.tsx";
import { NameField } from "../controls/name-field.tsx";
import { saveYaml } from "../controls/save-file.ts";
import styles from "./place.module.css";
import { type ReadingsState, readingsStore, runOf, usualReadings } from "./state.ts";

/** Run files in and out, the demo, and a clean table. */
export function FilesBar({ state }: { readonly state: ReadingsState }) {
  const pick = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const run = runOf(state);
  const rows = state.readings.length + state.release.length;

  const take = async (text: string, place: string): Promise<void> => {
    try {
      // Reading a file brings a parser and a schema: only when a file is read.
      const { stateOfRunFile } = await import("./run-files.ts");
      readingsStore.set(stateOfRunFile(text, place), { label: `readings of ${place}` });
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
    saveYaml(textOfRun(run, state.rig), state.name, "readings");
  };

  return (
    <div className={styles.files}>
      <NameField
        label="Name of the readings"
        value={state.name}
        onChange={(name) =>
          readingsStore.set((before) => ({ ...before, name }), {
            label: "name of the readings",
            stroke: "name of the readings",
          })
        }
      />
      <FilePick
        pick={pick}
        label="A run file"
        onPick={(file) => void file.text().then((text) => take(text, file.name))}
      />
      <Button onClick={() => pick.current?.click()}>Open a run file</Button>
      <Button disabled={run === null} onClick={() => void save()}>
        Save as a file
      </Button>
      <AskFirst
        question={rows > 0 ? `${rows} ${rows === 1 ? "row stands" : "rows stand"} in the tables.` : null}
        yes="Replace them by the demo's"
        onYes={() =>
          void import("./run-files.ts").then(({ demoRun }) =>
            readingsStore.set(demoRun(), { label: "the demo's readings" }),
          )
        }
      >
        The demo's readings
      </AskFirst>
      <Button
        disabled={state === usualReadings}
        onClick={() => readingsStore.set(usualReadings, { label: "cleared table" })}
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
