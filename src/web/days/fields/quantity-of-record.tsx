import { QuantityField } from "../../controls/quantity-field.tsx";
import styles from "../place.module.css";
import type { Of } from "./framed.tsx";

/** A quantity in any unit, kept in SI. */
export function QuantityOfRecord({ field, value, wrong, onChange }: Of<"quantity">) {
  return (
    <div className={styles.field}>
      <QuantityField
        field={field.label.toLowerCase()}
        label={field.label}
        dimension={field.dimension}
        value={typeof value === "number" ? value : null}
        range={field.bounds}
        hint={field.hint}
        onChange={onChange}
        onEmpty={() => onChange(null)}
      />
      {wrong !== null && (
        <p className={styles.fieldWrong} role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
