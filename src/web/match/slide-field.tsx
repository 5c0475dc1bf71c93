import { useId } from "react";
import type { Dimension } from "../../quantity/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { QuantityField } from "../controls/quantity-field.tsx";
import { Slider } from "../controls/slider.tsx";
import { useUnits } from "../state/preferences.ts";
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
      <Slider
        label={`${label}, slider`}
        most={steps}
        value={at}
        valueText={formatQuantity(value, dimension, { system, unit: unitOf(field, dimension), digits: 3 })}
        onSlide={(next, stroke) =>
          props.onChange(Number((low * (high / low) ** (next / steps)).toPrecision(4)), stroke)
        }
      />
    </div>
  );
}
