import { useRef, useState } from "react";
import { type Certainty, riseOf } from "../../rode/index.ts";
import { noEquilibriumWords } from "../../words/index.ts";
import { formatQuantity } from "../controls/numbers.ts";
import { useSize } from "../controls/use-size.ts";
import { FigureFrame } from "../figure/figure-frame.tsx";
import { rodeTable } from "../figure/rode-table.ts";
import { useUnits } from "../state/preferences.ts";
import { AnchorSign } from "./anchor-sign.tsx";
import { Backdrop } from "./backdrop.tsx";
import { Dimensions } from "./dimensions.tsx";
import styles from "./drawing.module.css";
import { RigHandles } from "./rig-handles.tsx";
import { RodeLines } from "./rode-lines.tsx";
import { type Drawn, extentOf, type Scene } from "./scene.ts";
import type { RigState } from "./state.ts";
import { fit as fitView, heightAcross, type View, xPx, yPx } from "./view.ts";

const PHONE = 560;
/** Height of the drawing, px: room for its words at the least, and for what stands below it at the most. */
const LOWEST = 190;
const HIGHEST = 460;

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
  // Room for the figure's menu: it grows with the letters, and the line of the span ends before it.
  const [corner, { width: cornerWidth }] = useSize<HTMLSpanElement>();
  const { system } = useUnits();
  // While a hand holds something, the view stands still under it.
  const [held, setHeld] = useState<View | null>(null);
  const newest = useRef<View | null>(null);
  const narrow = size.width < PHONE;
  const margins = narrow
    ? { left: 40, right: Math.min(cornerWidth, size.width / 3), top: 58, bottom: 66 }
    : { left: 56, right: 130, top: 60, bottom: 72 };
  const extent = extentOf(scene);
  // As high as the rode needs at this width: what is neither rode nor words would be sky and sand.
  const height = held?.height ?? Math.round(heightAcross(size.width, extent, margins, LOWEST, HIGHEST));
  const fitted = size.width > 0 ? fitView(size.width, height, extent, margins) : null;
  newest.current = fitted;
  const view = held ?? fitted;

  const { drawn, none, over } = scene;
  return (
    <FigureFrame
      kind="rode"
      title={`The rode, drawn to scale: ${state.rig.name}`}
      titleUnseen
      corner="below"
      ownHand
      table={drawn === null ? null : () => rodeTable(over === null ? [drawn] : [drawn, over])}
    >
      <div className={styles.frame}>
        {/* biome-ignore lint/a11y/useSemanticElements: a drawing with sliders in it is no set of fields */}
        <svg ref={ref} className={styles.drawing} style={{ height }} role="group" aria-label="The rode, drawn to scale">
          {view !== null && drawn !== null && (
            <>
              <g className={none === null ? undefined : styles.stale}>
                <Picture drawn={drawn} over={over} view={view} sure={none === null ? sure : null} narrow={narrow} />
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
        <span ref={corner} className={styles.corner} aria-hidden="true" />
        {none !== null && <NotSettled {...noEquilibriumWords(none, system)} drawn={drawn !== null} />}
        <p className="unseen">
          {drawn !== null &&
            `Anchor at the left, boat or upper end ${formatQuantity(drawn.settled.span, "length", { system, digits: 3 })} away at the right.`}
        </p>
      </div>
    </FigureFrame>
  );
}

function Picture({
  drawn,
  over,
  view,
  sure,
  narrow,
}: {
  readonly drawn: Drawn;
  readonly over: Drawn | null;
  readonly view: View;
  readonly sure: Certainty | null;
  readonly narrow: boolean;
}) {
  const { setting } = drawn.rig;
  const rise = riseOf(setting);
  return (
    <>
      <Backdrop setting={setting} view={view} rise={rise} span={drawn.settled.span} />
      {over !== null && <RodeLines drawn={over} view={view} rise={rise} faint />}
      <RodeLines drawn={drawn} view={view} rise={rise} />
      <AnchorSign
        x={xPx(view, 0)}
        y={yPx(view, rise)}
        angle={drawn.settled.anchor.angle}
        bottom={setting.bottomSlope}
      />
      <Dimensions view={view} drawn={drawn} over={over} sure={sure} narrow={narrow} />
    </>
  );
}

function NotSettled({
  why,
  nearest,
  drawn,
}: {
  readonly why: string;
  readonly nearest: string;
  readonly drawn: boolean;
}) {
  return (
    <div className={styles.none} role="alert">
      <strong>No equilibrium: {why}.</strong> {nearest[0]?.toUpperCase()}
      {nearest.slice(1)}.{drawn && " Drawn is the last there was."}
    </div>
  );
}
