import { type Dimension, inUnit } from "../../quantity/index.ts";
import { type Certainty, riseOf } from "../../rode/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { useUnits } from "../state/preferences.ts";
import styles from "./drawing.module.css";
import type { Drawn } from "./scene.ts";
import { scaleBar, type View, xPx, yPx } from "./view.ts";

/** Figures in the drawing: the pull at both ends, the span, the scale. None is sharper than its ±. */
export function Dimensions({
  view,
  drawn,
  over,
  sure,
  narrow,
}: {
  readonly view: View;
  readonly drawn: Drawn;
  readonly over: Drawn | null;
  readonly sure: Certainty | null;
  readonly narrow: boolean;
}) {
  const { system, unitOf } = useUnits();
  const say = (value: number, dimension: Dimension, field: string, u?: number): string => {
    const unit = unitOf(field, dimension);
    return formatQuantity(value, dimension, { system, unit, ...(u !== undefined && u > 0 ? { u } : { digits: 3 }) });
  };
  const { settled, rig } = drawn;
  const rise = riseOf(rig.setting);
  const [x0, x1] = [xPx(view, 0), xPx(view, settled.span)];
  const bed = yPx(view, rise);
  const base = Math.min(view.height - 16, bed + 58);
  const span = say(settled.span, "length", "span", sure?.span);
  const middle = (x0 + x1) / 2;
  // Half the room of its digits, so that the line does not run through them.
  const gap = Math.min((x1 - x0) / 2, 6 + 4.4 * span.length);
  const lengthUnit = unitOf("span", "length");
  const bar = scaleBar(view, 1 / inUnit(1, lengthUnit, "length"), narrow ? 80 : 140);
  return (
    <g>
      <text className={`${styles.label} ${styles.onGround}`} x={x0 - 30} y={bed + 28}>
        {say(settled.anchor.angle, "angle", "angle", sure?.anchorAngle)}
        {/* Where the figure's menu leaves no room for it, the bar above alone tells the load. */}
        {!narrow && `, ${say(settled.anchor.tension, "force", "load", sure?.anchorTension)}`}
      </text>
      <text className={styles.label} x={x1 - 18} y={yPx(view, 0) - 16} textAnchor="end">
        {say(settled.bow.tension, "force", "load", sure?.bowTension)}
      </text>
      <path
        className={styles.dimension}
        d={`M${x0} ${base}H${middle - gap}M${middle + gap} ${base}H${x1}M${x0} ${base - 5}v10M${x1} ${base - 5}v10`}
      />
      <text className={`${styles.label} ${styles.onGround}`} x={middle} y={base + 5} textAnchor="middle">
        {span}
      </text>
      {over !== null && <OverLabel view={view} over={over} rise={rise} />}
      <path className={styles.dimension} d={`M16 22h${bar.px}M16 17v10M${16 + bar.px} 17v10`} />
      <text className={`${styles.label} ${styles.small}`} x={24 + bar.px} y={27}>
        {`${bar.units} ${lengthUnit}`}
      </text>
    </g>
  );
}

function OverLabel({ view, over, rise }: { readonly view: View; readonly over: Drawn; readonly rise: number }) {
  const { shape } = over;
  // At a third of the way along, where the two lines part.
  const i = Math.floor(shape.x.length / 2);
  return (
    <text
      className={`${styles.label} ${styles.small}`}
      x={xPx(view, shape.x[i]!) - 8}
      y={yPx(view, rise - shape.z[i]!) - 8}
      textAnchor="end"
    >
      {over.rig.setting.medium === "air" ? "in air" : "afloat"}
    </text>
  );
}
