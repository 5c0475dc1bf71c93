import { type RefObject, useMemo } from "react";
import { Choice } from "../controls/choice.tsx";
import { FaultNote } from "../controls/fault-note.tsx";
import { Panel } from "../controls/panel.tsx";
import { useSize } from "../controls/use-size.ts";
import { DrawnFigure } from "../figure/drawn-figure.tsx";
import type { ShownFigure } from "../figure/shown-figure.ts";
import { useUnits } from "../state/preferences.ts";
import { type Question, useNewest } from "../work/worker.ts";
import styles from "./place.module.css";
import type { MatchState } from "./state.ts";
import { matchStore } from "./store.ts";

/** Where over depth both anchors feel the same. */
export function MapPanel({ state }: { readonly state: MatchState }) {
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawnAt = Math.round(width / 20) * 20;
  const ask = useMemo(
    () =>
      drawnAt === 0
        ? null
        : (((work) =>
            work.matchMap({
              kind: state.map,
              one: state.one,
              other: state.other,
              paid: state.paid,
              load: state.load,
              units: system,
              width: drawnAt,
            })) satisfies Question<ShownFigure>),
    [state, system, drawnAt],
  );
  const map = useNewest(ask);
  const figure = map.answer;
  return (
    <Panel
      title="Over depth"
      beside={
        <Choice
          label="Map over depth and"
          labelUnseen
          value={state.map}
          options={[
            { value: "load", label: "depth and load" },
            { value: "scope", label: "depth and scope" },
          ]}
          onChange={(map) => matchStore.set((before) => ({ ...before, map }), { label: "map" })}
        />
      }
    >
      <div ref={ref as RefObject<HTMLDivElement>} className={styles.drawing}>
        <FaultNote of={map} what="the map" />
        {figure !== null && <DrawnFigure kind="map" figure={figure} />}
      </div>
      <p className={styles.quiet}>
        {state.map === "load"
          ? "Each line joins depths and loads at which a setup pulls its anchor at one angle: solid for A, dashed for B. Read across at one load: on two lines of one angle both anchors feel the same, and where they cross, in the same depth too. Square and ring are A and B as they stand."
          : "At every depth, the scope at which each setup pulls its anchor at the angle A has now. Square and ring are A and B as they stand."}
      </p>
    </Panel>
  );
}
