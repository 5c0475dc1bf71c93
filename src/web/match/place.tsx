import { useEffect } from "react";
import { announce } from "../controls/announce.ts";
import { Panel } from "../controls/panel.tsx";
import { Reading } from "../controls/reading.tsx";
import { useAddress } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { matchCodec } from "./address.ts";
import { BothDrawn } from "./both-drawn.tsx";
import { Bring } from "./bring.tsx";
import { comparison, useAnswer, useUncertainty } from "./comparison.ts";
import { MapPanel } from "./map-panel.tsx";
import styles from "./place.module.css";
import { Setup } from "./setup.tsx";
import { SlideField } from "./slide-field.tsx";
import { matchStore } from "./store.ts";
import { WhatTheseAre } from "./what-these-are.tsx";

/** Two setups under one load, moved until their anchors feel the same. */
export function Place() {
  useAddress(matchStore, matchCodec);
  useUndoable(matchStore);
  const state = useStore(matchStore);
  const { system } = useUnits();
  const answers = { one: useAnswer(state, "one"), other: useAnswer(state, "other") };
  const u = { one: useUncertainty(state, "one"), other: useUncertainty(state, "other") };
  const { apart, words, same } = comparison(state, answers, u, system);
  useEffect(() => announce(words), [words]);

  return (
    <div className={styles.place}>
      <h1>Match</h1>
      <Panel title="Under one load">
        <SlideField
          field="load"
          label="Load at both bows"
          dimension="force"
          value={state.load}
          least={50}
          most={30_000}
          onChange={(load, stroke) => matchStore.set((before) => ({ ...before, load }), { label: "load", stroke })}
        />
        {apart !== null && (
          <dl className={styles.hero}>
            <Reading
              name="between the two, angle to the bottom at the anchor"
              dimension="angle"
              value={Math.abs(apart.value)}
              u={apart.u}
              digits={2}
              big
            />
          </dl>
        )}
        <p className={styles.said} data-same={same || undefined}>
          {words}
        </p>
        <WhatTheseAre state={state} u={u} />
        <BothDrawn state={state} answers={answers} />
        <div className={styles.buttons}>
          <Bring side="other" state={state} />
          <Bring side="one" state={state} />
        </div>
      </Panel>
      <div className={styles.sides}>
        <Setup side="one" state={state} answer={answers.one} uncertainty={u.one} />
        <Setup side="other" state={state} answer={answers.other} uncertainty={u.other} />
      </div>
      <MapPanel state={state} />
      <p className={styles.quiet}>
        Equal angle and equal load are what the anchor feels of the rode; seabed, yaw and surge remain. Loaded gear
        hurts people: keep below the working load limits, and put makers' limits, local rules and licensed practice
        first.
      </p>
    </div>
  );
}
