import { Link } from "@tanstack/react-router";
import { useEffect, useMemo } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import { type Boat, worthInWind } from "../../sea/index.ts";
import { rigDesk } from "../rig/desk.ts";
import { drawnOf } from "../rig/scene.ts";
import { announce } from "../show/announce.ts";
import { Button } from "../show/button.tsx";
import { Choice } from "../show/choice.tsx";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { useAddress } from "../state/address.ts";
import { useUnits } from "../state/preferences.ts";
import { useUndoable } from "../state/undoable.ts";
import { useStore } from "../state/use-store.ts";
import { inWorker, useNewest } from "../work/worker.ts";
import { weatherCodec } from "./address.ts";
import { AroundForm } from "./around-form.tsx";
import { BoatPanel } from "./boat-panel.tsx";
import { change, type Road, roadOf, roadsOf, type WeatherState, weatherDesk } from "./desk.ts";
import type { FadeShown } from "./fade.ts";
import { GivePanel } from "./give-panel.tsx";
import type { GiveOverWind } from "./give-work.ts";
import { LoadChart, type LoadCurves, tablesOf, useLoadCurves } from "./load-chart.tsx";
import { conditionsOf, depthOf, loadsAt, pullAlong, type RoadLoad, roadName, surgeOf, worthAlong } from "./loads.ts";
import { Numbers } from "./numbers.tsx";
import styles from "./place.module.css";
import { type RodeAt, RodeView } from "./rode-view.tsx";
import { TablesNote } from "./tables-note.tsx";
import { useWindShown } from "./under-pointer.ts";
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
      <UnderPointer state={state} conditions={conditions} curves={curves} road={road} give={give} fade={fade} />
      <div className={styles.pair}>
        <AroundForm around={around} windU={state.windU} most={most} depth={depthOf(state)} surge={surge} />
        {road !== null && <Worth boat={boat} load={state.load} loadU={state.loadU} conditions={conditions} />}
      </div>
      <BoatPanel boat={boat} />
    </div>
  );
}

type Conditions = ReturnType<typeof conditionsOf>;

/** All that follows the pointer. */
function UnderPointer({
  state,
  conditions,
  curves,
  road,
  give,
  fade,
}: {
  readonly state: WeatherState;
  readonly conditions: Conditions;
  readonly curves: LoadCurves;
  readonly road: Road | null;
  readonly give: GiveOverWind | null;
  readonly fade: FadeShown | null;
}) {
  const { boat, rig, wind: kept, windU, most } = state;
  const { system, unitOf } = useUnits();
  const unit = unitOf("wind", "speed", "kn");
  const wind = useWindShown(kept);
  const now = useMemo(
    () => loadsAt(boat, road, conditions, { value: wind, u: windU }),
    [boat, road, conditions, wind, windU],
  );
  const [mean, peak] = useMemo(() => {
    const lies = (load: RoadLoad | null): RodeAt | null =>
      load === null || road === null || !(load.value > 0)
        ? null
        : { load, answer: drawnOf(rig, pullAlong(road, load.value)) };
    return [lies(now.mean), lies(now.peak)];
  }, [now, rig, road]);
  useEffect(() => {
    if (now.mean === null) return;
    const load = (one: RoadLoad) =>
      formatQuantity(one.value, "force", { system, unit: unitOf("load", "force"), u: one.u });
    announce(
      `Mean wind ${formatQuantity(wind, "speed", { unit, digits: 3 })}: mean load ${load(now.mean)}${now.peak === null ? "" : `, peak ${load(now.peak)}`}.`,
    );
  }, [now, wind, unit, system, unitOf]);
  const roads = roadsOf(boat);
  return (
    <div className={styles.top}>
      <div className={styles.left}>
        <Panel
          title={`${boat.name} in the wind`}
          beside={
            roads.length > 1 && road !== null ? (
              <Choice
                label="Rode loaded by"
                value={road}
                options={roads.map((value) => ({ value, label: roadName[value] }))}
                onChange={(next) => change({ road: next }, "road of the load")}
              />
            ) : undefined
          }
        >
          {road === null ? (
            <p className={styles.said}>
              Neither windage nor measured points are stated: below, in Boat, put in one of them.
            </p>
          ) : (
            <>
              <LoadChart curves={curves} boat={boat} most={most} road={road} now={now} kept={kept} fade={fade} />
              <TablesNote tables={tablesOf(curves)} boat={boat.name} />
            </>
          )}
        </Panel>
        {road !== null && (
          <GivePanel
            rig={rig}
            winds={curves.winds}
            found={give}
            fade={fade}
            give={state.give}
            most={most}
            shown={wind}
            kept={kept}
            loadName={
              road === "windage" ? "horizontal load" : road === "horizontal" ? "horizontal load" : `load at the ${road}`
            }
          />
        )}
      </div>
      <Panel
        title={rig.name}
        beside={
          <span className={styles.buttons}>
            <Link
              to="/rig"
              onClick={() => {
                if (rigDesk.get().rig !== rig)
                  rigDesk.set((before) => ({ ...before, rig }), { label: `rig ${rig.name}` });
              }}
            >
              Change in Rig
            </Link>
            {rig.setting.medium === "water" && Math.abs(rig.setting.rollerHeight - boat.bowRollerHeight) > 1e-6 && (
              <Button
                onClick={() =>
                  rig.setting.medium === "water" &&
                  change(
                    { rig: { ...rig, setting: { ...rig.setting, rollerHeight: boat.bowRollerHeight } } },
                    "roller of the boat",
                  )
                }
              >
                Take the boat's roller
              </Button>
            )}
          </span>
        }
      >
        <div className={styles.windNow}>
          <QuantityField
            field="wind"
            usualUnit="kn"
            label="Mean wind at 10 m"
            dimension="speed"
            value={wind}
            digits={3}
            range={{ above: 0, most, expected: "a wind above zero, within the axis, is expected" }}
            onChange={(value) => change({ wind: value }, "wind", "wind typed")}
          />
          <p className={styles.beaufort}>
            <strong>Beaufort {now.weather.beaufort.force}</strong>
            {now.weather.beaufort.name}
          </p>
        </div>
        <RodeView rig={rig} mean={mean} peak={peak} />
        <Numbers now={now} mean={mean} peak={peak} />
        <p className={styles.quiet}>
          Estimates for planning, never a promise that a boat stays put. Check working load limits; makers' limits,
          local rules and licensed practice come first; keep people clear of loaded gear.
        </p>
      </Panel>
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
