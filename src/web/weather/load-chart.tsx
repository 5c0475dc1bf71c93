import { memo, type ReactNode, useId, useMemo } from "react";
import { formatQuantity, inUnit } from "../../quantity/index.ts";
import { type Boat, type Estimate, engineThrustOf, type WindLoadCurve } from "../../sea/index.ts";
import { useSize } from "../show/use-size.ts";
import { useUnits } from "../state/preferences.ts";
import { Axes } from "./axes.tsx";
import { area, type Plot, plotIn, stroke, xOf, yOf } from "./axis.ts";
import styles from "./chart.module.css";
import type { Road } from "./desk.ts";
import type { FadeShown } from "./fade.ts";
import type { LoadCurves } from "./load-curves.ts";
import { LoadKey } from "./load-key.tsx";
import type { LoadsAt } from "./loads.ts";
import { TableSign } from "./table-sign.tsx";
import { WindSlide } from "./wind-slide.tsx";

/** Load over wind: the boat's own points with their band, its windage with its band, and the tables as faint marks. */
export function LoadChart({
  curves,
  boat,
  most,
  road,
  now,
  kept,
  fade,
  children,
}: {
  readonly curves: LoadCurves;
  readonly boat: Boat;
  readonly most: number;
  readonly road: Road | null;
  readonly now: LoadsAt;
  readonly kept: number;
  readonly fade: FadeShown | null;
  /** Stands between the chart and its signs. */
  readonly children?: ReactNode;
}) {
  const [ref, { width, height }] = useSize<SVGSVGElement>();
  const { unitOf } = useUnits();
  const id = useId();
  const [windUnit, loadUnit] = [unitOf("wind", "speed", "kn"), unitOf("load", "force")];
  const plot = useMemo(() => plotIn(width, height, most, curves.highest), [width, height, most, curves.highest]);
  const per = inUnit(1, loadUnit, "force");
  const shown = now.weather.wind.value;
  return (
    <figure className={styles.figure}>
      <figcaption className="unseen">
        Horizontal load over the mean wind at 10 m. {toldOf(curves, windUnit, loadUnit)}
      </figcaption>
      {/* biome-ignore lint/a11y/useSemanticElements: a chart with a slider in it is no set of fields */}
      <svg ref={ref} className={styles.drawing} role="group" aria-label="Load over wind">
        {width > 0 && (
          <>
            <clipPath id={`${id}-plot`}>
              <rect x={plot.left} y={0} width={plot.width + 18} height={plot.top + plot.height} />
            </clipPath>
            <Axes
              plot={plot}
              windUnit={windUnit}
              xLabel={`mean wind at 10 m, ${windUnit}`}
              perUnit={per}
              between={36}
            />
            <text className={styles.text} x={plot.left + 6} y={plot.top + 4}>
              load, {loadUnit}
            </text>
            <g clipPath={`url(#${CSS.escape(id)}-plot)`}>
              <Standing plot={plot} curves={curves} boat={boat} fade={fade} />
            </g>
            <WindSlide plot={plot} shown={shown} kept={kept} handle />
            <Marks plot={plot} road={road} now={now} />
          </>
        )}
      </svg>
      {children}
      <LoadKey curves={curves} boat={boat} />
    </figure>
  );
}

/** What moves with the pointer: the load it reads on the road taken. */
function Marks({ plot, road, now }: { readonly plot: Plot; readonly road: Road | null; readonly now: LoadsAt }) {
  const x = xOf(plot, now.weather.wind.value);
  const kind = road === "windage" ? "windage" : "own";
  return (
    <g clipPath={undefined}>
      {[now.peak, now.mean].map((load, i) =>
        load === null || load.value > plot.highest ? null : (
          <circle
            key={i === 0 ? "peak" : "mean"}
            className={styles.mark}
            data-road={kind}
            cx={x}
            cy={yOf(plot, load.value)}
            r={i === 0 ? 4.5 : 6.5}
          />
        ),
      )}
    </g>
  );
}

const Standing = memo(function Standing({
  plot,
  curves,
  boat,
  fade,
}: {
  readonly plot: Plot;
  readonly curves: LoadCurves;
  readonly boat: Boat;
  readonly fade: FadeShown | null;
}) {
  const { winds, curve, gust } = curves;
  const thrust = engineThrustOf(boat);
  const tables = [...new Set(curve.tablePoints.map(({ table }) => table))];
  return (
    <>
      {fade !== null && <FadeMark plot={plot} fade={fade} />}
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

function OwnPoints({ plot, curve }: { readonly plot: Plot; readonly curve: WindLoadCurve }) {
  return curve.points.map(({ windAt10m: wind, load, peak, uncertainty: u }, i) => {
    const [x, y] = [xOf(plot, wind), yOf(plot, load)];
    const across = u.wind === undefined ? "" : `M${xOf(plot, wind - u.wind)} ${y}H${xOf(plot, wind + u.wind)}`;
    const upright = u.load === undefined ? "" : `M${x} ${yOf(plot, load - u.load)}V${yOf(plot, load + u.load)}`;
    const top = peak === undefined ? null : yOf(plot, peak);
    return (
      // biome-ignore lint/suspicious/noArrayIndexKey: points have no name, and may be alike
      <g key={i} className={styles.point}>
        <path d={across + upright} />
        <path d={`M${x} ${y - 5}l5 5l-5 5l-5-5Z`} />
        {top !== null && <path d={`M${x} ${top - 4.5}l4.5 8h-9Z`} />}
      </g>
    );
  });
}

function FadeMark({ plot, fade }: { readonly plot: Plot; readonly fade: FadeShown }) {
  const x = xOf(plot, fade.wind);
  if (fade.wind > plot.most) return null;
  const half = Math.max(0, (fade.u / plot.most) * plot.width);
  const right = plot.left + plot.width;
  const lines = Array.from(
    { length: Math.ceil((right - x) / 7) },
    (_, i) => `M${x + 7 * i} ${plot.top + plot.height}l7-9`,
  );
  return (
    <g>
      {half > 0 && <rect className={styles.fadeBand} x={x - half} y={plot.top} width={2 * half} height={plot.height} />}
      <path className={styles.fade} d={`M${x} ${plot.top}V${plot.top + plot.height}`} />
      <path className={styles.hatch} d={lines.join("")} />
      <text
        className={`${styles.text} ${styles.named}`}
        x={x + (x > plot.left + 0.6 * plot.width ? -6 : 6)}
        y={plot.top + 26}
        textAnchor={x > plot.left + 0.6 * plot.width ? "end" : "start"}
      >
        catenary ends
      </text>
    </g>
  );
}

function toldOf({ curve }: LoadCurves, windUnit: string, loadUnit: string): string {
  const row = curve.rows.at(-1)!;
  const say = (name: string, { value, u }: Estimate) =>
    `${name} ${formatQuantity(value, "force", { unit: loadUnit, u })}`;
  const said = [
    ...(row.windage === undefined ? [] : [say("by windage", row.windage)]),
    ...row.measured.map(({ mean }) => say("by its own points", mean)),
  ];
  return `At ${formatQuantity(row.wind, "speed", { unit: windUnit, digits: 3 })}: ${said.join(", ")}.`;
}
