import styles from "../place.module.css";
import { Framed, type Of } from "./framed.tsx";

/** A line of text, or several. */
export function TextField({ field, value, wrong, onChange }: Of<"text">) {
  const shown = typeof value === "string" ? value : "";
  return (
    <Framed field={field} wrong={wrong} wide={field.long === true}>
      {({ id, described }) =>
        field.long ? (
          <textarea
            id={id}
            className={styles.area}
            rows={2}
            aria-invalid={wrong !== null}
            aria-describedby={described}
            value={shown}
            onChange={(event) => onChange(event.target.value)}
          />
        ) : (
          <input
            id={id}
            className={styles.input}
            type="text"
            autoComplete="off"
            required={field.required === true}
            aria-invalid={wrong !== null}
            aria-describedby={described}
            value={shown}
            onChange={(event) => onChange(event.target.value)}
          />
        )
      }
    </Framed>
  );
}
