import { KNOT } from "../../../quantity/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { Slider } from "../../controls/slider.tsx";
import stuck from "../../controls/stuck-bar.module.css";
import { useUnits } from "../../state/preferences.ts";
import type { LoadsAt, RoadLoad } from "../loads.ts";
import { change } from "../store.ts";
import styles from "./wind-bar.module.css";

/** One step of the slider. */
const STEP = KNOT / 4;

/** The wind and its loads, in view wherever one is in the place: what it changes is seen while it is slid. */
export function WindBar({ now, kept, most }: { readonly now: LoadsAt; readonly kept: number; readonly most: number }) {
  const { system, unitOf } = useUnits();
  const unit = unitOf("wind", "speed", "kn");
  const wind = formatQuantity(now.weather.wind.value, "speed", { system, unit, digits: 3 });
  const load = ({ value, u }: RoadLoad): string =>
    formatQuantity(value, "force", { system, unit: unitOf("load", "force"), ...(u > 0 ? { u } : { digits: 2 }) });
  return (
    <section className={`${stuck.bar} ${styles.bar}`} aria-label="The wind and its load">
      <p className={`${stuck.numbers} ${styles.loads}`}>
        <strong>{wind}</strong>
        {now.mean !== null && <span>{load(now.mean)} mean load</span>}
        {now.peak !== null && <span>{load(now.peak)} peak</span>}
      </p>
      <Slider
        className={styles.slider}
        label="Mean wind, slider"
        most={Math.round(most / STEP)}
        value={Math.round(kept / STEP)}
        valueText={formatQuantity(kept, "speed", { system, unit, digits: 3 })}
        onSlide={(value, stroke) =>
          change({ wind: Number(Math.max(STEP, Math.min(most, value * STEP)).toPrecision(4)) }, "wind", stroke)
        }
      />
    </section>
  );
}
