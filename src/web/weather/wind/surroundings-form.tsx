import { memo, useId } from "react";
import type { Surge } from "../../../sea/index.ts";
import { type NumberField, NumberFields } from "../../controls/number-fields.tsx";
import { formatQuantity } from "../../controls/numbers.ts";
import { FoldingPanel } from "../../controls/panel.tsx";
import { useUnits } from "../../state/preferences.ts";
import { seaTrouble } from "../loads.ts";
import styles from "../place.module.css";
import type { Around, GustName } from "../state.ts";
import { change, changeAround } from "../store.ts";

const gustNames: readonly { readonly value: GustName; readonly label: string }[] = [
  { value: "froya", label: "NPD / Frøya, open sea" },
  { value: "ochi-shin", label: "Ochi & Shin, storms at sea" },
  { value: "kaimal-a", label: "IEC 61400-1 class A, over land" },
  { value: "kaimal-b", label: "IEC 61400-1 class B" },
  { value: "kaimal-c", label: "IEC 61400-1 class C" },
  { value: "none", label: "no gust" },
];

type Asked = NumberField<Exclude<keyof Around, "gust">>;

const SPEED = { field: "wind", usualUnit: "kn", dimension: "speed" } as const;
const ANGLE = { least: -Math.PI, most: Math.PI, expected: "an angle from -180 to 180° is expected" };
const UNSURE = { most: 50, least: 0, expected: "zero or more is expected" };

const windFields: readonly NumberField<"windU" | "most">[] = [
  { ...SPEED, name: "windU", label: "± of the wind", range: UNSURE, change: "± of the wind" },
  {
    ...SPEED,
    name: "most",
    label: "Axis up to",
    range: { least: 2, most: 100, expected: "a wind from 2 to 100 m/s is expected" },
    change: "end of the axis",
  },
];
const offBow = (name: "yaw" | "currentAngle", label: string): Asked => ({
  name,
  field: "angle",
  label,
  dimension: "angle",
  range: ANGLE,
  change: label.toLowerCase(),
});
const gustFields = ({ gustTime, averaging }: Around): readonly Asked[] => [
  {
    name: "gustTime",
    field: "gust time",
    label: "Length of a gust",
    dimension: "time",
    range: { least: 1, most: averaging, expected: "from 1 s to the averaging time is expected" },
    change: "length of a gust",
  },
  {
    name: "averaging",
    field: "averaging",
    usualUnit: "min",
    label: "Mean taken over",
    dimension: "time",
    range: { least: gustTime, most: 3600, expected: "from the gust's length to an hour is expected" },
    change: "averaging time",
  },
];
const currentFields = ({ current }: Around): readonly Asked[] => [
  {
    ...SPEED,
    name: "current",
    label: "Current",
    range: { least: 0, most: 10, expected: "a current from 0 to 10 m/s is expected" },
    change: "current",
  },
  ...(current > 0
    ? [
        {
          ...SPEED,
          name: "currentU",
          label: "± of the current",
          range: { ...UNSURE, most: 10 },
          change: "± of the current",
        } as const,
        offBow("currentAngle", "Current off the bow"),
      ]
    : []),
];
const waveFields = ({ waves }: Around): readonly Asked[] => [
  {
    name: "waves",
    field: "wave height",
    label: "Waves from ahead, height",
    dimension: "length",
    range: { least: 0, most: 30, expected: "a significant height from 0 to 30 m is expected" },
    change: "height of waves",
  },
  ...(waves > 0
    ? [
        {
          name: "wavePeriod",
          field: "period",
          label: "their peak period",
          dimension: "time",
          range: { least: 0.5, most: 30, expected: "a period from 0.5 to 30 s is expected" },
          change: "period of waves",
        } as const,
      ]
    : []),
];

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
  const set = (name: keyof Around, value: number | string | null, label: string) =>
    changeAround({ [name]: value } as Partial<Around>, label, `around ${label}`);
  return (
    <FoldingPanel name="surroundings" title="Around the boat">
      <div className={styles.fields}>
        <NumberFields
          fields={windFields}
          values={{ windU, most }}
          onChange={(name, value, label) => change({ [name]: value! }, label, label)}
        />
        <NumberFields fields={[offBow("yaw", "Wind off the bow")]} values={around} onChange={set} />
      </div>
      <div className={styles.fields}>
        <div className={styles.chosen}>
          <label htmlFor={id}>Gust by</label>
          <select
            id={id}
            value={around.gust}
            onChange={(event) => set("gust", event.target.value as GustName, "model of gusts")}
          >
            {gustNames.map(({ value, label }) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </select>
        </div>
        {around.gust !== "none" && <NumberFields fields={gustFields(around)} values={around} onChange={set} />}
      </div>
      <div className={styles.fields}>
        <NumberFields fields={currentFields(around)} values={around} onChange={set} />
      </div>
      <div className={styles.fields}>
        <NumberFields fields={waveFields(around)} values={around} onChange={set} />
      </div>
      {trouble !== null && (
        <p className={styles.wrong} role="alert">
          {trouble}
        </p>
      )}
      {surge !== null && <SurgeSaid surge={surge} />}
    </FoldingPanel>
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
