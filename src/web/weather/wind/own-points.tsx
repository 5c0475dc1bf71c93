import type { WindLoadCurve } from "../../../sea/index.ts";
import { type Plot, xOf, yOf } from "./axis.ts";
import styles from "./chart.module.css";

/** The boat's own measured points with their uncertainties, each with its peak. */
export function OwnPoints({ plot, curve }: { readonly plot: Plot; readonly curve: WindLoadCurve }) {
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
