import { type ReactNode, useDeferredValue, useEffect, useMemo } from "react";
import { type Rig, type Settled, settle } from "../../../rode/index.ts";
import {
  type Conditions,
  designLoadsFor,
  designLoadTables,
  roadsBeside,
  type Surge,
  tablesBeside,
} from "../../../sea/index.ts";
import { roadsSentence, tablesSentence } from "../../../words/index.ts";
import { announce } from "../../controls/announce.ts";
import { Choice } from "../../controls/choice.tsx";
import { formatQuantity } from "../../controls/numbers.ts";
import { Panel } from "../../controls/panel.tsx";
import { PlaceLink } from "../../controls/place-link.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import { useWide } from "../../controls/use-media.ts";
import { drawnOf } from "../../rig/scene.ts";
import { rigStore } from "../../rig/store.ts";
import { useUnits } from "../../state/preferences.ts";
import type { ComplianceOverWind } from "../compliance/compliance-over-wind.ts";
import { CompliancePanel } from "../compliance/compliance-panel.tsx";
import { loadsAt, loadsOver, pullAlong, type RoadLoad, roadName } from "../loads.ts";
import styles from "../place.module.css";
import { Shock } from "../snubber/shock.tsx";
import { type Road, roadsOf, type WeatherState } from "../state.ts";
import { change } from "../store.ts";
import type { CatenaryEndShown } from "./catenary-end.ts";
import { LoadChart } from "./load-chart.tsx";
import { type LoadCurves, tablesOf } from "./load-curves.ts";
import { Numbers } from "./numbers.tsx";
import { type RodeAt, RodeView } from "./rode-view.tsx";
import { TablesNote } from "./tables-note.tsx";
import { useWindShown } from "./under-pointer.ts";
import { WhatTheseAre } from "./what-these-are.tsx";
import { WindBar } from "./wind-bar.tsx";

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
  children,
}: {
  readonly state: WeatherState;
  readonly conditions: Conditions;
  readonly curves: LoadCurves;
  readonly road: Road | null;
  readonly give: ComplianceOverWind | null;
  readonly fade: CatenaryEndShown | null;
  readonly sea: Surge | null;
  /** What the answers rest on: stands between them and what follows from them. */
  readonly children: ReactNode;
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
  const beside = useMemo(() => {
    const { measured, wind: at } = calm.weather;
    const shown = { system, force: unitOf("load", "force"), speed: unit };
    const table = tablesBeside(measured, designLoadsFor(boat, designLoadTables), at.value);
    return [
      ...roadsBeside(calm.weather).map((one) => roadsSentence(one, shown)),
      ...(table === undefined ? [] : [tablesSentence(table, shown)]),
    ];
  }, [calm, boat, system, unit, unitOf]);
  const over = useMemo(() => loadsOver(boat, road, conditions, most), [boat, road, conditions, most]);
  const roads = roadsOf(boat);
  return (
    <>
      {road !== null && <WindBar now={now} kept={kept} most={most} />}
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
              {beside.map((sentence) => (
                <p key={sentence} className={styles.quiet}>
                  {sentence}
                </p>
              ))}
            </>
          )}
        </Panel>
        <Panel
          title={rig.name}
          beside={
            <span className={styles.buttons}>
              <PlaceLink
                to="/rig"
                onClick={() => {
                  if (rigStore.get().rig !== rig)
                    rigStore.set((before) => ({ ...before, rig }), { label: `rig ${rig.name}` });
                }}
              >
                Change in Rig
              </PlaceLink>
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
          <WhatTheseAre now={now} />
          <p className={styles.quiet}>
            Estimates for planning, never a promise that a boat stays put. Check working load limits; makers' limits,
            local rules and licensed practice come first; keep people clear of loaded gear.
          </p>
        </Panel>
        {road !== null && (
          <CompliancePanel
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
      {children}
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
