import { roundBelow } from "../../../numeric/index.ts";
import { NAUTICAL_MILE } from "../../../quantity/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
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
  const foot = props.system === "us" ? 0.3048 : 1;
  const metres = roundBelow((props.most * props.metre) / foot) * foot;
  const long = metres / props.metre;
  return (
    <g className={styles.scale} transform={`translate(${props.x} ${props.y})`}>
      <path d={`M0-5V0H${long}V-5`} />
      <text x={long / 2} y={-9}>
        {scaleText(metres, props.system)}
      </text>
    </g>
  );
}

function scaleText(metres: number, system: "metric" | "us"): string {
  if (system === "us") {
    const miles = metres / NAUTICAL_MILE;
    return miles >= 1 ? `${Number(miles.toPrecision(2))} nmi` : `${Math.round(metres / 0.3048)} ft`;
  }
  return metres >= 1000
    ? formatQuantity(metres, "length", { unit: "km", digits: 2 })
    : formatQuantity(metres, "length", { unit: "m", digits: 2 });
}
