import { memo, useId } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import type { Surge } from "../../sea/index.ts";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { useUnits } from "../state/preferences.ts";
import { type Around, change, changeAround, type GustName } from "./desk.ts";
import { seaTrouble } from "./loads.ts";
import styles from "./place.module.css";

const gustNames: readonly { readonly value: GustName; readonly label: string }[] = [
  { value: "froya", label: "NPD / Frøya, open sea" },
  { value: "ochi-shin", label: "Ochi & Shin, storms at sea" },
  { value: "kaimal-a", label: "IEC 61400-1 class A, over land" },
  { value: "kaimal-b", label: "IEC 61400-1 class B" },
  { value: "kaimal-c", label: "IEC 61400-1 class C" },
  { value: "none", label: "no gust" },
];

const half = Math.PI;

/** What surrounds the boat: gust, yaw, current, sea, and how sure the wind is. */
export const AroundForm = memo(function AroundForm({
  around,
  windU,
  most,
  depth,
  surge,
}: {
  readonly around: Around;
  readonly windU: number;
  readonly most: number;
  readonly depth: number;
  readonly surge: Surge | null;
}) {
  const id = useId();
  const trouble = seaTrouble(around, depth);
  const set = (part: Partial<Around>, label: string) => changeAround(part, label, `around ${label}`);
  return (
    <Panel title="Around the boat">
      <div className={styles.fields}>
        <QuantityField
          field="wind"
          usualUnit="kn"
          label="± of the wind"
          dimension="speed"
          value={windU}
          range={{ least: 0, most: 50, expected: "zero or more is expected" }}
          onChange={(value) => change({ windU: value }, "± of the wind", "± of the wind")}
        />
        <QuantityField
          field="wind"
          usualUnit="kn"
          label="Axis up to"
          dimension="speed"
          value={most}
          range={{ least: 2, most: 100, expected: "a wind from 2 to 100 m/s is expected" }}
          onChange={(value) => change({ most: value }, "end of the axis", "end of the axis")}
        />
        <QuantityField
          field="angle"
          label="Wind off the bow"
          dimension="angle"
          value={around.yaw}
          range={{ least: -half, most: half, expected: "an angle from -180 to 180° is expected" }}
          onChange={(yaw) => set({ yaw }, "wind off the bow")}
        />
      </div>
      <div className={styles.fields}>
        <div className={styles.chosen}>
          <label htmlFor={id}>Gust by</label>
          <select
            id={id}
            value={around.gust}
            onChange={(event) => set({ gust: event.target.value as GustName }, "model of gusts")}
          >
            {gustNames.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        </div>
        {around.gust !== "none" && (
          <>
            <QuantityField
              field="gust time"
              label="Length of a gust"
              dimension="time"
              value={around.gustTime}
              range={{ least: 1, most: around.averaging, expected: "from 1 s to the averaging time is expected" }}
              onChange={(gustTime) => set({ gustTime }, "length of a gust")}
            />
            <QuantityField
              field="averaging"
              usualUnit="min"
              label="Mean taken over"
              dimension="time"
              value={around.averaging}
              range={{ least: around.gustTime, most: 3600, expected: "from the gust's length to an hour is expected" }}
              onChange={(averaging) => set({ averaging }, "averaging time")}
            />
          </>
        )}
      </div>
      <div className={styles.fields}>
        <QuantityField
          field="wind"
          usualUnit="kn"
          label="Current"
          dimension="speed"
          value={around.current}
          range={{ least: 0, most: 10, expected: "a current from 0 to 10 m/s is expected" }}
          onChange={(current) => set({ current }, "current")}
        />
        {around.current > 0 && (
          <>
            <QuantityField
              field="wind"
              usualUnit="kn"
              label="± of the current"
              dimension="speed"
              value={around.currentU}
              range={{ least: 0, most: 10, expected: "zero or more is expected" }}
              onChange={(currentU) => set({ currentU }, "± of the current")}
            />
            <QuantityField
              field="angle"
              label="Current off the bow"
              dimension="angle"
              value={around.currentAngle}
              range={{ least: -half, most: half, expected: "an angle from -180 to 180° is expected" }}
              onChange={(currentAngle) => set({ currentAngle }, "current off the bow")}
            />
          </>
        )}
      </div>
      <div className={styles.fields}>
        <QuantityField
          field="wave height"
          label="Waves from ahead, height"
          dimension="length"
          value={around.waves}
          range={{ least: 0, most: 30, expected: "a significant height from 0 to 30 m is expected" }}
          onChange={(waves) => set({ waves }, "height of waves")}
        />
        {around.waves > 0 && (
          <QuantityField
            field="period"
            label="their peak period"
            dimension="time"
            value={around.wavePeriod}
            range={{ least: 0.5, most: 30, expected: "a period from 0.5 to 30 s is expected" }}
            onChange={(wavePeriod) => set({ wavePeriod }, "period of waves")}
          />
        )}
      </div>
      {trouble !== null && (
        <p className={styles.wrong} role="alert">
          {trouble}
        </p>
      )}
      {surge !== null && <SurgeSaid surge={surge} />}
    </Panel>
  );
});

function SurgeSaid({ surge }: { readonly surge: Surge }) {
  const { system, unitOf } = useUnits();
  const length = (value: number) =>
    formatQuantity(value, "length", { system, unit: unitOf("movement", "length"), digits: 2 });
  const speed = (value: number) =>
    formatQuantity(value, "speed", { system, unit: unitOf("wind", "speed", "kn"), digits: 2 });
  return (
    <p className={styles.quiet}>
      If nothing held her, this sea would move the bow {length(surge.significantAmplitude)} either way in the highest
      third of surges, {length(surge.largestAmplitude)} and {speed(surge.largestSpeed)} in the largest of {surge.waves}.
    </p>
  );
}
