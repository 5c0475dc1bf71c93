import { type RefObject, useMemo } from "react";
import { Choice } from "../show/choice.tsx";
import { Panel } from "../show/panel.tsx";
import { useSize } from "../show/use-size.ts";
import { useUnits } from "../state/preferences.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import { type MatchState, matchDesk } from "./desk.ts";
import styles from "./place.module.css";

/** Where over depth both anchors feel the same. */
export function MapPanel({ state }: { readonly state: MatchState }) {
  const { system } = useUnits();
  const [ref, { width }] = useSize<HTMLDivElement>();
  const drawnAt = Math.round(width / 20) * 20;
  const ask = useMemo(
    () =>
      drawnAt === 0
        ? null
        : () =>
            inWorker().matchMap({
              kind: state.map,
              one: state.one,
              other: state.other,
              paid: state.paid,
              load: state.load,
              units: system,
              width: drawnAt,
            }),
    [state, system, drawnAt],
  );
  const svg = useNewest(ask);
  return (
    <Panel
      title="Over depth"
      beside={
        <Choice
          label="map over depth and"
          labelUnseen
          value={state.map}
          options={[
            { value: "load", label: "depth and load" },
            { value: "scope", label: "depth and scope" },
          ]}
          onChange={(map) => matchDesk.set((before) => ({ ...before, map }), { label: "map" })}
        />
      }
    >
      <div ref={ref as RefObject<HTMLDivElement>} className={styles.drawing}>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by src/figure, which escapes every text */}
        {svg !== null && <div dangerouslySetInnerHTML={{ __html: svg }} />}
      </div>
      <p className={styles.quiet}>
        {state.map === "load"
          ? "Each line joins depths and loads at which a setup pulls its anchor at one angle: solid the first, dashed the second. Read across at one load: on two lines of one angle both anchors feel the same, and where they cross, in the same depth too. Ring and square are the two as they stand."
          : "At every depth, the scope at which each setup pulls its anchor at the angle the first has now. Ring and square are the two as they stand."}
      </p>
    </Panel>
  );
}
