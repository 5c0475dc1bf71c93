import type { KeyboardEvent } from "react";
import styles from "./site-map.module.css";

/** A site on the map: opened by pointer, finger or keys. */
export function SiteSign(props: {
  readonly x: number;
  readonly y: number;
  readonly label: string | null;
  readonly left: boolean;
  readonly name: string;
  readonly line: string;
  readonly place: string;
  readonly onOpen: () => void;
}) {
  const { label, name, line, place } = props;
  const key = (event: KeyboardEvent) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    props.onOpen();
  };
  const beside = props.left ? ({ x: -14, textAnchor: "end" } as const) : ({ x: 14, textAnchor: "start" } as const);
  // What is seen is said first, so that it can be asked for by voice.
  const said = label === null || label === name ? `${name} ${line}, ${place}` : `${label} ${line}: ${name}, ${place}`;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      data-site=""
      className={styles.site}
      transform={`translate(${props.x} ${props.y})`}
      role="button"
      tabIndex={0}
      aria-label={said}
      onClick={props.onOpen}
      onKeyDown={key}
    >
      <title>{`${name}\n${place}`}</title>
      <circle className={styles.reach} r="22" />
      <circle className={styles.dot} r="7" />
      {label !== null && (
        <>
          <text className={styles.name} {...beside} y="1">
            {label}
          </text>
          <text className={styles.line} {...beside} y="17">
            {line}
          </text>
        </>
      )}
    </g>
  );
}
