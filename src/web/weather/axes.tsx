import { inUnit, significant } from "../../quantity/index.ts";
import { ticks } from "../show/ticks.ts";
import { type Plot, xOf, yOf } from "./axis.ts";
import styles from "./chart.module.css";

/** Frame, grid and words of a chart over the wind. */
export function Axes({
  plot,
  windUnit,
  yTicks,
  xLabel,
}: {
  readonly plot: Plot;
  readonly windUnit: string;
  /** Where the y axis is marked, in SI, and what stands there. */
  readonly yTicks: readonly { readonly at: number; readonly text: string }[];
  readonly xLabel: string;
}) {
  const bottom = plot.top + plot.height;
  const per = inUnit(1, windUnit, "speed");
  return (
    <g>
      {yTicks.map(({ at, text }) => (
        <g key={text}>
          <path className={styles.grid} d={`M${plot.left} ${yOf(plot, at)}h${plot.width}`} />
          <text className={styles.text} x={plot.left - 6} y={yOf(plot, at) + 4} textAnchor="end">
            {text}
          </text>
        </g>
      ))}
      {ticks(0, plot.most * per, plot.width / 64).map((value) => (
        <g key={value}>
          <path className={styles.grid} d={`M${xOf(plot, value / per)} ${bottom}v5`} />
          <text className={styles.text} x={xOf(plot, value / per)} y={bottom + 26} textAnchor="middle">
            {significant(value)}
          </text>
        </g>
      ))}
      <path className={styles.base} d={`M${plot.left} ${plot.top}V${bottom}H${plot.left + plot.width}`} />
      <text className={styles.text} x={plot.left + plot.width} y={bottom + 44} textAnchor="end">
        {xLabel}
      </text>
    </g>
  );
}
