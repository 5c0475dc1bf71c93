import { useId, useRef } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import { QuantityField } from "../show/quantity-field.tsx";
import { useUnits } from "../state/preferences.ts";
import { newStroke } from "../state/store.ts";
import styles from "./place.module.css";
import type { LimitSaid } from "./reasons.ts";

const NOTCHES = 500;

/** A limit: typed, slid in ratios, or left empty and then not looked at. */
export function LimitField({
  limit,
  value,
  onLimit,
}: {
  readonly limit: LimitSaid;
  readonly value: number | undefined;
  readonly onLimit: (value: number | undefined, stroke: string) => void;
}) {
  const { system, unitOf } = useUnits();
  const id = useId();
  const stroke = useRef(newStroke());
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
      <input
        type="range"
        min={0}
        max={NOTCHES}
        value={Math.min(NOTCHES, Math.max(0, notch))}
        aria-label={`${label}, slider`}
        aria-valuetext={
          value === undefined ? "not looked at" : formatQuantity(value, dimension, { system, unit, digits: 3 })
        }
        onPointerDown={() => {
          stroke.current = newStroke();
        }}
        onKeyDown={() => {
          stroke.current = `${id} keys`;
        }}
        onChange={(event) =>
          onLimit(
            Number((least * (most / least) ** (Number(event.target.value) / NOTCHES)).toPrecision(3)),
            stroke.current,
          )
        }
      />
    </div>
  );
}
