import { memo, type ReactNode, useId, useMemo } from "react";
import { formatQuantity, inUnit, significant } from "../../quantity/index.ts";
import {
  type Boat,
  type Conditions,
  type DesignLoadTable,
  designLoadTables,
  type Estimate,
  engineThrustOf,
  gustOf,
  steadyLoad,
  type WindLoadCurve,
  windLoadCurve,
} from "../../sea/index.ts";
import { roundAbove, ticks } from "../show/ticks.ts";
import { useSize } from "../show/use-size.ts";
import { useUnits } from "../state/preferences.ts";
import { Axes } from "./axes.tsx";
import { area, type Plot, plotIn, stroke, xOf, yOf } from "./axis.ts";
import styles from "./chart.module.css";
import type { Road } from "./desk.ts";
import type { FadeShown } from "./fade.ts";
import type { LoadsAt } from "./loads.ts";
import { TableSign } from "./table-sign.tsx";
import { WindSlide } from "./wind-slide.tsx";

const STEPS = 56;

/** Winds a curve is drawn at, m/s, closer together where the wind is light. */
export const windsTo = (most: number): readonly number[] =>
  Array.from({ length: STEPS }, (_, i) => most * (0.01 + (0.99 * i) / (STEPS - 1)));

/** All that stands still while the pointer moves. */
export interface LoadCurves {
  readonly winds: readonly number[];
  readonly curve: WindLoadCurve;
  readonly gust: readonly Estimate[] | null;
  readonly highest: number;
}

export function useLoadCurves(boat: Boat, conditions: Conditions, most: number): LoadCurves {
  return useMemo(() => {
    const winds = windsTo(most);
    const curve = windLoadCurve(boat, winds, conditions, designLoadTables);
    const asked = conditions.gust;
    const gust =
      boat.windage === undefined || asked === undefined
        ? null
        : winds.map((wind) => steadyLoad(boat, { value: wind * gustOf(asked, wind).factor, u: 0 }, conditions));
    const last = curve.rows.at(-1)!;
    const tops = [
      last.windage?.high ?? 0,
      gust?.at(-1)?.value ?? 0,
      ...last.measured.map(({ mean, peak }) => Math.max(mean.high, peak?.value ?? 0)),
      ...curve.points.map(({ load, peak }) => 1.1 * (peak ?? load)),
    ];
    const own = Math.max(...tops);
    // The tables lie above; they may stretch the axis, but not press the boat's own curves flat.
    const tables = curve.tablePoints.filter(({ wind }) => wind <= most).map(({ load }) => 1.05 * load);
    const highest = own > 0 ? Math.max(own, ...tables.filter((load) => load <= 1.8 * own)) : Math.max(1, ...tables);
    return { winds, curve, gust, highest: roundAbove(highest) };
  }, [boat, conditions, most]);
}

/** Load over wind: the boat's own points with their band, its windage with its band, and the tables as faint marks. */
export function LoadChart({
  curves,
  boat,
  most,
  road,
  now,
  kept,
  fade,
}: {
  readonly curves: LoadCurves;
  readonly boat: Boat;
  readonly most: number;
  readonly road: Road | null;
  readonly now: LoadsAt;
  readonly kept: number;
  readonly fade: FadeShown | null;
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
              yTicks={ticks(0, curves.highest * per, plot.height / 36).map((value) => ({
                at: value / per,
                text: significant(value),
              }))}
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
      <Key curves={curves} boat={boat} />
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

function Key({ curves, boat }: { readonly curves: LoadCurves; readonly boat: Boat }) {
  const { curve, gust } = curves;
  const peaks = curve.rows[0]!.measured.some(({ peak }) => peak !== undefined);
  const entries: { name: string; sign: ReactNode }[] = [];
  if (curve.points.length > 0) {
    entries.push({
      name: "own points and their law, 95 % and the next reading",
      sign: (
        <>
          <rect className={styles.ownBand} width="28" height="14" />
          <path className={styles.own} d="M0 9L28 4" />
          <path className={styles.point} d="M14 2l5 5-5 5-5-5Z" />
        </>
      ),
    });
  }
  if (peaks) {
    entries.push({
      name: "brief peaks",
      sign: (
        <>
          <path className={styles.ownPeak} d="M0 7H28" />
          <path className={styles.point} d="M14 2l5 9H9Z" />
        </>
      ),
    });
  }
  if (boat.windage !== undefined) {
    entries.push({
      name: "by windage, 95 %",
      sign: (
        <>
          <rect className={styles.windageBand} width="28" height="14" />
          <path className={styles.windage} d="M0 9L28 4" />
        </>
      ),
    });
  }
  if (gust !== null) entries.push({ name: "in the gust", sign: <path className={styles.windageGust} d="M0 7H28" /> });
  return (
    <ul className={styles.key} aria-label="Signs">
      {entries.map(({ name, sign }) => (
        <li key={name}>
          <svg viewBox="0 0 28 14" aria-hidden="true">
            {sign}
          </svg>
          {name}
        </li>
      ))}
    </ul>
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

export const tablesOf = ({ curve }: LoadCurves): readonly DesignLoadTable[] => [
  ...new Set(curve.tablePoints.map(({ table }) => table)),
];
