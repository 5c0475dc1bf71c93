import { memo } from "react";
import { type AirSetting, type Rig, riseOf, type Setting, type WaterSetting } from "../../rode/index.ts";
import { Choice } from "../controls/choice.tsx";
import { type NumberField, NumberFields } from "../controls/number-fields.tsx";
import styles from "./setting-form.module.css";
import { otherMedium } from "./state.ts";
import { rigStore } from "./store.ts";

const LENGTH = { above: 0, most: 1e5, expected: "a length above zero is expected" };
const HEIGHT = { least: 0, most: 1e4, expected: "a height of zero or more is expected" };

const put = (next: Setting, label: string) =>
  rigStore.set((state) => ({ ...state, rig: { ...state.rig, setting: next } }), { label });

/** How deep the water is at the anchor; on land, how high the upper end. */
export const DepthField = memo(function DepthField({ setting }: { readonly setting: Setting }) {
  return (
    <NumberFields
      fields={[setting.medium === "water" ? depth : rise]}
      values={setting}
      onChange={(name, value, label) => put({ ...setting, [name]: value } as Setting, label)}
    />
  );
});

/** Where the rode hangs beside its depth: the medium, the ground, the water. */
export const SettingForm = memo(function SettingForm({ rig }: { readonly rig: Rig }) {
  const { setting } = rig;
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
      <NumberFields
        fields={[...(setting.medium === "water" ? inWater : []), ...onTheGround(setting.medium)]}
        values={setting}
        onChange={(name, value, label) => put({ ...setting, [name]: value } as Setting, label)}
      />
      <Unsure rig={rig} />
    </div>
  );
});

type Asked = NumberField<Exclude<keyof AirSetting | keyof WaterSetting, "medium">>;

const depth: Asked = {
  name: "depth",
  field: "depth",
  label: "Depth at the anchor",
  dimension: "length",
  range: LENGTH,
  change: "depth",
};
const rise: Asked = {
  name: "rise",
  field: "depth",
  label: "Height of the upper end",
  dimension: "length",
  range: LENGTH,
  change: "rise",
};
const inWater: readonly Asked[] = [
  {
    name: "rollerHeight",
    field: "roller height",
    label: "Bow roller above water",
    dimension: "length",
    range: HEIGHT,
    change: "roller height",
  },
  {
    name: "current",
    field: "current",
    label: "Current toward the boat",
    dimension: "speed",
    range: { least: -10, most: 10, expected: "a current from -10 to 10 m/s is expected" },
    change: "current",
  },
  {
    name: "waterDensity",
    field: "water density",
    label: "Density of the water",
    dimension: "density",
    range: { least: 900, most: 1400, expected: "a density from 900 to 1400 kg/m³ is expected" },
    change: "water density",
  },
];
const onTheGround = (medium: Setting["medium"]): readonly Asked[] => [
  {
    name: "bottomSlope",
    field: "slope",
    label: medium === "water" ? "Slope of the seabed" : "Slope of the ground",
    dimension: "angle",
    range: {
      least: -0.7854,
      most: 0.7854,
      expected: "a slope from -45° to 45° is expected; rising toward the boat is positive",
    },
    change: "slope",
  },
  {
    name: "bottomFriction",
    field: "friction",
    label: "Friction there",
    plain: true,
    dimension: "ratio",
    range: { least: 0, most: 3, expected: "a friction from 0 to 3 is expected" },
    change: "friction",
  },
];

/** What the tester is unsure of: every ± comes from these two. Empty is none. */
function Unsure({ rig }: { readonly rig: Rig }) {
  const put = (name: "massPerLength" | "rise", value: number | null) => {
    const { [name]: _, ...others } = rig.uncertainty;
    const uncertainty = value === null || value === 0 ? others : { ...others, [name]: value };
    rigStore.set((state) => ({ ...state, rig: { ...state.rig, uncertainty } }), { label: "uncertainty" });
  };
  const fields: readonly NumberField<"massPerLength" | "rise">[] = [
    {
      name: "massPerLength",
      field: "± mass",
      label: "± of mass per length",
      usualUnit: "%",
      dimension: "ratio",
      placeholder: "none",
      range: { least: 0, most: 0.5, expected: 'a standard uncertainty from 0 to 50 % is expected, such as "3 %"' },
      change: "uncertainty",
      optional: true,
    },
    {
      name: "rise",
      field: "± height",
      label: rig.setting.medium === "water" ? "± of depth" : "± of the height",
      dimension: "length",
      placeholder: "none",
      range: { least: 0, most: 0.45 * riseOf(rig.setting), expected: "less than half the height is expected" },
      change: "uncertainty",
      optional: true,
    },
  ];
  return <NumberFields fields={fields} values={rig.uncertainty} onChange={put} />;
}
