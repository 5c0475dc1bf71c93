import { memo } from "react";
import { ticks } from "../../../numeric/index.ts";
import { inUnit } from "../../../quantity/index.ts";
import { significant } from "../../controls/numbers.ts";
import { type Plot, xOf, yOf } from "./axis.ts";
import styles from "./chart.module.css";

/** Frame, grid and words of a chart over the wind. */
export const Axes = memo(function Axes({
  plot,
  windUnit,
  perUnit,
  between,
  xLabel,
}: {
  readonly plot: Plot;
  readonly windUnit: string;
  /** How many of the unit of the y axis one of SI is, and px between its marks. */
  readonly perUnit: number;
  readonly between: number;
  readonly xLabel: string;
}) {
  const bottom = plot.top + plot.height;
  const per = inUnit(1, windUnit, "speed");
  const marks = ticks(0, plot.highest * perUnit, plot.height / between).map((value) => ({
    at: value / perUnit,
    text: significant(value),
  }));
  return (
    <g>
      {marks.map(({ at, text }) => (
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
});
