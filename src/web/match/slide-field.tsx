import { useId, useRef } from "react";
import { type Dimension, formatQuantity } from "../../quantity/index.ts";
import { QuantityField } from "../show/quantity-field.tsx";
import { useUnits } from "../state/preferences.ts";
import { newStroke } from "../state/store.ts";
import styles from "./place.module.css";

/** A quantity that is typed or slid; the slider runs in ratios, so that small values are as easy to set as large ones. */
export function SlideField(props: {
  readonly field: string;
  readonly label: string;
  readonly dimension: Dimension;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly onChange: (value: number, stroke: string) => void;
}) {
  const { field, label, dimension, value, least, most } = props;
  const { system, unitOf } = useUnits();
  const stroke = useRef(newStroke());
  const id = useId();
  const steps = 1000;
  const high = Math.max(most, value);
  const low = Math.min(least, value);
  const at = Math.round((steps * Math.log(value / low)) / Math.log(high / low));
  return (
    <div className={styles.slide}>
      <QuantityField
        field={field}
        label={label}
        dimension={dimension}
        value={value}
        range={{ above: 0, most: 1e9, expected: "a value above zero is expected" }}
        onChange={(next) => props.onChange(next, `${id} typed`)}
      />
      <input
        type="range"
        min={0}
        max={steps}
        value={at}
        aria-label={`${label}, slider`}
        aria-valuetext={formatQuantity(value, dimension, { system, unit: unitOf(field, dimension), digits: 3 })}
        onPointerDown={() => {
          stroke.current = newStroke();
        }}
        onKeyDown={() => {
          stroke.current = `${id} keys`;
        }}
        onChange={(event) =>
          props.onChange(
            Number((low * (high / low) ** (Number(event.target.value) / steps)).toPrecision(4)),
            stroke.current,
          )
        }
      />
    </div>
  );
}
