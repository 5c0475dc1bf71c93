import styles from "../place.module.css";
import { type FieldProps, Framed } from "./framed.tsx";

/** A date, or a moment in the device's own zone. */
export function DateField({
  field,
  value,
  wrong,
  onChange,
  type,
}: FieldProps & { readonly type: "date" | "datetime-local" }) {
  const shown = typeof value !== "string" ? "" : type === "date" ? value : localText(value);
  return (
    <Framed field={field} wrong={wrong}>
      {({ id, described }) => (
        <input
          id={id}
          className={styles.input}
          type={type}
          aria-invalid={wrong !== null}
          aria-describedby={described}
          value={shown}
          onChange={(event) => {
            const text = event.target.value;
            if (text === "") onChange(null);
            else onChange(type === "date" ? text : new Date(text).toISOString());
          }}
        />
      )}
    </Framed>
  );
}

/** A moment in the device's own zone, as the browser's field takes it. */
function localText(moment: string): string {
  const at = new Date(moment);
  if (Number.isNaN(at.getTime())) return "";
  return new Date(at.getTime() - 60_000 * at.getTimezoneOffset()).toISOString().slice(0, 16);
}
