import { type Plot, xOf } from "./axis.ts";
import type { CatenaryEndShown } from "./catenary-end.ts";
import styles from "./chart.module.css";

/** The wind at which catenary ends, with its band. */
export function CatenaryEndMark({ plot, fade }: { readonly plot: Plot; readonly fade: CatenaryEndShown }) {
  const x = xOf(plot, fade.wind);
  if (fade.wind > plot.most) return null;
  const half = Math.max(0, (fade.u / plot.most) * plot.width);
  const right = plot.left + plot.width;
  const lines = Array.from(
    { length: Math.ceil((right - x) / 7) },
    (_, i) => `M${x + 7 * i} ${plot.top + plot.height}l7-9`,
  );
  return (
    <g>
      {half > 0 && <rect className={styles.fadeBand} x={x - half} y={plot.top} width={2 * half} height={plot.height} />}
      <path className={styles.fade} d={`M${x} ${plot.top}V${plot.top + plot.height}`} />
      <path className={styles.hatch} d={lines.join("")} />
      <text
        className={`${styles.text} ${styles.named}`}
        x={x + (x > plot.left + 0.6 * plot.width ? -6 : 6)}
        y={plot.top + 26}
        textAnchor={x > plot.left + 0.6 * plot.width ? "end" : "start"}
      >
        catenary ends
      </text>
    </g>
  );
}
