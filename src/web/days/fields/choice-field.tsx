import styles from "../place.module.css";
import { Framed, type Of } from "./framed.tsx";

/** One of a few words. */
export function ChoiceField({ field, value, wrong, onChange }: Of<"choice">) {
  return (
    <Framed field={field} wrong={wrong}>
      {({ id, described }) => (
        <select
          id={id}
          className={styles.select}
          aria-invalid={wrong !== null}
          aria-describedby={described}
          value={typeof value === "string" ? value : ""}
          onChange={(event) => onChange(event.target.value === "" ? null : event.target.value)}
        >
          <option value="">not said</option>
          {field.options.map((option) => (
            <option key={option} value={option}>
              {field.called?.(option) ?? option}
            </option>
          ))}
        </select>
      )}
    </Framed>
  );
}
