import { useId } from "react";
import { formatQuantity } from "../../controls/numbers.ts";
import { QuantityField } from "../../controls/quantity-field.tsx";
import { Slider } from "../../controls/slider.tsx";
import { useUnits } from "../../state/preferences.ts";
import styles from "../place.module.css";
import type { LimitShown } from "./reasons.ts";

const NOTCHES = 500;

/** A limit: typed, slid in ratios, or left empty and then not looked at. */
export function LimitField({
  limit,
  value,
  onLimit,
}: {
  readonly limit: LimitShown;
  readonly value: number | undefined;
  readonly onLimit: (value: number | undefined, stroke: string) => void;
}) {
  const { system, unitOf } = useUnits();
  const id = useId();
  const { label, field, dimension, usualUnit, least, most } = limit;
  const unit = unitOf(field, dimension, usualUnit);
  const shown = value ?? limit.usual;
  const notch = Math.round((NOTCHES * Math.log(shown / least)) / Math.log(most / least));
  return (
    <div className={styles.limit} data-off={value === undefined || undefined}>
      <QuantityField
        field={field}
        {...(usualUnit === undefined ? {} : { usualUnit })}
        label={label}
        dimension={dimension}
        value={value ?? null}
        digits={3}
        placeholder="off"
        range={{ above: 0, most: 1e9, expected: "a limit above zero is expected, or none" }}
        onChange={(next) => onLimit(next, `${id} typed`)}
        onEmpty={() => onLimit(undefined, `${id} typed`)}
      />
      <Slider
        label={`${label}, slider`}
        most={NOTCHES}
        value={notch}
        valueText={
          value === undefined ? "not looked at" : formatQuantity(value, dimension, { system, unit, digits: 3 })
        }
        onSlide={(at, stroke) => onLimit(Number((least * (most / least) ** (at / NOTCHES)).toPrecision(3)), stroke)}
      />
    </div>
  );
}
