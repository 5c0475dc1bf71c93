import { memo } from "react";
import { type AirSetting, type Rig, riseOf, type Setting, type WaterSetting } from "../../rode/index.ts";
import { Choice } from "../show/choice.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { otherMedium, rigDesk } from "./desk.ts";
import styles from "./setting-form.module.css";

const LENGTH = { above: 0, most: 1e5, expected: "a length above zero is expected" };
const HEIGHT = { least: 0, most: 1e4, expected: "a height of zero or more is expected" };

/** Where the rode hangs: medium, depth or rise, the ground, the water. */
export const SettingForm = memo(function SettingForm({ rig }: { readonly rig: Rig }) {
  const { setting } = rig;
  const put = (next: Setting, label: string) =>
    rigDesk.set((state) => ({ ...state, rig: { ...state.rig, setting: next } }), { label });
  return (
    <div className={styles.form}>
      <div className={styles.wide}>
        <Choice
          label="The rode hangs"
          value={setting.medium}
          options={[
            { value: "water", label: "afloat, in water" },
            { value: "air", label: "on land, in air" },
          ]}
          onChange={(medium) => {
            if (medium !== setting.medium) put(otherMedium(setting), "medium");
          }}
        />
      </div>
      {setting.medium === "water" ? <Water setting={setting} put={put} /> : <Air setting={setting} put={put} />}
      <QuantityField
        field="slope"
        label={setting.medium === "water" ? "Slope of the seabed" : "Slope of the ground"}
        dimension="angle"
        value={setting.bottomSlope}
        range={{
          least: -0.7854,
          most: 0.7854,
          expected: "a slope from -45° to 45° is expected; rising toward the boat is positive",
        }}
        onChange={(bottomSlope) => put({ ...setting, bottomSlope }, "slope")}
      />
      <QuantityField
        field="friction"
        label="Friction there"
        plain
        dimension="ratio"
        value={setting.bottomFriction}
        range={{ least: 0, most: 3, expected: "a friction from 0 to 3 is expected" }}
        onChange={(bottomFriction) => put({ ...setting, bottomFriction }, "friction")}
      />
      <Unsure rig={rig} />
    </div>
  );
});

type Put = (next: Setting, label: string) => void;

function Water({ setting, put }: { readonly setting: WaterSetting; readonly put: Put }) {
  return (
    <>
      <QuantityField
        field="depth"
        label="Depth at the anchor"
        dimension="length"
        value={setting.depth}
        range={LENGTH}
        onChange={(depth) => put({ ...setting, depth }, "depth")}
      />
      <QuantityField
        field="roller height"
        label="Bow roller above water"
        dimension="length"
        value={setting.rollerHeight}
        range={HEIGHT}
        onChange={(rollerHeight) => put({ ...setting, rollerHeight }, "roller height")}
      />
      <QuantityField
        field="current"
        label="Current toward the boat"
        dimension="speed"
        value={setting.current}
        range={{ least: -10, most: 10, expected: "a current from -10 to 10 m/s is expected" }}
        onChange={(current) => put({ ...setting, current }, "current")}
      />
      <QuantityField
        field="water density"
        label="Density of the water"
        dimension="density"
        value={setting.waterDensity}
        range={{ least: 900, most: 1400, expected: "a density from 900 to 1400 kg/m³ is expected" }}
        onChange={(waterDensity) => put({ ...setting, waterDensity }, "water density")}
      />
    </>
  );
}

function Air({ setting, put }: { readonly setting: AirSetting; readonly put: Put }) {
  return (
    <QuantityField
      field="depth"
      label="Height of the upper end"
      dimension="length"
      value={setting.rise}
      range={LENGTH}
      onChange={(rise) => put({ ...setting, rise }, "rise")}
    />
  );
}

/** What the tester is unsure of: every ± comes from these two. Empty is none. */
function Unsure({ rig }: { readonly rig: Rig }) {
  const { massPerLength, rise } = rig.uncertainty;
  const put = (change: { massPerLength?: number | null; rise?: number | null }) => {
    const next = { massPerLength: massPerLength ?? null, rise: rise ?? null, ...change };
    const uncertainty = {
      ...(next.massPerLength === null || next.massPerLength === 0 ? {} : { massPerLength: next.massPerLength }),
      ...(next.rise === null || next.rise === 0 ? {} : { rise: next.rise }),
    };
    rigDesk.set((state) => ({ ...state, rig: { ...state.rig, uncertainty } }), { label: "uncertainty" });
  };
  return (
    <>
      <QuantityField
        field="± mass"
        label="± of mass per length"
        usualUnit="%"
        dimension="ratio"
        value={massPerLength ?? null}
        placeholder="none"
        range={{ least: 0, most: 0.5, expected: 'a standard uncertainty from 0 to 50 % is expected, such as "3 %"' }}
        onChange={(value) => put({ massPerLength: value })}
        onEmpty={() => put({ massPerLength: null })}
      />
      <QuantityField
        field="± height"
        label={rig.setting.medium === "water" ? "± of depth" : "± of the height"}
        dimension="length"
        value={rise ?? null}
        placeholder="none"
        range={{ least: 0, most: 0.45 * riseOf(rig.setting), expected: "less than half the height is expected" }}
        onChange={(value) => put({ rise: value })}
        onEmpty={() => put({ rise: null })}
      />
    </>
  );
}
