import { useState } from "react";
import type { Boat, LoadEnd, MeasuredPoint } from "../../../sea/index.ts";
import { Button } from "../../controls/button.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import { UnitChoice } from "../../controls/unit-choice.tsx";
import styles from "../place.module.css";
import { changeBoat } from "../store.ts";
import { stillInvented } from "./boat.ts";

/** A point being put in: one once it has a wind and a load. Nothing stands in it that nobody typed. */
type Entry = Omit<MeasuredPoint, "wind" | "load"> & { readonly wind?: number; readonly load?: number };
const blank: Entry = { at: "bow", uncertainty: {} };
const isWhole = (entry: Entry): entry is MeasuredPoint => entry.wind !== undefined && entry.load !== undefined;

const ends: readonly LoadEnd[] = ["bow", "anchor", "horizontal"];

/** What was measured on this very boat: mean load, and brief peaks, at a mean wind; each with its ±. */
export function PointsTable({ boat }: { readonly boat: Boat }) {
  const points = boat.measured;
  const [entry, setEntry] = useState<Entry | null>(null);
  const rows: readonly Entry[] = entry === null ? points : [...points, entry];
  const set = (measured: readonly MeasuredPoint[], label: string, stroke?: string) =>
    changeBoat({ measured }, label, stroke ?? label);
  return (
    <div className={styles.group}>
      <div className={styles.head}>
        <h3>
          {stillInvented(boat).includes("measured points")
            ? "Measured points: the invented example's"
            : "Measured on this boat"}
        </h3>
        <span className={styles.units}>
          wind in <UnitChoice field="wind" dimension="speed" label="wind" usualUnit="kn" /> load in{" "}
          <UnitChoice field="load" dimension="force" label="load" />
        </span>
      </div>
      {rows.length > 0 && (
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
              {rows.map((point, i) => (
                <PointRow
                  // biome-ignore lint/suspicious/noArrayIndexKey: points have no name, and may be alike
                  key={i}
                  n={i + 1}
                  point={point}
                  onPoint={(next) => {
                    if (!isWhole(next)) return setEntry(next);
                    if (i === points.length) setEntry(null);
                    set([...points.slice(0, i), next, ...points.slice(i + 1)], "measured point", `point ${i}`);
                  }}
                  onRemove={() => {
                    if (i === points.length) return setEntry(null);
                    set(
                      points.filter((_, j) => j !== i),
                      `remove point ${i + 1}`,
                      `remove ${i} of ${points.length}`,
                    );
                  }}
                />
              ))}
            </tbody>
          </table>
        </div>
      )}
      <div className={styles.buttons}>
        {stillInvented(boat).includes("measured points") && (
          <Button onClick={() => set([], "clear the example's points", "clear points")}>
            Clear the example's points
          </Button>
        )}
        <Button disabled={entry !== null} onClick={() => setEntry({ ...blank, at: points.at(-1)?.at ?? "bow" })}>
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
  readonly point: Entry;
  readonly onPoint: (point: Entry) => void;
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
