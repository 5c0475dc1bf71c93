import { useCallback, useRef } from "react";
import type { SeriesPlan } from "../../series/index.ts";
import { questionWords } from "../../words/index.ts";
import { Button } from "../controls/button.tsx";
import { FaultNote } from "../controls/fault-note.tsx";
import { FilePick } from "../controls/file-pick.tsx";
import { FoldingPanel, Panel } from "../controls/panel.tsx";
import { saveFile, saveYaml } from "../controls/save-file.ts";
import { useAddress } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { askWorker, useNewest } from "../work/worker.ts";
import { seriesCodec } from "./address.ts";
import { Form } from "./form.tsx";
import { OrderTable } from "./order-table.tsx";
import styles from "./place.module.css";
import { PowerPanel } from "./power-panel.tsx";
import { usualSeries } from "./state.ts";
import { seriesStore } from "./store.ts";
import { WaterPictures } from "./water-pictures.tsx";
import { WhatTheseAre } from "./what-these-are.tsx";

/** A series planned: what can be had, in which order, how many pulls, and the sheet to take along. */
export function Place() {
  useAddress(seriesStore, seriesCodec);
  useUndoable(seriesStore);
  const { text } = useStore(seriesStore);
  const { system } = useUnits();
  const planned = useNewest<SeriesPlan>(useCallback((work) => work.plannedSeries(text), [text]));
  const plan = planned.fault === null ? planned.answer : null;
  const saveSheet = async () => {
    if (plan !== null)
      saveFile(await askWorker((work) => work.seriesSheet(text, system)), "text/html", "field-sheet.html");
  };
  return (
    <div className={styles.place}>
      <h1 className="unseen">Series</h1>
      <Written text={text} name={plan?.series.name ?? "series"} onSheet={plan === null ? null : saveSheet} />
      <div className={styles.answers}>
        <FaultNote of={planned} what="the plan of this series" />
        {plan !== null && (
          <>
            <Panel title={`${plan.series.name}: ${questionWords[plan.series.question]}`}>
              <WaterPictures text={text} plan={plan} />
              <WhatTheseAre />
            </Panel>
            <FoldingPanel name="series order" title="Order of pulls" open={true}>
              <OrderTable plan={plan} />
            </FoldingPanel>
            <FoldingPanel name="series power" title="How many pulls" open={false}>
              <PowerPanel series={plan.series} text={text} />
            </FoldingPanel>
          </>
        )}
      </div>
    </div>
  );
}

/** The series by its fields and as a text, with files in and out. */
function Written({
  text,
  name,
  onSheet,
}: {
  readonly text: string;
  readonly name: string;
  readonly onSheet: (() => Promise<void>) | null;
}) {
  const pick = useRef<HTMLInputElement>(null);
  const put = (next: string, label: string, stroke?: string) =>
    seriesStore.set({ text: next }, { label, ...(stroke === undefined ? {} : { stroke }) });
  return (
    <Panel title="Plan a series">
      {text === usualSeries.text && (
        <p className={styles.invented}>
          <strong>An invented series as an example</strong>: write over it, or open your own.
        </p>
      )}
      <Form text={text} put={put} />
      <FoldingPanel name="series text" title="The same as a text" open={false}>
        <label className="unseen" htmlFor="series-text">
          Series file
        </label>
        <textarea
          id="series-text"
          className={styles.text}
          spellCheck={false}
          value={text}
          rows={24}
          onChange={(event) => put(event.target.value, "series", "series text")}
        />
      </FoldingPanel>
      <FilePick
        pick={pick}
        label="A series file"
        onPick={(file) => void file.text().then((read) => put(read, file.name))}
      />
      <div className={styles.buttons}>
        <Button onClick={() => pick.current?.click()}>Open a series file</Button>
        <Button onClick={() => saveYaml(text, name, "series")}>Save as a file</Button>
        <Button look="strong" disabled={onSheet === null} onClick={() => void onSheet?.()}>
          Save the field sheet
        </Button>
      </div>
    </Panel>
  );
}
