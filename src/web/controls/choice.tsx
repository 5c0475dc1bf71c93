import { useId } from "react";
import styles from "./choice.module.css";

/** One of a few, all in view: radio buttons drawn as one bar. */
export function Choice<T extends string>({
  label,
  value,
  options,
  onChange,
  labelUnseen = false,
}: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly { readonly value: T; readonly label: string }[];
  readonly onChange: (value: T) => void;
  readonly labelUnseen?: boolean;
}) {
  const name = useId();
  return (
    <fieldset className={styles.choice}>
      <legend className={labelUnseen ? "unseen" : styles.legend}>{label}</legend>
      <div className={styles.bar}>
        {options.map((option) => (
          <label key={option.value} className={styles.option}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              onChange={() => onChange(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
