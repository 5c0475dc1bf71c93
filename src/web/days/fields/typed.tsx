import { useState } from "react";
import styles from "../place.module.css";
import { type FieldProps, Framed } from "./framed.tsx";

/** Text that is read as it is typed, and told in one line when it cannot be. */
export function Typed(
  props: Pick<FieldProps, "field" | "wrong" | "onChange" | "onWrong"> & {
    readonly shown: string;
    readonly unit: string;
    readonly read: (text: string) => number | null | string;
    readonly beside?: React.ReactNode;
    readonly below?: string;
  },
) {
  const [typed, setTyped] = useState<string | null>(null);
  return (
    <Framed field={props.below === undefined ? props.field : { ...props.field, hint: props.below }} wrong={props.wrong}>
      {({ id, described }) => (
        <span className={styles.with}>
          <input
            id={id}
            className={styles.input}
            type="text"
            inputMode={props.field.as === "place" ? "text" : "decimal"}
            autoComplete="off"
            aria-invalid={props.wrong !== null}
            aria-describedby={described}
            value={typed ?? props.shown}
            onChange={(event) => {
              setTyped(event.target.value);
              const read = props.read(event.target.value);
              if (typeof read === "string") props.onWrong(read);
              else props.onChange(read);
            }}
            onBlur={() => {
              if (props.wrong === null) setTyped(null);
            }}
          />
          {props.unit !== "" && <span className={styles.quiet}>{props.unit}</span>}
          {props.beside}
        </span>
      )}
    </Framed>
  );
}
