import { riseOf } from "../../rode/index.ts";
import { QuantityField } from "../controls/quantity-field.tsx";
import styles from "./over-switch.module.css";
import type { RigState } from "./state.ts";
import { rigStore } from "./store.ts";

/** Lays the same rode in the other medium over this one. */
export function OverSwitch({ state }: { readonly state: RigState }) {
  const other = state.rig.setting.medium === "water" ? "in air, on land" : "afloat, in sea water";
  return (
    <div className={styles.over}>
      <label className={styles.switch}>
        <input
          type="checkbox"
          checked={state.over !== null}
          onChange={(event) =>
            rigStore.set(
              { ...state, over: event.target.checked ? riseOf(state.rig.setting) : null },
              { label: "the other medium" },
            )
          }
        />
        <span>Lay the same rode {other} over it</span>
      </label>
      {state.over !== null && (
        <QuantityField
          field="depth"
          label="Height of its upper end"
          dimension="length"
          value={state.over}
          range={{ above: 0, most: 1e5, expected: "a height above zero is expected" }}
          onChange={(over) => rigStore.set({ ...state, over }, { label: "height of the other" })}
        />
      )}
    </div>
  );
}
