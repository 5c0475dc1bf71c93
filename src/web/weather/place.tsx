import { useMemo } from "react";
import { type Boat, type Conditions, worthInWind } from "../../sea/index.ts";
import { useAddress } from "../state/address.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import { weatherCodec } from "./address.ts";
import { AroundForm } from "./around-form.tsx";
import { BoatPanel } from "./boat-panel.tsx";
import { type Road, roadOf, type WeatherState, weatherDesk } from "./desk.ts";
import type { FadeShown } from "./fade.ts";
import type { GiveOverWind } from "./give-work.ts";
import { InTheWind } from "./in-the-wind.tsx";
import { type LoadCurves, useLoadCurves } from "./load-curves.ts";
import { conditionsOf, depthOf, surgeOf, worthAlong } from "./loads.ts";
import styles from "./place.module.css";
import { useBenchRig } from "./use-bench-rig.ts";
import { Worth } from "./worth.tsx";

/** A boat in a wind and the rode she lies to: load, give, and what must take over where catenary ends. */
export function Place() {
  useAddress(weatherDesk, weatherCodec);
  useUndoable(weatherDesk);
  useBenchRig();
  const state = useStore(weatherDesk);
  const { boat, rig, around, most } = state;
  const conditions = useMemo(() => conditionsOf({ around, boat, rig }), [around, boat, rig]);
  const surge = useMemo(() => surgeOf({ around, boat, rig }), [around, boat, rig]);
  const curves = useLoadCurves(boat, conditions, most);
  const road = roadOf(state);
  const give = useGive(state, curves, road);
  const fade = useFade(boat, conditions, road, give);
  return (
    <div className={styles.place}>
      <h1 className="unseen">Weather</h1>
      <InTheWind
        state={state}
        conditions={conditions}
        curves={curves}
        road={road}
        give={give}
        fade={fade}
        sea={surge}
      />
      <div className={styles.pair}>
        <AroundForm around={around} windU={state.windU} most={most} depth={depthOf(state)} surge={surge} />
        {road !== null && <Worth boat={boat} load={state.load} loadU={state.loadU} conditions={conditions} />}
      </div>
      <BoatPanel boat={boat} />
    </div>
  );
}

/** Give over the winds of the axis, from the worker. */
function useGive({ rig, give }: WeatherState, curves: LoadCurves, road: Road | null): GiveOverWind | null {
  const ask = useMemo(() => {
    if (road === null) return null;
    const loads = curves.curve.rows.map((row) =>
      road === "windage" ? row.windage!.value : row.measured.find(({ at }) => at === road)!.mean.value,
    );
    return () => inWorker().giveOverWind({ rig, road, loads, give });
  }, [rig, give, curves, road]);
  return useNewest(ask);
}

/** The wind at which the mean load is the one past which catenary gives too little; its ± holds those of load and law. */
function useFade(boat: Boat, conditions: Conditions, road: Road | null, found: GiveOverWind | null): FadeShown | null {
  return useMemo(() => {
    if (road === null || found === null || found.load === null) return null;
    const wind = worthAlong(worthInWind(boat, { value: found.load, u: found.u }, conditions), road);
    return wind === null ? null : { wind: wind.value, u: wind.u };
  }, [boat, conditions, road, found]);
}
