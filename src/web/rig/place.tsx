import { lazy, Suspense, useDeferredValue, useEffect, useMemo } from "react";
import { rigInputs, type SettledUncertainty } from "../../rode/index.ts";
import { FaultNote } from "../controls/fault-note.tsx";
import { Panel } from "../controls/panel.tsx";
import { useAddress } from "../state/address.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { type Outcome, type Question, useInterruptible, useNewest } from "../work/worker.ts";
import { rigCodec } from "./address.ts";
import { AnswerBar } from "./answer-bar.tsx";
import { Answers } from "./answers.tsx";
import { isQuick } from "./curve-points.ts";
import { Drawing } from "./drawing.tsx";
import { Example } from "./example.tsx";
import { OverSwitch } from "./over-switch.tsx";
import { PartsList } from "./parts-list.tsx";
import styles from "./place.module.css";
import { PullControl } from "./pull-control.tsx";
import { RigFiles } from "./rig-files.tsx";
import { useScene } from "./scene.ts";
import { SettingForm } from "./setting-form.tsx";
import { pullOf, type RigState } from "./state.ts";
import { rigStore } from "./store.ts";

// After the first answer: the numbers of the moment need none of it.
const Curves = lazy(async () => ({ default: (await import("./curves.tsx")).Curves }));

const WaysOn = lazy(async () => ({ default: (await import("./ways-on.tsx")).WaysOn }));

const WhatTheseAre = lazy(async () => ({ default: (await import("./what-these-are.tsx")).WhatTheseAre }));

/** Once the whole place was drawn it comes whole: nothing moves under whoever comes back to it. */
let drawnWhole = false;

/** The place Rig: a rode from the seabed to the boat, taken hold of, with its numbers, its curves and its parts. */
export function Place() {
  useAddress(rigStore, rigCodec);
  useUndoable(rigStore);
  const state = useStore(rigStore);
  const scene = useScene(state);
  const certainty = useUncertainty(state);
  const sure = certainty.answer?.firstOrder ?? null;
  const waiting = certainty.waiting && !isQuick(state.rig);
  const { drawn, none, over } = scene;
  const pull = useMemo(() => pullOf(state), [state]);
  // The answer first: on a slow processor the rest is drawn a moment later.
  const whole = useDeferredValue(true, drawnWhole);
  useEffect(() => {
    drawnWhole = whole;
  }, [whole]);
  const bar = <AnswerBar drawn={drawn} none={none} sure={sure} />;
  if (!whole)
    return (
      <div className={styles.place}>
        <h1 className="unseen">Rig</h1>
        {bar}
      </div>
    );
  return (
    <div className={styles.place}>
      <h1 className="unseen">Rig</h1>
      {bar}
      <RigFiles>
        <Drawing state={state} scene={scene} sure={sure} />
      </RigFiles>
      <Panel title="The rig" beside={<Example state={state} />}>
        <PullControl state={state} />
        <PartsList rode={state.rig.rode} loads={none === null ? (drawn?.loads ?? null) : null} />
      </Panel>
      <div className={styles.beside}>
        <Panel title="At this pull">
          <FaultNote of={certainty} what="the ±" />
          <Answers drawn={drawn} none={none} over={over} uncertainty={certainty.answer} waiting={waiting} />
          <Suspense>
            <WhatTheseAre rig={state.rig} pull={pull} />
          </Suspense>
          <p className={styles.caution}>
            Estimates of a rode at rest, no promise that an anchor holds. Before you load gear: makers' limits, local
            rules, and people clear of the line.
          </p>
          <Suspense>
            <WaysOn name={state.rig.name} />
          </Suspense>
        </Panel>
        <Panel title="Over the load">
          <Suspense fallback={<div className={styles.curvesToCome} />}>
            <Curves state={state} scene={scene} sure={sure} />
          </Suspense>
          <OverSwitch state={state} />
        </Panel>
      </div>
      <Panel title="Setting">
        <SettingForm rig={state.rig} />
      </Panel>
    </div>
  );
}

/** The ± of the moment: from the worker, a few frames behind the hand; of a rode that settles slowly, once it rests. */
function useUncertainty(state: RigState): Outcome<SettledUncertainty | null> {
  const unsure = rigInputs(state.rig).length > 0;
  const quick = isQuick(state.rig);
  const ask = useMemo(() => (unsure && quick ? asked(state) : null), [state, unsure, quick]);
  const slowly = useMemo(() => (unsure && !quick ? asked(state) : null), [state, unsure, quick]);
  const atOnce = useNewest(ask);
  const slow = useInterruptible(slowly);
  return quick ? atOnce : slow;
}

const asked =
  (state: RigState): Question<SettledUncertainty | null> =>
  (work) =>
    work.uncertainty(state.rig, pullOf(state));
