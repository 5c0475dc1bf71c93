import { ticks } from "../../../numeric/index.ts";
import { placeText, type planeOf } from "../projection.ts";
import styles from "./site-map.module.css";
import type { Sight } from "./use-sight.ts";

/** Minutes as degrees and minutes, no sharper than the line stands. */
const minuteText = (minutes: number, axis: "latitude" | "longitude"): string =>
  placeText(minutes / 60, axis).replace(/\.?0+′/, "′");

/** Lines of latitude and longitude at round minutes. */
export function Graticule(props: {
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
