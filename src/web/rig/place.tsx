import type { Remote } from "comlink";
import { useMemo } from "react";
import type { Certainty } from "../../rode/index.ts";
import { Panel } from "../show/panel.tsx";
import { useAddress } from "../state/address.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import type { BenchWork } from "../work/bench-worker.ts";
import { usePatient } from "../work/patient.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import { rigCodec } from "./address.ts";
import { Answers } from "./answers.tsx";
import { isQuick } from "./curve-points.ts";
import { Curves } from "./curves.tsx";
import { pullOf, type RigState, rigDesk } from "./desk.ts";
import { Drawing } from "./drawing.tsx";
import { FileDesk } from "./file-desk.tsx";
import { OverSwitch } from "./over-switch.tsx";
import { PartsList } from "./parts-list.tsx";
import styles from "./place.module.css";
import { PullControl } from "./pull-control.tsx";
import { useScene } from "./scene.ts";
import { SettingForm } from "./setting-form.tsx";

/** The place Rig: a rode from the seabed to the boat, taken hold of, with its numbers, its curves and its parts. */
export function Place() {
  useAddress(rigDesk, rigCodec);
  useUndoable(rigDesk);
  const state = useStore(rigDesk);
  const scene = useScene(state);
  const { sure, waiting } = useCertainty(state);
  const { drawn, none, over } = scene;
  return (
    <div className={styles.place}>
      <h1 className="unseen">Rig</h1>
      <FileDesk>
        <Drawing state={state} scene={scene} sure={sure} />
      </FileDesk>
      <div className={styles.beside}>
        <Panel title="At this pull">
          <PullControl state={state} />
          <Answers drawn={drawn} none={none} over={over} sure={sure} waiting={waiting} />
          <p className={styles.caution}>
            Estimates of a rode at rest, no promise that an anchor holds. Before you load gear: makers' limits, local
            rules, and people clear of the line.
          </p>
        </Panel>
        <Panel title="Over the load">
          <Curves state={state} scene={scene} sure={sure} />
          <OverSwitch state={state} />
        </Panel>
      </div>
      <PartsList rode={state.rig.rode} loads={none === null ? (drawn?.loads ?? null) : null} />
      <Panel title="Setting">
        <SettingForm rig={state.rig} />
      </Panel>
    </div>
  );
}

/** The ± of the moment: from the worker, a few frames behind the hand; of a rode that settles slowly, once it rests. */
function useCertainty(state: RigState): { readonly sure: Certainty | null; readonly waiting: boolean } {
  const { massPerLength = 0, rise = 0 } = state.rig.uncertainty;
  const unsure = massPerLength > 0 || rise > 0;
  const quick = isQuick(state.rig);
  const ask = useMemo(
    () => (unsure && quick ? () => inWorker().certainty(state.rig, pullOf(state)) : null),
    [state, unsure, quick],
  );
  const slowly = useMemo(
    () => (unsure && !quick ? (work: Remote<BenchWork>) => work.certainty(state.rig, pullOf(state)) : null),
    [state, unsure, quick],
  );
  const atOnce = useNewest(ask);
  const patient = usePatient(slowly);
  return { sure: quick ? atOnce : patient.answer, waiting: patient.waiting };
}
