import { useMemo } from "react";
import { type NoEquilibrium, type Rig, riseOf, type Settled } from "../../../rode/index.ts";
import { noEquilibriumWords } from "../../../words/index.ts";
import { formatQuantity } from "../../controls/numbers.ts";
import { useSize } from "../../controls/use-size.ts";
import { FigureFrame } from "../../figure/figure-frame.tsx";
import { rodeTable } from "../../figure/rode-table.ts";
import { AnchorSign } from "../../rig/anchor-sign.tsx";
import { Backdrop } from "../../rig/backdrop.tsx";
import { totalLength } from "../../rig/parts.ts";
import { RodeLines } from "../../rig/rode-lines.tsx";
import type { Drawn } from "../../rig/scene.ts";
import { fit as fitView, xPx, yPx } from "../../rig/view.ts";
import { useUnits } from "../../state/preferences.ts";
import type { RoadLoad } from "../loads.ts";
import styles from "./rode-view.module.css";

export interface RodeAt {
  readonly load: RoadLoad;
  readonly answer: Drawn | NoEquilibrium;
  /** The same rode at the ends of the load's 95 % band; null where it has no equilibrium there. */
  readonly ends: readonly [Settled | null, Settled | null];
}

/** The rode as it lies in the wind that is shown: drawn through at the mean, dotted at the peak; the view stands still. */
export function RodeView({
  rig,
  mean,
  peak,
}: {
  readonly rig: Rig;
  readonly mean: RodeAt | null;
  readonly peak: RodeAt | null;
}) {
  const [ref, { width, height }] = useSize<SVGSVGElement>();
  const { system, unitOf } = useUnits();
  const rise = riseOf(rig.setting);
  const view = useMemo(() => {
    // As far as the rode reaches when drawn straight and stretched a little: no load of the axis leaves the view.
    const length = 1.08 * totalLength(rig);
    const to = length > rise ? Math.sqrt(length * length - rise * rise) : 1;
    const below = Math.max(rise, rise - Math.tan(rig.setting.bottomSlope) * to);
    return fitView(width, height, { from: 0, to, below, above: 0 }, { left: 40, right: 60, top: 26, bottom: 26 });
  }, [rig, rise, width, height]);
  const at = (one: RodeAt | null): Drawn | null => (one !== null && "shape" in one.answer ? one.answer : null);
  const [drawn, above] = [at(mean), at(peak)];
  const none = mean !== null && !("shape" in mean.answer) ? mean.answer : null;
  const load = (one: RodeAt) =>
    formatQuantity(one.load.value, "force", { system, unit: unitOf("load", "force"), digits: 2 });
  return (
    <FigureFrame
      kind="rode"
      title={`${rig.name} in the wind, to scale`}
      titleUnseen
      corner="below"
      ownHand
      uncertain="Drawn through: under the mean load; dotted: under the largest. No ± is drawn."
      table={drawn === null ? null : () => rodeTable(above === null ? [drawn] : [drawn, above])}
    >
      <div className={styles.frame}>
        <svg
          ref={ref}
          className={styles.drawing}
          role="img"
          aria-label="The rode in the wind under the pointer, to scale"
        >
          {width > 0 && (
            <>
              <Backdrop
                setting={rig.setting}
                view={view}
                rise={rise}
                span={drawn?.settled.span ?? above?.settled.span ?? Math.max(1, totalLength(rig) - rise)}
              />
              {above !== null && <RodeLines drawn={above} view={view} rise={rise} faint />}
              {drawn !== null && (
                <>
                  <RodeLines drawn={drawn} view={view} rise={rise} />
                  <AnchorSign
                    x={xPx(view, 0)}
                    y={yPx(view, rise)}
                    angle={drawn.settled.anchor.angle}
                    bottom={rig.setting.bottomSlope}
                  />
                </>
              )}
            </>
          )}
        </svg>
        <div className={styles.caption}>
          {none !== null ? (
            <NotSettled none={none} />
          ) : (
            <>
              {mean !== null && (
                <span className={styles.name}>
                  <svg viewBox="0 0 28 8" aria-hidden="true">
                    <path className={styles.solid} d="M0 4H28" />
                  </svg>
                  mean, {load(mean)}
                </span>
              )}
              {peak !== null && (
                <span className={styles.name}>
                  <svg viewBox="0 0 28 8" aria-hidden="true">
                    <path className={styles.dotted} d="M1 4H28" />
                  </svg>
                  {above === null ? "the peak has no equilibrium" : `peak, ${load(peak)}`}
                </span>
              )}
            </>
          )}
        </div>
      </div>
    </FigureFrame>
  );
}

function NotSettled({ none }: { readonly none: NoEquilibrium }) {
  const { system } = useUnits();
  const { why, nearest } = noEquilibriumWords(none, system);
  return (
    <span className={styles.none}>
      No equilibrium in this wind: {why}; {nearest}.
    </span>
  );
}
