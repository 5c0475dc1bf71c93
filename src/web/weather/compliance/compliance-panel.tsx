import { useId, useMemo } from "react";
import type { FigureTable } from "../../../figure/index.ts";
import { inUnit } from "../../../quantity/index.ts";
import type { Rig } from "../../../rode/index.ts";
import { complianceOf, complianceShown, complianceText, complianceUnit } from "../../../words/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { FoldingPanel } from "../../controls/panel.tsx";
import { QuantityField } from "../../controls/quantity-field.tsx";
import { useSize } from "../../controls/use-size.ts";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { useUnits } from "../../state/preferences.ts";
import styles from "../place.module.css";
import { change } from "../store.ts";
import { Axes } from "../wind/axes.tsx";
import { area, plotIn, stroke, xOf, yOf } from "../wind/axis.ts";
import type { CatenaryEndShown } from "../wind/catenary-end.ts";
import chart from "../wind/chart.module.css";
import { WindSlide } from "../wind/wind-slide.tsx";
import type { ComplianceOverWind } from "./compliance-over-wind.ts";

/** How far a little more load draws the boat back, over the same axis of the wind: by weight raised and by stretch. */
export function CompliancePanel({
  rig,
  winds,
  found,
  fade,
  give,
  most,
  shown,
  kept,
  loadName,
}: {
  readonly rig: Rig;
  readonly winds: readonly number[];
  readonly found: ComplianceOverWind | null;
  readonly fade: CatenaryEndShown | null;
  readonly give: number;
  readonly most: number;
  readonly shown: number;
  readonly kept: number;
  readonly loadName: string;
}) {
  const { system, unitOf } = useUnits();
  const windUnit = unitOf("wind", "speed", "kn");
  const words = useMemo(() => {
    if (found === null) return null;
    const asked = complianceText(give, system);
    const load = (value: number, u: number) =>
      formatQuantity(value, "force", { system, unit: unitOf("load", "force"), ...(u > 0 ? { u } : { digits: 2 }) });
    const { fade: answer } = found;
    if (answer.kind === "fades" && found.load !== null) {
      const wind =
        fade === null
          ? "more wind than can be told"
          : formatQuantity(fade.wind, "speed", { unit: windUnit, ...(fade.u > 0 ? { u: fade.u } : { digits: 2 }) });
      return `Past ${load(found.load, found.u)}, ${wind}, raising ${rig.name} gives less than ${asked}: from there stretch must give.`;
    }
    if (answer.kind === "neverEnough") return `Raising ${rig.name} never gives ${asked}: stretch must.`;
    if (answer.kind === "alwaysEnough") return `Raising ${rig.name} gives more than ${asked} at every load looked at.`;
    return "This rode has no equilibrium at these loads.";
  }, [found, fade, give, system, unitOf, windUnit, rig.name]);
  return (
    <FoldingPanel name="catenary" title="Where catenary ends">
      <div className={styles.asked}>
        <QuantityField
          field="give"
          plain
          label={`Give asked of the rode's weight, ${complianceUnit[system]}`}
          dimension="ratio"
          value={complianceShown(give, system)}
          digits={3}
          range={{ above: 0, most: 1e6, expected: "a give above zero is expected" }}
          onChange={(value) => change({ give: complianceOf(value, system) }, "give asked", "give asked")}
        />
        <p className={styles.said}>{words ?? "…"}</p>
      </div>
      {found !== null && (
        <GiveChart winds={winds} found={found} fade={fade} give={give} most={most} shown={shown} kept={kept} />
      )}
      <p className={styles.quiet}>
        How much farther the boat lies for each step of {loadName}, at the mean load of each wind. Weight that is raised
        gives much in light winds and little in strong ones; stretch gives on.
      </p>
    </FoldingPanel>
  );
}

function GiveChart({
  winds,
  found,
  fade,
  give,
  most,
  shown,
  kept,
}: {
  readonly winds: readonly number[];
  readonly found: ComplianceOverWind;
  readonly fade: CatenaryEndShown | null;
  readonly give: number;
  readonly most: number;
  readonly shown: number;
  readonly kept: number;
}) {
  const [ref, { width, height }] = useSize<SVGSVGElement>();
  const { system, unitOf } = useUnits();
  const id = useId();
  const windUnit = unitOf("wind", "speed", "kn");
  // Give grows without end towards calm: the axis shows what is asked, and four times that.
  const highest = 4 * give;
  const plot = useMemo(() => plotIn(width, height, most, highest), [width, height, most, highest]);
  const d = useMemo(() => {
    const zero = new Float64Array(winds.length);
    const whole = found.weight.map((weight, i) => weight + found.stretch[i]!);
    const clip = (values: Float64Array) => values.map((value) => Math.min(value, 1.2 * highest));
    return {
      weight: area(plot, winds, zero, clip(found.weight)),
      stretch: area(plot, winds, clip(found.weight), clip(whole)),
      edge: stroke(plot, winds, clip(found.weight)),
      whole: stroke(plot, winds, clip(whole)),
    };
  }, [plot, winds, found, highest]);
  const nearest = winds.reduce(
    (best, wind, i) => (Math.abs(wind - shown) < Math.abs(winds[best]! - shown) ? i : best),
    0,
  );
  const per = complianceShown(1, system);
  const table = (): FigureTable => ({
    columns: [
      `mean wind at 10 m, ${windUnit}`,
      ...["weight raised", "stretch"].map((of) => `${of}, ${complianceUnit[system]}`),
    ],
    rows: winds.map((wind, i) => [
      inUnit(wind, windUnit, "speed"),
      complianceShown(found.weight[i]!, system),
      complianceShown(found.stretch[i]!, system),
    ]),
  });
  return (
    <FigureFrame kind="give" title="Give of the rode over the wind" titleUnseen ownHand table={table}>
      <div className={chart.figure}>
        <p className="unseen">
          Give per load over the wind: {complianceText(found.weight[nearest] ?? 0, system)} by weight and{" "}
          {complianceText(found.stretch[nearest] ?? 0, system)} by stretch in the wind under the pointer.
        </p>
        {/* biome-ignore lint/a11y/useSemanticElements: a chart is no set of fields */}
        <svg ref={ref} className={`${chart.drawing} ${chart.low}`} role="group" aria-label="Give over wind">
          {width > 0 && (
            <>
              <defs>
                <clipPath id={`${id}-plot`}>
                  <rect x={plot.left} y={plot.top} width={plot.width} height={plot.height} />
                </clipPath>
                <pattern
                  id={`${id}-stretch`}
                  width="6"
                  height="6"
                  patternUnits="userSpaceOnUse"
                  patternTransform="rotate(45)"
                >
                  <path className={chart.hatch} d="M0 0V6" />
                </pattern>
              </defs>
              <Axes
                plot={plot}
                windUnit={windUnit}
                xLabel={`mean wind at 10 m, ${windUnit}`}
                perUnit={per}
                between={30}
              />
              <g clipPath={`url(#${CSS.escape(id)}-plot)`}>
                <path className={chart.windageBand} d={d.weight} />
                <path d={d.stretch} fill={`url(#${CSS.escape(id)}-stretch)`} />
                <path className={chart.windage} d={d.edge} />
                <path className={chart.windageGust} d={d.whole} />
                <path className={chart.thrust} d={`M${plot.left} ${yOf(plot, give)}h${plot.width}`} />
                {fade !== null && fade.wind <= most && (
                  <>
                    {fade.u > 0 && (
                      <rect
                        className={chart.fadeBand}
                        x={xOf(plot, fade.wind - fade.u)}
                        y={plot.top}
                        width={xOf(plot, fade.u) * 2 - 2 * plot.left}
                        height={plot.height}
                      />
                    )}
                    <path className={chart.fade} d={`M${xOf(plot, fade.wind)} ${plot.top}V${plot.top + plot.height}`} />
                  </>
                )}
              </g>
              <text
                className={`${chart.text} ${chart.named}`}
                x={plot.left + plot.width - 4}
                y={yOf(plot, give) - 5}
                textAnchor="end"
              >
                asked
              </text>
              <text className={chart.text} x={plot.left + 6} y={plot.top - 3}>
                give, {complianceUnit[system]}
              </text>
              <WindSlide plot={plot} shown={shown} kept={kept} handle={false} />
            </>
          )}
        </svg>
        <ul className={chart.key} aria-label="Signs of the give">
          <li>
            <svg viewBox="0 0 28 14" aria-hidden="true">
              <rect className={chart.windageBand} y="4" width="28" height="10" />
              <path className={chart.windage} d="M0 4H28" />
            </svg>
            weight raised: {complianceText(found.weight[nearest] ?? 0, system)}
          </li>
          <li>
            <svg viewBox="0 0 28 14" aria-hidden="true">
              <path className={chart.hatch} d="M2 14L12 4M10 14L20 4M18 14L28 4" />
              <path className={chart.windageGust} d="M0 4H28" />
            </svg>
            and stretch: {complianceText(found.stretch[nearest] ?? 0, system)}
          </li>
        </ul>
      </div>
    </FigureFrame>
  );
}
