import { type RefObject, useEffect, useMemo } from "react";
import { judgementWords } from "../../words/index.ts";
import { announce } from "../controls/announce.ts";
import { FaultNote } from "../controls/fault-note.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { useSize } from "../controls/use-size.ts";
import { useAddress } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { type Question, useNewest } from "../work/worker.ts";
import { readingsCodec } from "./address.ts";
import { Answers } from "./answers.tsx";
import { FilesBar } from "./files-bar.tsx";
import { HowRead } from "./how-read.tsx";
import type { Outcome } from "./judge-run.ts";
import styles from "./place.module.css";
import { RigSummary } from "./rig-summary.tsx";
import { readingsStore, runOf, wholeRows } from "./state.ts";
import { Tables } from "./tables.tsx";

/** Readings of a rig: entered or pasted, against theory as they grow. */
export function Place() {
  useAddress(readingsStore, readingsCodec);
  useUndoable(readingsStore);
  const state = useStore(readingsStore);
  const { system, unitOf } = useUnits();
  const [figures, { width }] = useSize<HTMLDivElement>();
  const run = useMemo(() => runOf(state), [state]);
  const drawnAt = Math.max(280, Math.floor((width - FRAME) / 20) * 20);
  const ask = useMemo(
    () =>
      run === null
        ? null
        : (((work): Promise<Outcome> => work.judged(run, state.rig, system, drawnAt)) satisfies Question<Outcome>),
    [run, state.rig, system, drawnAt],
  );
  const judged = useNewest(ask);
  const outcome = judged.answer;
  const refusal = outcome?.kind !== "refused" ? null : refusalOf(outcome);

  function refusalOf({ row, why }: Extract<Outcome, { kind: "refused" }>): string {
    const at = (wholeRows(state)[row.list][row.row] ?? row.row) + 1;
    const load = formatQuantity(row.load, "force", { system, unit: unitOf("readings load", "force"), digits: 4 });
    return `Row ${at} of ${row.list === "readings" ? "angle over load" : "movement on release"}, ${load}: ${why}.`;
  }

  useEffect(() => {
    if (outcome === null) return;
    if (outcome.kind === "refused") return;
    const outliers = [...outcome.reduced.readings, ...outcome.reduced.release].filter((row) => row.outlier).length;
    announce(
      `${outcome.judgements.slice(0, 1).map(judgementWords).join("")}; ${outliers === 0 ? "no outlier" : outliers === 1 ? "1 outlier" : `${outliers} outliers`}`,
    );
  }, [outcome]);

  return (
    <div className={styles.place}>
      <header className={styles.top}>
        <h1>Readings</h1>
        <FilesBar state={state} />
      </header>
      <div className={styles.columns}>
        <div className={styles.entry}>
          <RigSummary
            state={state}
            onRig={(rig) => readingsStore.set((before) => ({ ...before, rig }), { label: "rig" })}
          />
          <HowRead />
          <Tables outcome={outcome} />
        </div>
        <div className={styles.answers} ref={figures as RefObject<HTMLDivElement>}>
          <FaultNote of={judged} what="theory" />
          <Answers outcome={outcome} refusal={refusal} />
        </div>
      </div>
    </div>
  );
}

/** Padding and edges of a figure, px. */
const FRAME = 26;
