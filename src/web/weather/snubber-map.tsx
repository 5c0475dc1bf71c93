import { type KeyboardEvent, memo, type PointerEvent, useEffect, useId, useMemo, useRef } from "react";
import { formatQuantity, inUnit, significant } from "../../quantity/index.ts";
import type { SnubberMap } from "../../sizing/index.ts";
import { ticks } from "../show/ticks.ts";
import { useSize } from "../show/use-size.ts";
import { useHint, useUnits } from "../state/preferences.ts";
import { newStroke } from "../state/store.ts";
import { borderOf, type MapFrame, regionsOf } from "./map-cells.ts";
import { reasonAt, reasonSaid } from "./reasons.ts";
import styles from "./snubber-map.module.css";

export interface MapRange {
  readonly lengths: readonly [number, number];
  readonly diameters: readonly [number, number];
}

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
  const [x, y] = [xOf(frame, range, length), yOf(frame, range, diameter)];
  return (
    <figure className={styles.figure}>
      {/* biome-ignore lint/a11y/useSemanticElements: a map with a slider in it is no set of fields */}
      <svg ref={ref} className={styles.drawing} role="group" aria-label="Snubbers over length and diameter">
        {width > 0 && (
          <>
            <Regions map={map} frame={frame} />
            <Scales frame={frame} range={range} lengthUnit={lengthUnit} diameterUnit={diameterUnit} />
            <Chosen
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
    </figure>
  );
}

export const usualDiameter = (lengthUnit: string): string => (lengthUnit === "ft" || lengthUnit === "in" ? "in" : "mm");

const xOf = (frame: MapFrame, { lengths: [from, to] }: MapRange, length: number): number =>
  frame.left + ((length - from) / (to - from)) * frame.width;
const yOf = (frame: MapFrame, { diameters: [from, to] }: MapRange, diameter: number): number =>
  frame.top + (1 - (diameter - from) / (to - from)) * frame.height;

const Regions = memo(function Regions({ map, frame }: { readonly map: SnubberMap; readonly frame: MapFrame }) {
  const id = useId();
  const columns = map.lengths.length;
  const regions = useMemo(() => regionsOf(map.reason, columns, frame), [map, columns, frame]);
  return (
    <g>
      <defs>
        {regions.map(({ code }) => (
          <pattern key={code} id={`${id}-${code}`} width="10" height="10" patternUnits="userSpaceOnUse">
            <path className={styles.strokes} d={reasonSaid(reasonAt(code)).pattern} />
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
        const { short } = reasonSaid(reasonAt(code));
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
          <text className={styles.text} x={xOf(frame, range, value / perLength)} y={bottom + 18} textAnchor="middle">
            {significant(value)}
          </text>
        </g>
      ))}
      {ticks(range.diameters[0] * perDiameter, range.diameters[1] * perDiameter, frame.height / 34).map((value) => (
        <g key={value}>
          <path className={styles.tick} d={`M${frame.left} ${yOf(frame, range, value / perDiameter)}h-5`} />
          <text
            className={styles.text}
            x={frame.left - 8}
            y={yOf(frame, range, value / perDiameter) + 4}
            textAnchor="end"
          >
            {significant(value)}
          </text>
        </g>
      ))}
      <rect className={styles.frame} x={frame.left} y={frame.top} width={frame.width} height={frame.height} />
      <text className={styles.text} x={frame.left + frame.width} y={bottom + 36} textAnchor="end">
        length, {lengthUnit}
      </text>
      <text className={styles.text} x={frame.left} y={frame.top - 6}>
        diameter, {diameterUnit}
      </text>
    </g>
  );
}

/** The one that is chosen: taken hold of and drawn about, or moved by the arrow keys in both directions. */
function Chosen(props: {
  readonly frame: MapFrame;
  readonly range: MapRange;
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly diameter: number;
  readonly valueText: string;
  readonly onChoose: (length: number, diameter: number, stroke: string) => void;
}) {
  const { frame, range, x, y, length, diameter } = props;
  const hint = useHint("snubber point");
  const stroke = useRef<string | null>(null);
  const hand = useRef({ x: 0, y: 0 });
  const waiting = useRef(0);
  const latest = useRef(props);
  latest.current = props;
  useEffect(() => () => cancelAnimationFrame(waiting.current), []);

  const choose = (nextLength: number, nextDiameter: number, name: string) => {
    const held = (value: number, [from, to]: readonly [number, number]) => Math.min(to, Math.max(from, value));
    latest.current.onChoose(
      Number(held(nextLength, range.lengths).toPrecision(3)),
      Number(held(nextDiameter, range.diameters).toFixed(4)),
      name,
    );
  };
  const follow = () => {
    if (stroke.current === null) return;
    const [l, d] = [range.lengths, range.diameters];
    choose(
      l[0] + ((hand.current.x - frame.left) / frame.width) * (l[1] - l[0]),
      d[0] + (1 - (hand.current.y - frame.top) / frame.height) * (d[1] - d[0]),
      stroke.current,
    );
  };
  const placed = (event: PointerEvent<SVGElement>) => {
    const svg = (event.currentTarget as SVGGraphicsElement).ownerSVGElement!.getBoundingClientRect();
    hand.current = { x: event.clientX - svg.left, y: event.clientY - svg.top };
  };
  const key = (event: KeyboardEvent) => {
    const by = MOVES[event.key];
    if (by === undefined) return;
    event.preventDefault();
    hint.used();
    const times = event.shiftKey ? 5 : 1;
    choose(length + by[0] * times * 0.5, diameter + by[1] * times * 0.001, "snubber by keys");
  };
  const grab = {
    onPointerDown: (event: PointerEvent<SVGElement>) => {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      stroke.current = newStroke();
      placed(event);
      follow();
      hint.used();
    },
    onPointerMove: (event: PointerEvent<SVGElement>) => {
      if (stroke.current === null) return;
      placed(event);
      cancelAnimationFrame(waiting.current);
      waiting.current = requestAnimationFrame(follow);
    },
    onPointerUp: () => {
      cancelAnimationFrame(waiting.current);
      follow();
      stroke.current = null;
    },
    onPointerCancel: () => {
      stroke.current = null;
    },
  };
  return (
    <>
      <rect className={styles.pad} x={frame.left} y={frame.top} width={frame.width} height={frame.height} {...grab} />
      <path
        className={styles.cross}
        d={`M${x} ${frame.top}V${frame.top + frame.height}M${frame.left} ${y}H${frame.left + frame.width}`}
      />
      <g
        className={styles.chosen}
        transform={`translate(${x} ${y})`}
        role="slider"
        tabIndex={0}
        aria-label="Chosen snubber: left and right its length, up and down its diameter"
        aria-valuenow={Number(length.toPrecision(3))}
        aria-valuemin={range.lengths[0]}
        aria-valuemax={range.lengths[1]}
        aria-valuetext={props.valueText}
        onKeyDown={key}
        {...grab}
      >
        <circle className={styles.reach} r="23" />
        <circle className={styles.knob} r="11" />
        <path className={styles.sign} d="M-6 0H6M0-6V6" />
        {hint.shown && (
          <text className={styles.hint} y="-20" textAnchor="middle">
            draw it about
          </text>
        )}
      </g>
    </>
  );
}

const MOVES: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

function Legend({ map }: { readonly map: SnubberMap }) {
  const id = useId();
  const counts = useMemo(() => {
    const found = new Map<number, number>();
    for (const code of map.reason) found.set(code, (found.get(code) ?? 0) + 1);
    return [...found].sort(([a], [b]) => a - b);
  }, [map]);
  return (
    <ul className={styles.legend} aria-label="Sides of the map">
      {counts.map(([code, cells]) => {
        const { long, pattern } = reasonSaid(reasonAt(code));
        return (
          <li key={code}>
            <svg viewBox="0 0 30 16" aria-hidden="true">
              <defs>
                <pattern id={`${id}-${code}`} width="10" height="10" patternUnits="userSpaceOnUse">
                  <path className={styles.strokes} d={pattern} />
                </pattern>
              </defs>
              <rect className={code === 0 ? styles.within : styles.outside} width="30" height="16" />
              <rect width="30" height="16" fill={`url(#${id}-${code})`} />
            </svg>
            {long}, {Math.max(1, Math.round((100 * cells) / map.reason.length))} % of the map
          </li>
        );
      })}
    </ul>
  );
}
