import type { Dimension } from "../../quantity/index.ts";
import { Choice } from "../controls/choice.tsx";
import { Panel } from "../controls/panel.tsx";
import { QuantityField } from "../controls/quantity-field.tsx";
import { useStore } from "../state/use-store.ts";
import styles from "./place.module.css";
import { type ReadingsU, readingsStore } from "./state.ts";

const ENDS = [
  { value: "anchor", label: "anchor end" },
  { value: "bow", label: "upper end" },
] as const;

/** What is taken where nothing is stated: src/pull. */
const UNSTATED: Readonly<Record<keyof ReadingsU, string>> = {
  load: "1 %",
  angle: "0.5°",
  movement: "5 mm",
  gaugeZero: "as angle",
};

/** At which ends the instruments sat, and how sharp they are. */
export function HowRead() {
  const state = useStore(readingsStore);
  const set = (key: keyof ReadingsU, value: number) =>
    readingsStore.set((before) => ({ ...before, u: { ...before.u, [key]: value } }), {
      label: `± of ${key}`,
      stroke: `u ${key}`,
    });
  const uncertain = (key: keyof ReadingsU, label: string, dimension: Dimension) => (
    <QuantityField
      field={`± ${key}`}
      label={label}
      dimension={dimension}
      value={state.u[key] || null}
      placeholder={UNSTATED[key]}
      range={{ above: 0, expected: "a standard uncertainty above zero is expected" }}
      onEmpty={() => set(key, 0)}
      onChange={(value) => set(key, value)}
    />
  );
  return (
    <Panel title="How it was read">
      <div className={styles.how}>
        <Choice
          label="Load cell at the"
          value={state.loadCellAt}
          options={ENDS}
          onChange={(loadCellAt) =>
            readingsStore.set((before) => ({ ...before, loadCellAt }), { label: "end of the load cell" })
          }
        />
        <Choice
          label="Angle gauge at the"
          value={state.angleAt}
          options={ENDS}
          onChange={(angleAt) => readingsStore.set((before) => ({ ...before, angleAt }), { label: "end of the gauge" })}
        />
      </div>
      <p className={styles.quiet}>Standard uncertainty of one reading, and of the gauge's zero</p>
      <div className={styles.fields}>
        {uncertain("load", "Load ±", "force")}
        {uncertain("angle", "Angle ±", "angle")}
        {uncertain("movement", "Movement ±", "length")}
        {uncertain("gaugeZero", "Gauge zero ±", "angle")}
      </div>
    </Panel>
  );
}
