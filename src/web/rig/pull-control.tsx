import { useId } from "react";
import { settle } from "../../rode/index.ts";
import { Choice } from "../controls/choice.tsx";
import { formatQuantity } from "../controls/numbers.ts";
import { QuantityField } from "../controls/quantity-field.tsx";
import { Slider } from "../controls/slider.tsx";
import { useUnits } from "../state/preferences.ts";
import { loadRange, withLoad } from "./grips.ts";
import styles from "./pull-control.module.css";
import { DepthField } from "./setting-form.tsx";
import { type End, pullOf, type RigState } from "./state.ts";
import { rigStore } from "./store.ts";

const ends: readonly { readonly value: End; readonly label: string }[] = [
  { value: "bow", label: "at the bow" },
  { value: "anchor", label: "at the anchor" },
  { value: "horizontal", label: "horizontal" },
];
const NOTCHES = 1000;

/** The depth, and the load of the moment: typed, or slid; stated at one end. */
export function PullControl({ state }: { readonly state: RigState }) {
  const id = useId();
  const { system, unitOf } = useUnits();
  const { load } = state;
  const [least, most] = loadRange(state.rig);
  const notch = Math.round((NOTCHES * Math.log(load.newtons / least)) / Math.log(most / least));
  return (
    <div className={styles.pull}>
      <div className={styles.row}>
        <DepthField setting={state.rig.setting} />
        <QuantityField
          field="load"
          label="Pull"
          dimension="force"
          value={load.newtons}
          range={{ above: 0, most: 1e9, expected: "a load above zero is expected" }}
          onChange={(newtons) => rigStore.set({ ...state, load: { ...load, newtons } }, { label: "load" })}
        />
        <div className={styles.end}>
          <Choice
            label="The pull is stated"
            labelUnseen
            value={load.at}
            options={ends}
            onChange={(at) => rigStore.set(atEnd(state, at), { label: "end of the load" })}
          />
        </div>
      </div>
      <label className="unseen" htmlFor={id}>
        Pull, slid
      </label>
      <Slider
        id={id}
        className={styles.slider}
        most={NOTCHES}
        value={notch}
        valueText={formatQuantity(load.newtons, "force", { system, unit: unitOf("load", "force"), digits: 3 })}
        onSlide={(at, stroke) => {
          const next = withLoad(state, least * (most / least) ** (at / NOTCHES));
          if (next !== null) rigStore.set(next, { label: "load", stroke });
        }}
      />
    </div>
  );
}

/** The same equilibrium, its load told at another end. */
function atEnd(state: RigState, at: End): RigState {
  const settled = settle(state.rig, pullOf(state));
  if (settled.kind === "noEquilibrium") return { ...state, load: { ...state.load, at } };
  const newtons = at === "bow" ? settled.bow.tension : at === "anchor" ? settled.anchor.tension : settled.horizontal;
  return { ...state, load: { at, newtons: Math.max(1, Number(newtons.toPrecision(4))) } };
}
