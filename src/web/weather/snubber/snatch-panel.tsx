import { useMemo } from "react";
import type { NoEquilibrium, Rig } from "../../../rode/index.ts";
import type { Boat, Surge as SeaSurge } from "../../../sea/index.ts";
import type { Snatch, SteadyLoad, Surge } from "../../../sizing/index.ts";
import { derivationWords, noEquilibriumLine } from "../../../words/index.ts";
import { Choice } from "../../controls/choice.tsx";
import { FaultNote } from "../../controls/fault-note.tsx";
import { formatQuantity, readableUnit } from "../../controls/numbers.ts";
import { FoldingPanel } from "../../controls/panel.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import { Reading } from "../../controls/reading.tsx";
import { useUnits } from "../../state/preferences.ts";
import { type Question, useNewest } from "../../work/worker.ts";
import styles from "../place.module.css";
import type { SurgeBy, WeatherState } from "../state.ts";
import { change } from "../store.ts";
import type { SnatchAnswer } from "./snubber-work.ts";
import { movingMass } from "./surge.ts";

/** What a surge makes of the mean load on the rode as it is, and which part gives. */
export function SnatchPanel({
  rig,
  boat,
  load,
  loadU,
  asked,
  surge,
  sea,
  windText,
}: {
  readonly rig: Rig;
  readonly boat: Boat;
  readonly load: SteadyLoad;
  readonly loadU: number;
  readonly asked: WeatherState["surge"];
  readonly surge: Surge | null;
  readonly sea: SeaSurge | null;
  readonly windText: string;
}) {
  const { system, unitOf } = useUnits();
  const { at, newtons } = load;
  const ask = useMemo(
    () =>
      surge === null
        ? null
        : (((work) =>
            work.snatchOn({
              rig,
              load: { at, newtons } as SteadyLoad,
              loadU,
              surge,
            })) satisfies Question<SnatchAnswer>),
    [rig, at, newtons, loadU, surge],
  );
  const outcome = useNewest(ask);
  const { answer } = outcome;
  const speed = (value: number) =>
    formatQuantity(value, "speed", { system, unit: unitOf("wind", "speed", "kn"), digits: 2 });
  const mass = movingMass(boat);
  const set = (part: Partial<WeatherState["surge"]>, label: string) =>
    change({ surge: { ...asked, ...part } }, label, `surge ${label}`);
  return (
    <FoldingPanel name="surge" title="When she surges">
      <div className={styles.asked}>
        <Choice<SurgeBy>
          label="The boat surges"
          value={asked.by}
          options={[
            { value: "speed", label: "at a speed" },
            { value: "distance", label: "over a distance" },
            ...(sea === null && asked.by !== "waves" ? [] : [{ value: "waves" as const, label: "in the waves" }]),
          ]}
          onChange={(by) => set({ by }, "kind of surge")}
        />
        <div className={styles.fields}>
          {asked.by === "speed" && (
            <QuantityField
              field="wind"
              usualUnit="kn"
              label="Speed away from the anchor"
              dimension="speed"
              value={asked.speed}
              range={{ above: 0, most: 20, expected: "a speed above zero, at most 20 m/s, is expected" }}
              onChange={(value) => set({ speed: value }, "surge speed")}
            />
          )}
          {asked.by === "distance" && (
            <QuantityField
              field="length"
              label="Distance beyond where she lies"
              dimension="length"
              value={asked.distance}
              range={{ above: 0, most: 100, expected: "a distance above zero, at most 100 m, is expected" }}
              onChange={(value) => set({ distance: value }, "surge distance")}
            />
          )}
        </div>
      </div>
      <p className={styles.quiet}>
        {asked.by === "waves"
          ? sea === null
            ? "No sea is stated: put in waves above, or a speed here."
            : `The waves above would move her at up to ${speed(sea.largestSpeed)} if nothing held her; the rode resists. `
          : ""}
        {asked.by !== "distance" &&
          `${formatQuantity(mass.value, "mass", { system, unit: unitOf("displacement", "mass"), digits: 2 })} surges: ${derivationWords(mass.from)}.`}
      </p>
      <FaultNote of={outcome} what="the snatch load" />
      {answer !== null &&
        (answer.found.kind === "snatch" ? (
          <SnatchSaid
            found={answer.found}
            u={answer.sure?.u ?? undefined}
            load={newtons}
            loadU={loadU}
            windText={windText}
          />
        ) : (
          <p className={styles.wrong} role="alert">
            {answer.found.kind === "notTaken"
              ? "The rode takes this surge at no load: it would part first."
              : none(answer.found, system)}
          </p>
        ))}
    </FoldingPanel>
  );
}

function none(found: NoEquilibrium, system: "metric" | "us"): string {
  return `No equilibrium in this wind: ${noEquilibriumLine(found, system)}.`;
}

function SnatchSaid({
  found,
  u,
  load,
  loadU,
  windText,
}: {
  readonly found: Snatch;
  readonly u: number | undefined;
  readonly load: number;
  readonly loadU: number;
  readonly windText: string;
}) {
  const { system, unitOf } = useUnits();
  const lengthUnit = unitOf("movement", "length");
  const text = (value: number) =>
    formatQuantity(value, "length", { system, unit: readableUnit(lengthUnit, value), digits: 2 });
  const { give, ridden } = found;
  const parts = give.parts
    .flatMap(({ part, name, lift, stretch }) => [
      { key: `${part} lift`, what: `raising ${name}`, ...lift },
      { key: `${part} stretch`, what: `stretching ${name}`, ...stretch },
    ])
    .filter(({ movement }) => Math.abs(movement) > 5e-3 * give.movement);
  const rest =
    Math.abs(give.rest.movement) > 5e-3 * give.movement
      ? [{ key: "rest", what: "friction and current", ...give.rest }]
      : [];
  return (
    <>
      <dl className={styles.numbers}>
        <Reading name="mean load" field="load" dimension="force" value={load} u={loadU} note={windText} />
        <Reading name="snatch load at the bow" field="load" dimension="force" value={ridden.bow} u={u} big />
        <Reading
          name="angle at the anchor, snatch"
          field="angle"
          dimension="angle"
          value={ridden.anchorAngle}
          digits={2}
        />
        <Reading name="farther from the anchor" field="movement" dimension="length" value={ridden.moved} digits={2} />
        {found.byEnergy !== null && (
          <Reading
            name="by energy alone, without the rode's drag"
            field="load"
            dimension="force"
            value={found.byEnergy}
            digits={2}
          />
        )}
      </dl>
      <ul className={styles.bars} aria-label="Give by part at rest, from the mean to the snatch load">
        {[...parts, ...rest].map(({ key, what, movement }) => (
          <li key={key}>
            <span className={styles.bar} aria-hidden="true">
              <span
                data-kind={what.startsWith("stretching") ? "stretch" : "raise"}
                style={{ width: `${Math.max(0, Math.min(100, (100 * movement) / give.movement))}%` }}
              />
            </span>
            <span>
              {what}: <strong>{text(movement)}</strong>, {Math.round((100 * movement) / give.movement)} %
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}
