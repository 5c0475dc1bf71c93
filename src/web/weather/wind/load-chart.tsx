import { type ReactNode, useId, useMemo } from "react";
import { inUnit } from "../../../quantity/index.ts";
import type { Boat, Estimate } from "../../../sea/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { useSize } from "../../controls/use-size.ts";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { useUnits } from "../../state/preferences.ts";
import type { LoadsAt } from "../loads.ts";
import type { Road } from "../state.ts";
import { Axes } from "./axes.tsx";
import { type Plot, plotIn, xOf, yOf } from "./axis.ts";
import type { CatenaryEndShown } from "./catenary-end.ts";
import styles from "./chart.module.css";
import type { LoadCurves } from "./load-curves.ts";
import { LoadKey } from "./load-key.tsx";
import { shownLoads } from "./shown-loads.ts";
import { StandingLoads } from "./standing-loads.tsx";
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
  readonly fade: CatenaryEndShown | null;
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
  const drawn = useMemo(() => shownLoads(curves, plot, windUnit, loadUnit), [curves, plot, windUnit, loadUnit]);
  return (
    <FigureFrame
      kind="weather"
      title={`${boat.name}: load over wind`}
      titleUnseen
      ownHand
      shown={drawn}
      caption={
        <div className={styles.figure}>
          {children}
          <LoadKey curves={curves} boat={boat} />
        </div>
      }
    >
      <p className="unseen">Horizontal load over the mean wind at 10 m. {toldOf(curves, windUnit, loadUnit)}</p>
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
              <StandingLoads plot={plot} curves={curves} boat={boat} fade={fade} />
            </g>
            <WindSlide plot={plot} shown={shown} kept={kept} handle />
            <Marks plot={plot} road={road} now={now} />
          </>
        )}
      </svg>
    </FigureFrame>
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
