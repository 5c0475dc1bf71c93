import { type PointerEvent, useEffect, useRef } from "react";
import { KNOT } from "../../../quantity/index.ts";
import { beaufort } from "../../../sea/index.ts";
import { Handle } from "../../controls/handle.tsx";
import { formatQuantity } from "../../controls/numbers.ts";
import { TouchIntent } from "../../controls/touch-intent.ts";
import { useHint, useUnits } from "../../state/preferences.ts";
import { newStroke } from "../../state/store.ts";
import { change } from "../store.ts";
import { type Plot, windAtX, xOf } from "./axis.ts";
import styles from "./chart.module.css";
import { lookAt } from "./under-pointer.ts";

const keep = (wind: number, stroke: string): void => change({ wind: Number(wind.toPrecision(4)) }, "wind", stroke);

/**
 * The pointer of a chart: a line at the wind that is shown, and the whole plot as the place to move it. The handle on the axis
 * is the slider of those who work by keys, `named` once in the place; the other charts show the line only.
 */
export function WindSlide({
  plot,
  shown,
  kept,
  handle,
}: {
  readonly plot: Plot;
  readonly shown: number;
  readonly kept: number;
  readonly handle: boolean;
}) {
  const { system, unitOf } = useUnits();
  const unit = unitOf("wind", "speed", "kn");
  const hint = useHint("wind pointer");
  const stroke = useRef<string | null>(null);
  const intent = useRef(new TouchIntent());
  const frame = useRef(0);
  const at = useRef(0);
  useEffect(
    () => () => {
      cancelAnimationFrame(frame.current);
      lookAt(null);
    },
    [],
  );

  const placed = (event: PointerEvent<SVGRectElement>): number =>
    windAtX(plot, event.clientX - event.currentTarget.ownerSVGElement!.getBoundingClientRect().left);
  const follow = () => {
    if (stroke.current === null) lookAt(at.current);
    else keep(at.current, stroke.current);
  };
  const moved = (event: PointerEvent<SVGRectElement>) => {
    const meant = intent.current.move(event.clientX, event.clientY);
    if (stroke.current === null && meant && event.pointerType !== "mouse") stroke.current = newStroke();
    if (stroke.current === null && event.pointerType !== "mouse") return;
    at.current = placed(event);
    // Pointers report more often than frames are drawn.
    cancelAnimationFrame(frame.current);
    frame.current = requestAnimationFrame(follow);
  };
  const left = () => {
    cancelAnimationFrame(frame.current);
    lookAt(null);
  };

  const bottom = plot.top + plot.height;
  const step = windStep(plot.most);
  return (
    <g>
      <rect
        className={styles.pad}
        x={plot.left}
        y={plot.top}
        width={plot.width}
        height={plot.height}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          at.current = placed(event);
          lookAt(null);
          if (!intent.current.down(event.clientX, event.clientY, event.pointerType)) return;
          stroke.current = newStroke();
          follow();
          hint.used();
        }}
        onPointerMove={moved}
        onPointerUp={() => {
          cancelAnimationFrame(frame.current);
          if (intent.current.up() || stroke.current !== null) keep(at.current, stroke.current ?? newStroke());
          stroke.current = null;
        }}
        onPointerCancel={() => {
          cancelAnimationFrame(frame.current);
          intent.current.cancel();
          stroke.current = null;
        }}
        onPointerLeave={left}
      />
      <path className={styles.pointer} d={`M${xOf(plot, shown)} ${plot.top}V${bottom}`} />
      {handle && (
        <Handle
          x={xOf(plot, shown)}
          y={bottom}
          axis="across"
          label="Wind"
          now={Number(kept.toPrecision(3))}
          least={0}
          most={plot.most}
          valueText={`mean wind ${formatQuantity(kept, "speed", { system, unit, digits: 3 })}, ${beaufort(kept).name}`}
          hint={hint.shown ? "slide the wind" : null}
          hintSide={shown > 0.5 * plot.most ? "left" : "right"}
          onGrab={() => {
            lookAt(null);
            hint.used();
          }}
          onMove={({ at: hand }, name) => keep(windAtX(plot, hand.x), name)}
          onStep={(steps, name) => {
            hint.used();
            keep(Math.min(plot.most, Math.max(step, kept + steps * step)), name);
          }}
        />
      )}
    </g>
  );
}

/** One key press: half a knot, or as much of a longer axis. */
const windStep = (most: number): number => Math.max(0.5 * KNOT, most / 200);
