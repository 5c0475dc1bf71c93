import { memo } from "react";
import styles from "./drawing.module.css";
import type { Drawn } from "./scene.ts";
import { type View, xPx, yPx } from "./view.ts";

/** The rode as it lies: each part with its own line, told apart without colour; a part beyond its limit stands out. */
export const RodeLines = memo(function RodeLines({
  drawn,
  view,
  rise,
  faint = false,
}: {
  readonly drawn: Drawn;
  readonly view: View;
  /** Height of the upper end of the drawing above the anchor, m. */
  readonly rise: number;
  readonly faint?: boolean;
}) {
  const { shape, rig, loads } = drawn;
  const paths = new Map<number, string>();
  for (let i = 1; i < shape.x.length; i++) {
    const part = shape.part[i]!;
    const before = paths.get(part);
    const to = `${px(xPx(view, shape.x[i]!))} ${px(yPx(view, rise - shape.z[i]!))}`;
    const from = `${px(xPx(view, shape.x[i - 1]!))} ${px(yPx(view, rise - shape.z[i - 1]!))}`;
    paths.set(part, before === undefined ? `M${from}L${to}` : `${before}L${to}`);
  }
  if (faint) {
    return <path className={styles.faint} d={[...paths.values()].join("")} />;
  }
  const water = rig.setting.medium === "water" ? rig.setting.waterDensity : 0;
  return (
    <>
      {[...paths].map(([part, d]) => {
        const { material = "line", workingLoad } = rig.rode[part] as { material?: string; workingLoad?: number };
        const over = workingLoad !== undefined && loads[part]! > workingLoad;
        return (
          <g key={part}>
            {over && <path className={styles.overloaded} d={d} />}
            {(material === "chain" || material === "line") && <path className={styles.thread} d={d} />}
            <path className={styles.rode} data-material={material} d={d} />
          </g>
        );
      })}
      {shape.points.map(({ part, x, z }) => {
        const point = rig.rode[part];
        if (point?.kind !== "point") return null;
        return (
          <circle
            key={part}
            className={styles.point}
            data-float={point.density < water || undefined}
            cx={px(xPx(view, x))}
            cy={px(yPx(view, rise - z))}
            r={Math.min(9, 2.5 + 1.6 * Math.cbrt(point.mass))}
          />
        );
      })}
    </>
  );
});

const px = (value: number): string => value.toFixed(1);
