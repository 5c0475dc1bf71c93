import { scaleBarOf } from "../../../figure/index.ts";
import styles from "./site-map.module.css";

/** A bar of a round length, in the reader's units. */
export function ScaleBar(props: {
  readonly x: number;
  readonly y: number;
  /** Metres a pixel is. */
  readonly metre: number;
  /** Longest it may be, px. */
  readonly most: number;
  readonly system: "metric" | "us";
}) {
  const { long, text } = scaleBarOf(props.metre, props.most, props.system);
  return (
    <g className={styles.scale} transform={`translate(${props.x} ${props.y})`}>
      <path d={`M0-5V0H${long}V-5`} />
      <text x={long / 2} y={-9}>
        {text}
      </text>
    </g>
  );
}
