import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import { Button } from "../show/button.tsx";
import { ticks } from "../show/ticks.ts";
import { useSize } from "../show/use-size.ts";
import { useUnits } from "../state/preferences.ts";
import { useStore } from "../state/use-store.ts";
import { bookCopy, type Rec } from "./book-copy.ts";
import { go } from "./desk.ts";
import { placeText, planeOf, scaleLength } from "./projection.ts";
import { countText } from "./said.ts";
import styles from "./site-map.module.css";

/** What is seen: the middle, m east and north, and how many metres a pixel is. */
interface Sight {
  readonly east: number;
  readonly north: number;
  readonly metre: number;
}

const NEAREST = 0.02;
const FARTHEST = 60_000;

/**
 * The sites where they lie to one another, north up: a map that needs nothing but their own positions. Metric and to
 * scale about its middle; it shows no land and no depths.
 */
export function SiteMap({ sites }: { readonly sites: readonly Rec[] }) {
  const { records } = useStore(bookCopy);
  const { system } = useUnits();
  const [ref, { width, height }] = useSize<SVGSVGElement>();
  const plane = useMemo(
    () =>
      planeOf(sites.map((site) => ({ latitude: Number(site.latitude_deg), longitude: Number(site.longitude_deg) }))),
    [sites],
  );
  const points = sites.map((site) => {
    const place = { latitude: Number(site.latitude_deg), longitude: Number(site.longitude_deg) };
    return { site, east: plane.east(place), north: plane.north(place), ...place };
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the points follow the plane
  const all = useMemo((): Sight => {
    const [spanE, spanN] = [spread(points.map((p) => p.east)), spread(points.map((p) => p.north))];
    const metre = Math.max(
      spanE / Math.max(80, width - 150),
      spanN / Math.max(60, height - 130),
      spanE + spanN > 0 ? 0 : 2,
    );
    return { east: 0, north: 0, metre: Math.min(FARTHEST, Math.max(NEAREST, metre)) };
  }, [plane, width, height]);
  const [own, setOwn] = useState<Sight | null>(null);
  const sight = own ?? all;
  const x = (east: number) => width / 2 + (east - sight.east) / sight.metre;
  const y = (north: number) => height / 2 - (north - sight.north) / sight.metre;

  const nearer = (times: number, px = width / 2, py = height / 2): void => {
    const metre = Math.min(FARTHEST, Math.max(NEAREST, sight.metre / times));
    // What lies under the pointer stays there.
    const keep = sight.metre - metre;
    setOwn({
      metre,
      east: sight.east + (px - width / 2) * keep,
      north: sight.north - (py - height / 2) * keep,
    });
  };
  const wheel = useRef(nearer);
  wheel.current = nearer;
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const turn = (event: WheelEvent) => {
      // The page scrolls as everywhere; with ctrl, or by a pinch on a pad, the map comes nearer.
      if (!event.ctrlKey) return;
      event.preventDefault();
      const box = element.getBoundingClientRect();
      wheel.current(Math.exp(-event.deltaY / 200), event.clientX - box.left, event.clientY - box.top);
    };
    element.addEventListener("wheel", turn, { passive: false });
    return () => element.removeEventListener("wheel", turn);
  }, [ref]);

  const held = useRef<{ x: number; y: number; from: Sight } | null>(null);
  const down = (event: PointerEvent<SVGSVGElement>) => {
    if (event.button !== 0 || (event.target as Element).closest("[data-site]") !== null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    held.current = { x: event.clientX, y: event.clientY, from: sight };
  };
  const move = (event: PointerEvent<SVGSVGElement>) => {
    const grip = held.current;
    if (grip === null) return;
    setOwn({
      ...grip.from,
      east: grip.from.east - (event.clientX - grip.x) * grip.from.metre,
      north: grip.from.north + (event.clientY - grip.y) * grip.from.metre,
    });
  };
  const up = () => {
    held.current = null;
  };

  const bar = scaleLength(Math.min(160, width / 3) * sight.metre * (system === "us" ? 1 / 0.3048 : 1));
  const barMetres = system === "us" ? bar * 0.3048 : bar;
  const days = (id: string) => records.day.filter((day) => day.site === id && !day.hidden).length;
  const marks = placed(
    points.map((p) => ({ ...p, x: x(p.east), y: y(p.north) })),
    width,
  );

  return (
    <figure className={styles.figure}>
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing with things in it to be opened */}
      <svg
        ref={ref}
        className={styles.map}
        role="group"
        aria-label={`Map of ${countText(sites.length, "site", "sites")}, north up`}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={up}
      >
        {width > 0 && (
          <>
            <Graticule plane={plane} sight={sight} width={width} height={height} x={x} y={y} />
            {marks.map(({ site, x: px, y: py, label, left }) => (
              <Site
                key={site.id}
                x={px}
                y={py}
                label={label}
                left={left}
                name={String(site.name ?? "")}
                line={countText(days(site.id), "day", "days")}
                place={`${placeText(Number(site.latitude_deg), "latitude")}, ${placeText(Number(site.longitude_deg), "longitude")}`}
                onOpen={() => go({ page: "record", kind: "site", id: site.id })}
              />
            ))}
            {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus */}
            <g className={styles.north} transform={`translate(${width - 26} 32)`} aria-hidden="true">
              <path d="M0-20L7 6L0 1L-7 6Z" />
              <text y="20">N</text>
            </g>
            <g className={styles.scale} transform={`translate(14 ${height - 16})`}>
              <path d={`M0-5V0H${barMetres / sight.metre}V-5`} />
              <text x={barMetres / sight.metre / 2} y={-9}>
                {scaleText(barMetres, system)}
              </text>
            </g>
          </>
        )}
      </svg>
      <div className={styles.tools}>
        <Button aria-label="Nearer" title="Nearer (ctrl and wheel)" onClick={() => nearer(1.6)}>
          +
        </Button>
        <Button aria-label="Farther" title="Farther" onClick={() => nearer(1 / 1.6)}>
          −
        </Button>
        {own !== null && <Button onClick={() => setOwn(null)}>All</Button>}
      </div>
    </figure>
  );
}

const spread = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

function scaleText(metres: number, system: "metric" | "us"): string {
  if (system === "us") {
    const miles = metres / 1852;
    return miles >= 1 ? `${Number(miles.toPrecision(2))} nmi` : `${Math.round(metres / 0.3048)} ft`;
  }
  return metres >= 1000
    ? formatQuantity(metres, "length", { unit: "km", digits: 2 })
    : formatQuantity(metres, "length", { unit: "m", digits: 2 });
}

interface Point {
  readonly site: Rec;
  readonly x: number;
  readonly y: number;
}

/** Above this the arrow of north stands at the right edge, px. */
const NORTH = 76;
/** px a letter of a label takes, about. */
const LETTER = 8.6;

/**
 * A label stands beside its site, on the side with more room and shortened to it, unless another is in its way; then
 * the site keeps its mark and its tool tip.
 */
function placed<P extends Point>(points: readonly P[], width: number) {
  const taken: { from: number; to: number; y: number }[] = [];
  return points.map((point) => {
    const name = String(point.site.name ?? "");
    const long = 16 + LETTER * name.length;
    const edge = width - (point.y < NORTH ? 44 : 8);
    const left = point.x + long > edge && point.x > width / 2;
    const letters = Math.floor(((left ? point.x : edge - point.x) - 18) / LETTER);
    const shown = name.length <= letters ? name : `${name.slice(0, Math.max(3, letters - 1)).trimEnd()}…`;
    const w = 16 + LETTER * shown.length;
    const [from, to] = left ? [point.x - w, point.x] : [point.x, point.x + w];
    const free = !taken.some((one) => Math.abs(one.y - point.y) < 34 && from < one.to && one.from < to);
    if (free) taken.push({ from, to, y: point.y });
    return { ...point, label: free ? shown : null, left };
  });
}

function Site(props: {
  readonly x: number;
  readonly y: number;
  readonly label: string | null;
  readonly left: boolean;
  readonly name: string;
  readonly line: string;
  readonly place: string;
  readonly onOpen: () => void;
}) {
  const { label, name, line, place } = props;
  const key = (event: KeyboardEvent) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    props.onOpen();
  };
  const beside = props.left ? ({ x: -14, textAnchor: "end" } as const) : ({ x: 14, textAnchor: "start" } as const);
  // What is seen is said first, so that it can be asked for by voice.
  const said = label === null || label === name ? `${name} ${line}, ${place}` : `${label} ${line}: ${name}, ${place}`;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
    <g
      data-site=""
      className={styles.site}
      transform={`translate(${props.x} ${props.y})`}
      role="button"
      tabIndex={0}
      aria-label={said}
      onClick={props.onOpen}
      onKeyDown={key}
    >
      <title>{`${name}\n${place}`}</title>
      <circle className={styles.reach} r="22" />
      <circle className={styles.dot} r="7" />
      {label !== null && (
        <>
          <text className={styles.name} {...beside} y="1">
            {label}
          </text>
          <text className={styles.line} {...beside} y="17">
            {line}
          </text>
        </>
      )}
    </g>
  );
}

/** Minutes as degrees and minutes, no sharper than the line stands. */
const minuteText = (minutes: number, axis: "latitude" | "longitude"): string =>
  placeText(minutes / 60, axis).replace(/\.?0+′/, "′");

/** Lines of latitude and longitude at round minutes. */
function Graticule(props: {
  readonly plane: ReturnType<typeof planeOf>;
  readonly sight: Sight;
  readonly width: number;
  readonly height: number;
  readonly x: (east: number) => number;
  readonly y: (north: number) => number;
}) {
  const { plane, sight, width, height, x, y } = props;
  const [w, h] = [(width / 2) * sight.metre, (height / 2) * sight.metre];
  const south = plane.latitude(sight.north - h) * 60;
  const north = plane.latitude(sight.north + h) * 60;
  // Degrees a metre east, the same all over the plane.
  const perMetre = 1 / Math.max(1e-9, plane.east({ latitude: 0, longitude: plane.middle.longitude + 1 }));
  const middle = plane.middle.longitude;
  const west = (middle + (sight.east - w) * perMetre) * 60;
  const east = (middle + (sight.east + w) * perMetre) * 60;
  const about = (span: number) => Math.max(1, span / 130);
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus
    <g className={styles.graticule} aria-hidden="true">
      {ticks(south, north, about(height)).map((minutes) => {
        const at = y(plane.north({ latitude: minutes / 60, longitude: middle }));
        return (
          <g key={`n${minutes}`}>
            <path d={`M0 ${at}H${width}`} />
            {at > 68 && at < height - 44 && (
              <text x="6" y={at - 4}>
                {minuteText(minutes, "latitude")}
              </text>
            )}
          </g>
        );
      })}
      {ticks(west, east, about(width)).map((minutes) => {
        const at = x((minutes / 60 - middle) / perMetre);
        return (
          <g key={`e${minutes}`}>
            <path d={`M${at} 0V${height}`} />
            {at > 110 && at < width - 130 && (
              <text x={at + 4} y="14">
                {minuteText(minutes - 21_600 * Math.round(minutes / 21_600), "longitude")}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}
