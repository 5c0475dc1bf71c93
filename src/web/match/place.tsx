import { useEffect, useState } from "react";
import { match, sayWhy } from "../../rode/index.ts";
import { announce } from "../show/announce.ts";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { useAddress } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { matchCodec } from "./address.ts";
import { comparison, useAnswer } from "./comparison.ts";
import { matchDesk, paidOut, type Side } from "./desk.ts";
import { MapPanel } from "./map-panel.tsx";
import styles from "./place.module.css";
import { Setup } from "./setup.tsx";
import { SlideField } from "./slide-field.tsx";

/** Two setups under one load, moved until their anchors feel the same. */
export function Place() {
  useAddress(matchDesk, matchCodec);
  useUndoable(matchDesk);
  const state = useStore(matchDesk);
  const { system } = useUnits();
  const answers = { one: useAnswer(state, "one"), other: useAnswer(state, "other") };
  const said = comparison(state, answers, system);
  useEffect(() => announce(said.words), [said.words]);
  const [refused, setRefused] = useState<string | null>(null);

  const bring = (side: Side): void => {
    const [from, to] = side === "other" ? [state.one, state.other] : [state.other, state.one];
    const found = match(from, to, { at: "bow", newtons: state.load }, paidOut(state, side).part);
    if (found.kind === "noEquilibrium") {
      const { why, nearest } = sayWhy(found.cause, found.given, found.limit, system);
      setRefused(`${to.name} cannot be matched to ${from.name}: ${why}; ${nearest}`);
      return;
    }
    setRefused(null);
    matchDesk.set((before) => ({ ...before, [side]: found.otherRig }), { label: `${to.name} matched to ${from.name}` });
  };

  return (
    <div className={styles.place}>
      <h1>Match</h1>
      <Panel title="Under one load">
        <SlideField
          field="load"
          label="load at both bows"
          dimension="force"
          value={state.load}
          least={50}
          most={30_000}
          onChange={(load, stroke) => matchDesk.set((before) => ({ ...before, load }), { label: "load", stroke })}
        />
        <p className={styles.said} data-same={said.same || undefined}>
          {said.words}
        </p>
        <div className={styles.buttons}>
          <Button look="strong" onClick={() => bring("other")}>
            Pay out {state.other.name} until it feels like {state.one.name}
          </Button>
          <Button onClick={() => bring("one")}>
            Pay out {state.one.name} until it feels like {state.other.name}
          </Button>
        </div>
        {refused !== null && (
          <p className={styles.wrong} role="alert">
            {refused}
          </p>
        )}
      </Panel>
      <div className={styles.sides}>
        <Setup side="one" state={state} answer={answers.one} />
        <Setup side="other" state={state} answer={answers.other} />
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
