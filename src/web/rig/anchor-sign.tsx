import { DEGREES } from "../../quantity/index.ts";
import styles from "./drawing.module.css";

/** The anchor: a sign, not to scale, turned as it is pulled; the arrow shows the angle true. */
export function AnchorSign({
  x,
  y,
  angle,
  bottom,
}: {
  readonly x: number;
  readonly y: number;
  /** Of the pull, rad above the horizontal. */
  readonly angle: number;
  /** Slope of the ground, rad. */
  readonly bottom: number;
}) {
  const turn = -angle * DEGREES;
  const arrow = 62;
  const wide = (angle - bottom) * 40 > 1.5;
  const from = `${x + 40 * Math.cos(bottom)} ${y - 40 * Math.sin(bottom)}`;
  const to = `${x + 40 * Math.cos(angle)} ${y - 40 * Math.sin(angle)}`;
  return (
    <g>
      {wide && <path className={styles.angle} d={`M${x} ${y}L${from}A40 40 0 0 0 ${to}Z`} />}
      <g transform={`translate(${x} ${y}) rotate(${turn})`}>
        <path className={styles.shank} d="M0 0L-30 0" />
        <path className={styles.anchor} d="M-30-5q-7 5-6 15l20-8q-9 0-14-7z" />
        <path className={styles.arrow} d={`M6 0H${arrow}M${arrow - 8}-5L${arrow} 0l-8 5`} />
      </g>
    </g>
  );
}
