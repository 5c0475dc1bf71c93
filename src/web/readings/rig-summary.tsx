import { Link } from "@tanstack/react-router";
import { formatQuantity } from "../../quantity/index.ts";
import { type Rig, riseOf } from "../../rode/index.ts";
import { rigDesk } from "../rig/desk.ts";
import { Button } from "../show/button.tsx";
import { Panel } from "../show/panel.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { useUnits } from "../state/preferences.ts";
import styles from "./place.module.css";

/** The rig the readings were taken on, in short, and what is not known of it: those are what the fit may move. */
export function RigSummary({ rig, onRig }: { readonly rig: Rig; readonly onRig: (rig: Rig) => void }) {
  const { system } = useUnits();
  const length = (value: number) => formatQuantity(value, "length", { system, digits: 4 });
  const uncertain = (key: "massPerLength" | "rise", value: number | null) => {
    const { [key]: _, ...others } = rig.uncertainty;
    onRig({ ...rig, uncertainty: value === null ? others : { ...others, [key]: value } });
  };
  return (
    <Panel
      title={rig.name}
      beside={
        <span className={styles.files}>
          <Button onClick={() => onRig(rigDesk.get().rig)}>Take the rig of the bench</Button>
          <Link to="/rig">Rig</Link>
        </span>
      }
    >
      <div className={styles.summary}>
        <ul className={styles.parts}>
          <li>
            {rig.setting.medium === "air" ? "in air" : "in water"}, rise {length(riseOf(rig.setting))}
          </li>
          {rig.rode.map((part, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: parts have no name but their place
            <li key={i}>{part.kind === "line" ? `${length(part.length)} of ${part.name}` : part.name}</li>
          ))}
        </ul>
        <div className={styles.three}>
          <QuantityField
            field="± mass per length"
            label="mass per length ±"
            dimension="ratio"
            value={rig.uncertainty.massPerLength ?? null}
            range={{ above: 0, most: 0.5, expected: "a share from 0 to 50 % is expected" }}
            onEmpty={() => uncertain("massPerLength", null)}
            onChange={(value) => uncertain("massPerLength", value)}
            placeholder="as given"
          />
          <QuantityField
            field="± rise"
            label="rise ±"
            dimension="length"
            value={rig.uncertainty.rise ?? null}
            range={{ above: 0, most: riseOf(rig.setting) / 2, expected: "less than half the rise is expected" }}
            onEmpty={() => uncertain("rise", null)}
            onChange={(value) => uncertain("rise", value)}
            placeholder="as given"
          />
        </div>
      </div>
    </Panel>
  );
}
