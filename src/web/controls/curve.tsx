import { memo, useId, useMemo } from "react";
import { ticks } from "../../numeric/index.ts";
import type { FigureKindName } from "../../publish/index.ts";
import { FigureFrame } from "../figure/figure-frame.tsx";
import type { Shown } from "../figure/shown-figure.ts";
import styles from "./curve.module.css";
import { significant } from "./numbers.ts";
import { useSize } from "./use-size.ts";

/** A line of a curve in the units shown; NaN breaks it. */
export interface Line {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  /** Standard uncertainty of y at each x: a band; NaN where it is not known. */
  readonly u?: ArrayLike<number> | undefined;
  /** computed: drawn through; other: dashed, for what is laid over. */
  readonly kind?: "computed" | "other";
  /** What it is called where it is read off. */
  readonly name?: string;
}

export interface CurveMark {
  readonly x: number;
  readonly y: number;
  /** Standard uncertainty of y. */
  readonly u?: number | undefined;
  readonly kind: "computed" | "measured";
}

export interface CurveAxis {
  readonly label: string;
  readonly unit: string;
}

export interface CurveProps {
  /** What it is called among the figures. */
  readonly kind: FigureKindName;
  readonly title: string;
  /** One sentence of what it shows, for those who do not see it. */
  readonly told: string;
  readonly x: CurveAxis;
  readonly y: CurveAxis;
  readonly xRange: readonly [number, number];
  readonly yRange: readonly [number, number];
  readonly lines: readonly Line[];
  readonly marks?: readonly CurveMark[];
  /** What is said while there is no line yet: "working out the curve…". */
  readonly pending?: string;
  /** An upright of note: "lifts". */
  readonly at?: { readonly x: number; readonly label: string } | null;
}

const LEFT = 46;
const RIGHT = 20;
const TOP = 10;
const BOTTOM = 40;

/** A curve with its bands and marks: light enough to be drawn again at every frame. */
export function Curve(props: CurveProps) {
  const [ref, { width, height }] = useSize<SVGSVGElement>();
  const id = useId();
  const { xRange, yRange, marks = [], at = null } = props;
  const drawable = props.lines.some(({ y: values }) => Array.prototype.some.call(values, Number.isFinite));
  const plot = useMemo(
    () => ({ width: Math.max(10, width - LEFT - RIGHT), height: Math.max(10, height - TOP - BOTTOM) }),
    [width, height],
  );
  const shown = useMemo(
    (): Shown | null =>
      width === 0 || !drawable
        ? null
        : {
            width,
            height,
            plots: [
              {
                box: { left: LEFT, right: LEFT + plot.width, top: TOP, bottom: TOP + plot.height },
                x: { ...props.x, from: xRange[0], to: xRange[1] },
                y: { ...props.y, from: yRange[0], to: yRange[1] },
                series: props.lines.map(({ x, y, u, name = "" }) => ({ kind: "line", name, x, y, u })),
              },
            ],
          },
    [width, height, drawable, plot, props.x, props.y, props.lines, xRange, yRange],
  );
  const x = (value: number) => LEFT + ((value - xRange[0]) / (xRange[1] - xRange[0])) * plot.width;
  const y = (value: number) => TOP + (1 - (value - yRange[0]) / (yRange[1] - yRange[0])) * plot.height;
  return (
    <FigureFrame kind={props.kind} title={props.title} shown={shown}>
      <svg ref={ref} className={styles.drawing} role="img" aria-label={props.title} aria-describedby={`${id}-told`}>
        {width > 0 && (
          <>
            <clipPath id={`${id}-frame`}>
              <rect x={LEFT} y={0} width={plot.width + RIGHT} height={height - BOTTOM + 1} />
            </clipPath>
            {drawable && (
              <Axes
                xRange={xRange}
                yRange={yRange}
                xLabel={`${props.x.label}, ${props.x.unit}`}
                width={plot.width}
                height={plot.height}
              />
            )}
            <g clipPath={`url(#${CSS.escape(id)}-frame)`}>
              {at !== null && at.x >= xRange[0] && at.x <= xRange[1] && (
                <g>
                  <path className={styles.upright} d={`M${x(at.x)} ${TOP}V${TOP + plot.height}`} />
                  <text
                    className={styles.text}
                    x={x(at.x) + (at.x > (xRange[0] + xRange[1]) / 2 ? -5 : 5)}
                    y={TOP + 12}
                    textAnchor={at.x > (xRange[0] + xRange[1]) / 2 ? "end" : "start"}
                  >
                    {at.label}
                  </text>
                </g>
              )}
              {!drawable && (
                <text className={styles.text} x={LEFT + plot.width / 2} y={TOP + plot.height / 2} textAnchor="middle">
                  {props.pending ?? "no equilibrium at any of these loads"}
                </text>
              )}
              <Lines lines={props.lines} xRange={xRange} yRange={yRange} width={plot.width} height={plot.height} />
              {marks.map((mark) => (
                <g
                  key={`${mark.kind} ${mark.x} ${mark.y}`}
                  className={styles.mark}
                  data-kind={mark.kind}
                  transform={`translate(${x(mark.x)} ${y(mark.y)})`}
                >
                  {mark.u !== undefined && mark.u > 0 && (
                    <path d={`M0 ${y(mark.y - mark.u) - y(mark.y)}V${y(mark.y + mark.u) - y(mark.y)}`} />
                  )}
                  {mark.kind === "computed" ? <circle r="6" /> : <path d="M0-6L6 0L0 6L-6 0Z" />}
                </g>
              ))}
            </g>
          </>
        )}
      </svg>
      <p className="unseen" id={`${id}-told`}>
        {props.told}
      </p>
    </FigureFrame>
  );
}

const Axes = memo(function Axes({
  xRange,
  yRange,
  xLabel,
  width,
  height,
}: Pick<CurveProps, "xRange" | "yRange"> & {
  readonly xLabel: string;
  readonly width: number;
  readonly height: number;
}) {
  const x = (value: number) => LEFT + ((value - xRange[0]) / (xRange[1] - xRange[0])) * width;
  const y = (value: number) => TOP + (1 - (value - yRange[0]) / (yRange[1] - yRange[0])) * height;
  const bottom = TOP + height;
  return (
    <g>
      {ticks(yRange[0], yRange[1], height / 34).map((value) => (
        <g key={value}>
          <path className={styles.grid} d={`M${LEFT} ${y(value)}h${width}`} />
          <text className={styles.text} x={LEFT - 6} y={y(value) + 4} textAnchor="end">
            {significant(value)}
          </text>
        </g>
      ))}
      {ticks(xRange[0], xRange[1], width / 64).map((value) => (
        <g key={value}>
          <path className={styles.grid} d={`M${x(value)} ${bottom}v4`} />
          <text className={styles.text} x={x(value)} y={bottom + 17} textAnchor="middle">
            {significant(value)}
          </text>
        </g>
      ))}
      <path className={styles.base} d={`M${LEFT} ${TOP}V${bottom}H${LEFT + width}`} />
      <text className={styles.text} x={LEFT + width} y={bottom + 34} textAnchor="end">
        {xLabel}
      </text>
    </g>
  );
});

/** Apart from the marks, which move at every frame while the lines stand still. */
const Lines = memo(function Lines({
  lines,
  xRange,
  yRange,
  width,
  height,
}: {
  readonly lines: readonly Line[];
  readonly xRange: readonly [number, number];
  readonly yRange: readonly [number, number];
  readonly width: number;
  readonly height: number;
}) {
  const x = (value: number) => LEFT + ((value - xRange[0]) / (xRange[1] - xRange[0])) * width;
  const y = (value: number) => TOP + (1 - (value - yRange[0]) / (yRange[1] - yRange[0])) * height;
  const point = (px: number, py: number) => `${x(px).toFixed(1)} ${y(py).toFixed(1)}`;
  return (
    <>
      {lines.map((line) => {
        const { u } = line;
        let stroke = "";
        let upper = "";
        let lower = "";
        for (let i = 0; i < line.x.length; i++) {
          const [px, py] = [line.x[i]!, line.y[i]!];
          if (!(Number.isFinite(px) && Number.isFinite(py))) {
            if (stroke !== "" && !stroke.endsWith("M")) stroke += "M";
            continue;
          }
          stroke += stroke === "" ? `M${point(px, py)}` : stroke.endsWith("M") ? point(px, py) : `L${point(px, py)}`;
          const spread = u?.[i];
          if (spread !== undefined && Number.isFinite(spread)) {
            upper += `${upper === "" ? "M" : "L"}${point(px, py + spread)}`;
            lower = `L${point(px, py - spread)}${lower}`;
          }
        }
        if (stroke.endsWith("M")) stroke = stroke.slice(0, -1);
        return (
          <g key={line.name ?? line.kind ?? "line"}>
            {upper !== "" && <path className={styles.band} d={`${upper}${lower}Z`} />}
            <path className={styles.line} data-kind={line.kind ?? "computed"} d={stroke} />
          </g>
        );
      })}
    </>
  );
});
