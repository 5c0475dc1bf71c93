import { useStore } from "../../state/use-store.ts";
import { bookCopy } from "../book-copy.ts";
import styles from "../place.module.css";
import { lineOf, titleOf } from "../record-text.ts";
import { useSay } from "../use-say.ts";
import { Framed, type Of } from "./framed.tsx";

/** Another record that this one belongs to. */
export function ReferField({ field, value, wrong, onChange }: Of<"refer">) {
  const { records } = useStore(bookCopy);
  const say = useSay();
  const options = records[field.to].filter((one) => !one.hidden || one.id === value);
  // Nothing to choose from: the field would only be in the way.
  if (options.length === 0) return null;
  return (
    <Framed field={field} wrong={wrong}>
      {({ id, described }) => (
        <select
          id={id}
          className={styles.select}
          aria-describedby={described}
          value={typeof value === "string" ? value : ""}
          onChange={(event) => onChange(event.target.value === "" ? null : event.target.value)}
        >
          <option value="">not said</option>
          {options.map((one) => (
            <option key={one.id} value={one.id}>
              {[
                titleOf(records, field.to, one),
                field.to === "anchor" ? lineOf(records, "anchor", one, say).split(" · ")[0] : "",
              ]
                .filter((part) => part !== "")
                .join(", ")}
            </option>
          ))}
        </select>
      )}
    </Framed>
  );
}
