import { graticuleOf, type MapSight, type Plane } from "../../../figure/index.ts";
import styles from "./site-map.module.css";

/** Lines of latitude and longitude at round minutes. */
export function Graticule(props: {
  readonly plane: Plane;
  readonly sight: MapSight;
  readonly width: number;
  readonly height: number;
}) {
  const { plane, sight, width, height } = props;
  const { parallels, meridians } = graticuleOf(plane, sight, width, height);
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus
    <g className={styles.graticule} aria-hidden="true">
      {parallels.map(({ at, text }) => (
        <g key={text}>
          <path d={`M0 ${at}H${width}`} />
          {at > 68 && at < height - 44 && (
            <text x="6" y={at - 4}>
              {text}
            </text>
          )}
        </g>
      ))}
      {meridians.map(({ at, text }) => (
        <g key={text}>
          <path d={`M${at} 0V${height}`} />
          {at > 110 && at < width - 130 && (
            <text x={at + 4} y="14">
              {text}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}
