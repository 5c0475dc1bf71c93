import { useRef, useState } from "react";
import { formatQuantity } from "../../quantity/index.ts";
import { type Certainty, riseOf, sayWhy } from "../../rode/index.ts";
import { useSize } from "../show/use-size.ts";
import { useUnits } from "../state/preferences.ts";
import { AnchorSign } from "./anchor-sign.tsx";
import { Backdrop } from "./backdrop.tsx";
import type { RigState } from "./desk.ts";
import { Dimensions } from "./dimensions.tsx";
import styles from "./drawing.module.css";
import { RigHandles } from "./rig-handles.tsx";
import { RodeLines } from "./rode-lines.tsx";
import { extentOf, type Scene } from "./scene.ts";
import { fit as fitView, type View, xPx, yPx } from "./view.ts";

const PHONE = 560;

/** The rode from the seabed to the boat, to scale, with what can be taken hold of. */
export function Drawing({
  state,
  scene,
  sure,
}: {
  readonly state: RigState;
  readonly scene: Scene;
  readonly sure: Certainty | null;
}) {
  const [ref, size] = useSize<SVGSVGElement>();
  const { system } = useUnits();
  // While a hand holds something, the view stands still under it.
  const [held, setHeld] = useState<View | null>(null);
  const newest = useRef<View | null>(null);
  const narrow = size.width < PHONE;
  const margins = narrow ? { left: 44, right: 84, top: 64, bottom: 76 } : { left: 64, right: 150, top: 70, bottom: 84 };
  const fitted = size.width > 0 ? fitView(size.width, size.height, extentOf(scene, state.rig), margins) : null;
  newest.current = fitted;
  const view = held ?? fitted;

  const { drawn, none, over } = scene;
  const rise = riseOf(state.rig.setting);
  const span = drawn?.settled.span ?? 0;
  return (
    <figure className={styles.frame}>
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing with sliders in it is no set of fields */}
      <svg ref={ref} className={styles.drawing} role="group" aria-label="The rode, drawn to scale">
        {view !== null && drawn !== null && (
          <>
            <g className={none === null ? undefined : styles.stale}>
              <Backdrop setting={state.rig.setting} view={view} rise={rise} span={span} />
              {over !== null && <RodeLines drawn={over} view={view} rise={rise} faint />}
              <RodeLines drawn={drawn} view={view} rise={riseOf(drawn.rig.setting)} />
              <AnchorSign
                x={xPx(view, 0)}
                y={yPx(view, rise)}
                angle={drawn.settled.anchor.angle}
                bottom={state.rig.setting.bottomSlope}
              />
              <Dimensions view={view} drawn={drawn} over={over} sure={sure} narrow={narrow} />
            </g>
            <RigHandles
              state={state}
              drawn={drawn}
              view={view}
              onGrab={() => setHeld(newest.current)}
              onDrop={() => setHeld(null)}
            />
          </>
        )}
      </svg>
      {none !== null && <NotSettled {...sayWhy(none.cause, none.given, none.limit, system)} />}
      <figcaption className="unseen">
        {drawn !== null &&
          `Anchor at the left, boat or upper end ${formatQuantity(span, "length", { system, digits: 3 })} away at the right.`}
      </figcaption>
    </figure>
  );
}

function NotSettled({ why, nearest }: { readonly why: string; readonly nearest: string }) {
  return (
    <div className={styles.none} role="alert">
      <strong>No equilibrium: {why}.</strong> {nearest[0]?.toUpperCase()}
      {nearest.slice(1)}. Drawn is the last one there was.
    </div>
  );
}
