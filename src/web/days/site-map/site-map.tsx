import { useMemo } from "react";
import { type MapSight, placeText, planeOf } from "../../../figure/index.ts";
import { countText } from "../../../words/index.ts";
import { Button } from "../../controls/button.tsx";
import { useSize } from "../../controls/use-size.ts";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { useUnits } from "../../state/preferences.ts";
import { useStore } from "../../state/use-store.ts";
import { bookCopy, type RecordHere } from "../book-copy.ts";
import { go } from "../state.ts";
import { Graticule } from "./graticule.tsx";
import { placed } from "./labels.ts";
import { ScaleBar } from "./scale-bar.tsx";
import styles from "./site-map.module.css";
import { SiteSign } from "./site-sign.tsx";
import { clearMetre, useSight } from "./use-sight.ts";

/**
 * The sites where they lie to one another, north up: a map that needs nothing but their own positions. Metric and to
 * scale about its middle; it shows no land and no depths.
 */
export function SiteMap({ sites }: { readonly sites: readonly RecordHere<"site">[] }) {
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
  const all = useMemo((): MapSight => {
    const [spanE, spanN] = [spread(points.map((p) => p.east)), spread(points.map((p) => p.north))];
    const metre = Math.max(
      spanE / Math.max(80, width - 150),
      spanN / Math.max(60, height - 130),
      spanE + spanN > 0 ? 0 : 2,
    );
    return { east: 0, north: 0, metre: clearMetre(metre) };
  }, [plane, width, height]);
  const { sight, moved, nearer, showAll, gestures } = useSight(ref, width, height, all);
  const x = (east: number) => width / 2 + (east - sight.east) / sight.metre;
  const y = (north: number) => height / 2 - (north - sight.north) / sight.metre;

  const days = (id: string) => records.day.filter((day) => day.site === id && !day.hidden).length;
  const marks = placed(
    points.map((p) => ({ ...p, x: x(p.east), y: y(p.north) })),
    width,
  );

  return (
    <FigureFrame
      kind="sites"
      ofBook
      title="Map of the sites"
      titleUnseen
      ownHand
      corner="below"
      table={() => ({
        columns: ["site", "latitude, °", "longitude, °", "days"],
        rows: points.map(({ site, latitude, longitude }) => [
          String(site.name ?? ""),
          latitude,
          longitude,
          days(site.id),
        ]),
      })}
    >
      <div className={styles.figure}>
        {/* biome-ignore lint/a11y/useSemanticElements: a drawing with things in it to be opened */}
        <svg
          ref={ref}
          className={styles.map}
          role="group"
          aria-label={`Map of ${countText(sites.length, "site", "sites")}, north up`}
          {...gestures}
        >
          {width > 0 && (
            <>
              <Graticule plane={plane} sight={sight} width={width} height={height} />
              {marks.map(({ site, x: px, y: py, label, left }) => (
                <SiteSign
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
              <ScaleBar x={14} y={height - 16} metre={sight.metre} most={Math.min(160, width / 3)} system={system} />
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
          {moved && <Button onClick={showAll}>All</Button>}
        </div>
      </div>
    </FigureFrame>
  );
}

const spread = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
