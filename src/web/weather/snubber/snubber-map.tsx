import { memo, useId, useMemo } from "react";
import type { FigureTable } from "../../../figure/index.ts";
import { borderOf, type MapFrame, regionsOf } from "../../../figure/index.ts";
import { ticks } from "../../../numeric/index.ts";
import { inUnit } from "../../../quantity/index.ts";
import type { SnubberMap } from "../../../sizing/index.ts";
import { formatQuantity, significant } from "../../controls/numbers.ts";
import { useSize } from "../../controls/use-size.ts";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { useUnits } from "../../state/preferences.ts";
import chart from "../wind/chart.module.css";
import { ChosenPoint } from "./chosen-point.tsx";
import { type MapRange, xOf, yOf } from "./map-scale.ts";
import { reasonAt, reasonShown } from "./reasons.ts";
import styles from "./snubber-map.module.css";

const MARGIN = { left: 48, right: 14, top: 18, bottom: 42 };

/** Length × diameter: where a snubber is within all limits, and by which limit it is not elsewhere. */
export function SnubberMapView({
  map,
  range,
  length,
  diameter,
  verdict,
  onChoose,
}: {
  readonly map: SnubberMap;
  readonly range: MapRange;
  readonly length: number;
  readonly diameter: number;
  /** Of the chosen one, in words. */
  readonly verdict: string;
  readonly onChoose: (length: number, diameter: number, stroke: string) => void;
}) {
  const [ref, { width, height }] = useSize<SVGSVGElement>();
  const { unitOf } = useUnits();
  const [lengthUnit, diameterUnit] = [
    unitOf("length", "length"),
    unitOf("rope diameter", "length", usualDiameter(unitOf("length", "length"))),
  ];
  const frame = useMemo(
    (): MapFrame => ({
      left: MARGIN.left,
      top: MARGIN.top,
      width: Math.max(40, width - MARGIN.left - MARGIN.right),
      height: Math.max(40, height - MARGIN.top - MARGIN.bottom),
    }),
    [width, height],
  );
  const table = (): FigureTable => ({
    columns: [`length, ${lengthUnit}`, `diameter, ${diameterUnit}`, "verdict"],
    rows: Array.from(map.reason, (code, i) => [
      inUnit(map.lengths[i % map.lengths.length]!, lengthUnit, "length"),
      inUnit(map.diameters[Math.floor(i / map.lengths.length)]!, diameterUnit, "length"),
      reasonShown(reasonAt(code)).long,
    ]),
  });
  const [x, y] = [xOf(frame, range, length), yOf(frame, range, diameter)];
  return (
    <FigureFrame kind="snubbers" title="Snubbers over length and diameter" titleUnseen ownHand table={table}>
      <div className={styles.figure}>
        {/* biome-ignore lint/a11y/useSemanticElements: a map with a slider in it is no set of fields */}
        <svg ref={ref} className={styles.drawing} role="group" aria-label="Snubbers over length and diameter">
          {width > 0 && (
            <>
              <Regions map={map} frame={frame} />
              <Scales frame={frame} range={range} lengthUnit={lengthUnit} diameterUnit={diameterUnit} />
              <ChosenPoint
                frame={frame}
                range={range}
                x={x}
                y={y}
                length={length}
                diameter={diameter}
                valueText={`length ${formatQuantity(length, "length", { unit: lengthUnit, digits: 3 })}, diameter ${formatQuantity(diameter, "length", { unit: diameterUnit, digits: 3 })}: ${verdict}`}
                onChoose={onChoose}
              />
            </>
          )}
        </svg>
        <Legend map={map} />
      </div>
    </FigureFrame>
  );
}

export const usualDiameter = (lengthUnit: string): string => (lengthUnit === "ft" || lengthUnit === "in" ? "in" : "mm");

const Regions = memo(function Regions({ map, frame }: { readonly map: SnubberMap; readonly frame: MapFrame }) {
  const id = useId();
  const columns = map.lengths.length;
  const regions = useMemo(() => regionsOf(map.reason, columns, frame), [map, columns, frame]);
  return (
    <g>
      <defs>
        {regions.map(({ code }) => (
          <pattern key={code} id={`${id}-${code}`} width="10" height="10" patternUnits="userSpaceOnUse">
            <path className={styles.strokes} d={reasonShown(reasonAt(code)).pattern} />
          </pattern>
        ))}
      </defs>
      {regions.map(({ code, path }) => (
        <g key={code}>
          <path className={code === 0 ? styles.within : styles.outside} d={path} />
          {code !== 0 && <path d={path} fill={`url(#${id}-${code})`} />}
        </g>
      ))}
      <path className={styles.border} d={borderOf(map.reason, columns, frame)} />
      {regions.map(({ code, label, cells }) => {
        const { short } = reasonShown(reasonAt(code));
        // A name stands where it has room; the list below names the rest.
        if (label.width < 7.4 * short.length || cells < 24) return null;
        return (
          <text key={code} className={styles.name} data-within={code === 0 || undefined} x={label.x} y={label.y + 4}>
            {short}
          </text>
        );
      })}
    </g>
  );
});

function Scales({
  frame,
  range,
  lengthUnit,
  diameterUnit,
}: {
  readonly frame: MapFrame;
  readonly range: MapRange;
  readonly lengthUnit: string;
  readonly diameterUnit: string;
}) {
  const bottom = frame.top + frame.height;
  const [perLength, perDiameter] = [inUnit(1, lengthUnit, "length"), inUnit(1, diameterUnit, "length")];
  return (
    <g>
      {ticks(range.lengths[0] * perLength, range.lengths[1] * perLength, frame.width / 60).map((value) => (
        <g key={value}>
          <path className={styles.tick} d={`M${xOf(frame, range, value / perLength)} ${bottom}v5`} />
          <text className={chart.text} x={xOf(frame, range, value / perLength)} y={bottom + 18} textAnchor="middle">
            {significant(value)}
          </text>
        </g>
      ))}
      {ticks(range.diameters[0] * perDiameter, range.diameters[1] * perDiameter, frame.height / 34).map((value) => (
        <g key={value}>
          <path className={styles.tick} d={`M${frame.left} ${yOf(frame, range, value / perDiameter)}h-5`} />
          <text
            className={chart.text}
            x={frame.left - 8}
            y={yOf(frame, range, value / perDiameter) + 4}
            textAnchor="end"
          >
            {significant(value)}
          </text>
        </g>
      ))}
      <rect className={styles.frame} x={frame.left} y={frame.top} width={frame.width} height={frame.height} />
      <text className={chart.text} x={frame.left + frame.width} y={bottom + 36} textAnchor="end">
        length, {lengthUnit}
      </text>
      <text className={chart.text} x={frame.left} y={frame.top - 6}>
        diameter, {diameterUnit}
      </text>
    </g>
  );
}

function Legend({ map }: { readonly map: SnubberMap }) {
  const id = useId();
  const counts = useMemo(() => {
    const found = new Map<number, number>();
    for (const code of map.reason) found.set(code, (found.get(code) ?? 0) + 1);
    return [...found].sort(([a], [b]) => a - b);
  }, [map]);
  return (
    <ul className={chart.key} aria-label="Sides of the map">
      {counts.map(([code, cells]) => {
        const { long, pattern } = reasonShown(reasonAt(code));
        return (
          <li key={code}>
            <svg viewBox="0 0 28 14" aria-hidden="true">
              <defs>
                <pattern id={`${id}-${code}`} width="10" height="10" patternUnits="userSpaceOnUse">
                  <path className={styles.strokes} d={pattern} />
                </pattern>
              </defs>
              <rect className={code === 0 ? styles.within : styles.outside} width="28" height="14" />
              <rect width="28" height="14" fill={`url(#${id}-${code})`} />
            </svg>
            {long}, {Math.max(1, Math.round((100 * cells) / map.reason.length))} % of the map
          </li>
        );
      })}
    </ul>
  );
}
