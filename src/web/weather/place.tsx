import { useMemo } from "react";
import { type Boat, type Conditions, windsForLoad } from "../../sea/index.ts";
import { FaultNote } from "../controls/fault-note.tsx";
import { useAddress } from "../state/address.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { type Outcome, type Question, useNewest } from "../work/worker.ts";
import { weatherCodec } from "./address.ts";
import { BoatPanel } from "./boat/boat-panel.tsx";
import { InventedNote } from "./boat/invented-note.tsx";
import type { ComplianceOverWind } from "./compliance/compliance-over-wind.ts";
import { conditionsOf, depthOf, surgeOf, windForLoadAlong } from "./loads.ts";
import styles from "./place.module.css";
import { rigInScene } from "./scene.ts";
import { type Road, roadOf, type WeatherState } from "./state.ts";
import { weatherStore } from "./store.ts";
import { useBenchRig } from "./use-bench-rig.ts";
import type { CatenaryEndShown } from "./wind/catenary-end.ts";
import { InTheWind } from "./wind/in-the-wind.tsx";
import { type LoadCurves, useLoadCurves } from "./wind/load-curves.ts";
import { AroundForm } from "./wind/surroundings-form.tsx";
import { WindOfLoad } from "./wind/wind-of-load.tsx";

/** A boat in a wind and the rode she lies to: load, give, and what must take over where catenary ends. */
export function Place() {
  useAddress(weatherStore, weatherCodec);
  useUndoable(weatherStore);
  useBenchRig();
  const kept = useStore(weatherStore);
  const { boat, around, most } = kept;
  const rig = useMemo(() => rigInScene(kept.rig, boat, around), [kept.rig, boat, around]);
  const state = useMemo(() => ({ ...kept, rig }), [kept, rig]);
  const conditions = useMemo(() => conditionsOf({ around, boat, rig }), [around, boat, rig]);
  const surge = useMemo(() => surgeOf({ around, boat, rig }), [around, boat, rig]);
  const curves = useLoadCurves(boat, conditions, most);
  const road = roadOf(state);
  const gives = useGive(state, curves, road);
  const give = gives.answer;
  const fade = useCatenaryEnd(boat, conditions, road, give);
  return (
    <div className={styles.place}>
      <h1 className="unseen">Weather</h1>
      <InventedNote boat={boat} />
      <FaultNote of={gives} what="what the rode gives in these winds" />
      <InTheWind state={state} conditions={conditions} curves={curves} road={road} give={give} fade={fade} sea={surge}>
        <div id="boat">
          <BoatPanel boat={boat} />
        </div>
        <div className={styles.pair}>
          <AroundForm around={around} windU={state.windU} most={most} depth={depthOf(state)} surge={surge} />
          {road !== null && <WindOfLoad boat={boat} load={state.load} loadU={state.loadU} conditions={conditions} />}
        </div>
      </InTheWind>
    </div>
  );
}

/** Give over the winds of the axis, from the worker. */
function useGive({ rig, give }: WeatherState, curves: LoadCurves, road: Road | null): Outcome<ComplianceOverWind> {
  const ask = useMemo(() => {
    if (road === null) return null;
    const loads = curves.curve.rows.map((row) =>
      road === "windage" ? row.windage!.value : row.measured.find(({ at }) => at === road)!.mean.value,
    );
    return ((work): Promise<ComplianceOverWind> =>
      work.complianceOverWind({ rig, road, loads, give })) satisfies Question<ComplianceOverWind>;
  }, [rig, give, curves, road]);
  return useNewest(ask);
}

/** The wind at which the mean load is the one past which catenary gives too little; its ± holds those of load and law. */
function useCatenaryEnd(
  boat: Boat,
  conditions: Conditions,
  road: Road | null,
  found: ComplianceOverWind | null,
): CatenaryEndShown | null {
  return useMemo(() => {
    if (road === null || found === null || found.load === null) return null;
    const wind = windForLoadAlong(windsForLoad(boat, { value: found.load, u: found.u }, conditions), road);
    return wind === null ? null : { wind: wind.value, u: wind.u };
  }, [boat, conditions, road, found]);
}
