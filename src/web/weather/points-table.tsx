import type { Boat, LoadEnd, MeasuredPoint } from "../../sea/index.ts";
import { Button } from "../show/button.tsx";
import { QuantityField } from "../show/quantity-field.tsx";
import { UnitChoice } from "../show/unit-choice.tsx";
import { nextPoint } from "./boat.ts";
import { changeBoat } from "./desk.ts";
import styles from "./place.module.css";

const ends: readonly LoadEnd[] = ["bow", "anchor", "horizontal"];

/** What was measured on this very boat: mean load, and brief peaks, at a mean wind; each with its ±. */
export function PointsTable({ boat }: { readonly boat: Boat }) {
  const points = boat.measured;
  const set = (measured: readonly MeasuredPoint[], label: string, stroke?: string) =>
    changeBoat({ measured }, label, stroke ?? label);
  return (
    <div className={styles.group}>
      <div className={styles.head}>
        <h3>Measured on this boat</h3>
        <span className={styles.units}>
          wind in <UnitChoice field="wind" dimension="speed" label="wind" usualUnit="kn" /> load in{" "}
          <UnitChoice field="load" dimension="force" label="load" />
        </span>
      </div>
      {points.length > 0 && (
        <div className={styles.scroll}>
          <table className={styles.points}>
            <thead>
              <tr>
                <th scope="col">wind</th>
                <th scope="col">±</th>
                <th scope="col">mean load</th>
                <th scope="col">±</th>
                <th scope="col">peaks</th>
                <th scope="col">±</th>
                <th scope="col">read at</th>
                <td />
              </tr>
            </thead>
            <tbody>
              {points.map((point, i) => (
                <PointRow
                  // biome-ignore lint/suspicious/noArrayIndexKey: points have no name, and may be alike
                  key={i}
                  n={i + 1}
                  point={point}
                  onPoint={(next) =>
                    set(
                      points.map((one, j) => (j === i ? next : one)),
                      "measured point",
                      `point ${i}`,
                    )
                  }
                  onRemove={() =>
                    set(
                      points.filter((_, j) => j !== i),
                      `remove point ${i + 1}`,
                      `remove ${i} of ${points.length}`,
                    )
                  }
                />
              ))}
            </tbody>
          </table>
        </div>
      )}
      <div className={styles.buttons}>
        <Button onClick={() => set([...points, nextPoint(boat)], "add a point", `add ${points.length}`)}>
          + point
        </Button>
      </div>
    </div>
  );
}

function PointRow({
  n,
  point,
  onPoint,
  onRemove,
}: {
  readonly n: number;
  readonly point: MeasuredPoint;
  readonly onPoint: (point: MeasuredPoint) => void;
  readonly onRemove: () => void;
}) {
  const { uncertainty: u } = point;
  const unsure = (name: "wind" | "load" | "peak", value: number | null) => {
    const { [name]: _, ...rest } = u;
    onPoint({ ...point, uncertainty: value === null ? rest : { ...rest, [name]: value } });
  };
  const cell = (
    label: string,
    field: "wind" | "load",
    value: number | undefined,
    take: (value: number | null) => void,
    needed = false,
  ) => (
    <td>
      <QuantityField
        field={field}
        {...(field === "wind" ? { usualUnit: "kn" } : {})}
        plain
        labelUnseen
        label={`${label}, point ${n}`}
        dimension={field === "wind" ? "speed" : "force"}
        value={value ?? null}
        placeholder="–"
        digits={3}
        range={{ above: 0, most: field === "wind" ? 100 : 1e9, expected: "a value above zero is expected" }}
        onChange={take}
        {...(needed ? {} : { onEmpty: () => take(null) })}
      />
    </td>
  );
  return (
    <tr>
      {cell("Wind", "wind", point.wind, (wind) => onPoint({ ...point, wind: wind! }), true)}
      {cell("± of the wind", "wind", u.wind, (value) => unsure("wind", value))}
      {cell("Mean load", "load", point.load, (load) => onPoint({ ...point, load: load! }), true)}
      {cell("± of the mean load", "load", u.load, (value) => unsure("load", value))}
      {cell("Peaks", "load", point.peak, (peak) => {
        const { peak: _, ...rest } = point;
        onPoint(peak === null ? rest : { ...rest, peak });
      })}
      {cell("± of the peaks", "load", u.peak, (value) => unsure("peak", value))}
      <td>
        <select
          aria-label={`Read at, point ${n}`}
          className={styles.select}
          value={point.at}
          onChange={(event) => onPoint({ ...point, at: event.target.value as LoadEnd })}
        >
          {ends.map((end) => (
            <option key={end} value={end}>
              {end}
            </option>
          ))}
        </select>
      </td>
      <td>
        <Button look="bare" aria-label={`Remove point ${n}`} onClick={onRemove}>
          ×
        </Button>
      </td>
    </tr>
  );
}
