import { Link } from "@tanstack/react-router";
import { useDeferredValue, useEffect, useMemo } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import { type Rig, type Settled, settle } from "../../rode/index.ts";
import type { Conditions, Surge } from "../../sea/index.ts";
import { rigDesk } from "../rig/desk.ts";
import { drawnOf } from "../rig/scene.ts";
import { announce } from "../show/announce.ts";
import { Button } from "../show/button.tsx";
import { Choice } from "../show/choice.tsx";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { useUnits } from "../state/preferences.ts";
import { change, type Road, roadsOf, type WeatherState } from "./desk.ts";
import type { FadeShown } from "./fade.ts";
import { GivePanel } from "./give-panel.tsx";
import type { GiveOverWind } from "./give-work.ts";
import { LoadChart } from "./load-chart.tsx";
import { type LoadCurves, tablesOf } from "./load-curves.ts";
import { loadsAt, loadsOver, pullAlong, type RoadLoad, roadName } from "./loads.ts";
import { Numbers } from "./numbers.tsx";
import styles from "./place.module.css";
import { type RodeAt, RodeView } from "./rode-view.tsx";
import { Shock } from "./shock.tsx";
import { TablesNote } from "./tables-note.tsx";
import { useWindShown } from "./under-pointer.ts";
import { useWide } from "./use-wide.ts";

function settledAt(rig: Rig, road: Road, load: number): Settled | null {
  const answer = load > 0 ? settle(rig, pullAlong(road, load)) : null;
  return answer?.kind === "settled" ? answer : null;
}

/** All that follows the pointer. */
export function InTheWind({
  state,
  conditions,
  curves,
  road,
  give,
  fade,
  sea,
}: {
  readonly state: WeatherState;
  readonly conditions: Conditions;
  readonly curves: LoadCurves;
  readonly road: Road | null;
  readonly give: GiveOverWind | null;
  readonly fade: FadeShown | null;
  readonly sea: Surge | null;
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
        : {
            load,
            answer: drawnOf(rig, pullAlong(road, load.value)),
            ends: [settledAt(rig, road, load.low), settledAt(rig, road, load.high)],
          };
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
  const wide = useWide();
  const drawing = <RodeView rig={rig} mean={mean} peak={peak} />;
  const tables = useMemo(() => tablesOf(curves), [curves]);
  // What the worker answers may lag: the drawing must not wait for it.
  const calm = useDeferredValue(now);
  const over = useMemo(() => loadsOver(boat, road, conditions, most), [boat, road, conditions, most]);
  const roads = roadsOf(boat);
  return (
    <>
      <div className={styles.top}>
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
              <LoadChart curves={curves} boat={boat} most={most} road={road} now={now} kept={kept} fade={fade}>
                {/* On a phone the rode must be in view while the wind is slid. */}
                {!wide && drawing}
              </LoadChart>
              <TablesNote tables={tables} boat={boat.name} />
            </>
          )}
        </Panel>
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
          {wide && drawing}
          <Numbers now={now} mean={mean} peak={peak} />
          <p className={styles.quiet}>
            Estimates for planning, never a promise that a boat stays put. Check working load limits; makers' limits,
            local rules and licensed practice come first; keep people clear of loaded gear.
          </p>
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
      {calm.mean !== null && road !== null && (
        <Shock
          state={state}
          road={road}
          load={calm.mean}
          peak={calm.peak}
          over={over}
          wind={calm.weather.wind.value}
          sea={sea}
        />
      )}
    </>
  );
}
