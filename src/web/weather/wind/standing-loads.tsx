import { memo } from "react";
import { type Boat, engineThrustOf } from "../../../sea/index.ts";
import { area, type Plot, stroke, xOf, yOf } from "./axis.ts";
import type { CatenaryEndShown } from "./catenary-end.ts";
import { CatenaryEndMark } from "./catenary-end-mark.tsx";
import styles from "./chart.module.css";
import type { LoadCurves } from "./load-curves.ts";
import { OwnPoints } from "./own-points.tsx";
import { TableSign } from "./table-sign.tsx";

/** What stands on the chart of loads while the pointer moves: bands, curves, points and tables. */
export const StandingLoads = memo(function StandingLoads({
  plot,
  curves,
  boat,
  fade,
}: {
  readonly plot: Plot;
  readonly curves: LoadCurves;
  readonly boat: Boat;
  readonly fade: CatenaryEndShown | null;
}) {
  const { winds, curve, gust } = curves;
  const thrust = engineThrustOf(boat);
  const tables = [...new Set(curve.tablePoints.map(({ table }) => table))];
  return (
    <>
      {fade !== null && <CatenaryEndMark plot={plot} fade={fade} />}
      {boat.windage !== undefined && (
        <path
          className={styles.windageBand}
          d={area(
            plot,
            winds,
            curve.rows.map(({ windage }) => windage!.low),
            curve.rows.map(({ windage }) => windage!.high),
          )}
        />
      )}
      {curve.rows[0]!.measured.map(({ at }, i) => {
        const of = (row: (typeof curve.rows)[number]) => row.measured[i]!;
        return (
          <g key={at}>
            <path
              className={styles.ownBand}
              d={area(
                plot,
                winds,
                curve.rows.map((row) => of(row).mean.newReading.low),
                curve.rows.map((row) => of(row).mean.newReading.high),
              )}
            />
            <path
              className={styles.ownBand}
              d={area(
                plot,
                winds,
                curve.rows.map((row) => of(row).mean.low),
                curve.rows.map((row) => of(row).mean.high),
              )}
            />
          </g>
        );
      })}
      {thrust !== undefined && thrust.value < plot.highest && (
        <g>
          <path className={styles.thrust} d={`M${plot.left} ${yOf(plot, thrust.value)}h${plot.width}`} />
          <text className={`${styles.text} ${styles.named}`} x={plot.left + 6} y={yOf(plot, thrust.value) - 5}>
            engine's full thrust
          </text>
        </g>
      )}
      {tables.map((table, i) =>
        curve.tablePoints
          .filter((point) => point.table === table && point.wind <= plot.most)
          .map(({ wind, load }) => {
            const beyond = load > plot.highest;
            return (
              <g
                key={`${table.name} ${wind}`}
                transform={`translate(${xOf(plot, wind)} ${beyond ? plot.top + 6 : yOf(plot, load)})`}
              >
                {beyond ? <path className={styles.table} d="M0-5V6M-4-1L0-5l4 4" /> : <TableSign index={i} />}
              </g>
            );
          }),
      )}
      {gust !== null && (
        <path
          className={styles.windageGust}
          d={stroke(
            plot,
            winds,
            gust.map(({ value }) => value),
          )}
        />
      )}
      {boat.windage !== undefined && (
        <path
          className={styles.windage}
          d={stroke(
            plot,
            winds,
            curve.rows.map(({ windage }) => windage!.value),
          )}
        />
      )}
      {curve.rows[0]!.measured.map(({ at, peak }, i) => (
        <g key={at}>
          {peak !== undefined && (
            <path
              className={styles.ownPeak}
              d={stroke(
                plot,
                winds,
                curve.rows.map((row) => row.measured[i]!.peak!.value),
              )}
            />
          )}
          <path
            className={styles.own}
            d={stroke(
              plot,
              winds,
              curve.rows.map((row) => row.measured[i]!.mean.value),
            )}
          />
        </g>
      ))}
      <OwnPoints plot={plot} curve={curve} />
    </>
  );
});
