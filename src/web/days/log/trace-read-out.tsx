import { type RefObject, useEffect, useState } from "react";
import { significant } from "../../controls/numbers.ts";
import frame from "../../figure/figure-frame.module.css";
import type { Store } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";
import { clockText } from "./clock.ts";
import { GUTTER } from "./gutter.ts";
import type { Lane } from "./trace.tsx";
import type { Drawn } from "./view-bytes.ts";
import type { Window } from "./window.ts";

/** A finger that went farther than this, px, moved the trace. */
const TAP = 8;

interface Read {
  readonly box: RefObject<HTMLDivElement | null>;
  readonly lanes: readonly { readonly lane: Lane }[];
  readonly data: readonly Drawn[];
  readonly view: Store<Window>;
  readonly width: number;
}

/** What was read under the pointer, or where a finger tapped; a hand that moves the trace is not told. The table says the same. */
export function TraceReadOut(props: Read) {
  const { box } = props;
  const [at, setAt] = useState<number | null>(null);
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    let down: number | null = null;
    const place = (event: PointerEvent): number => event.clientX - element.getBoundingClientRect().left;
    const onDown = (event: PointerEvent): void => {
      down = event.clientX;
      setAt(null);
    };
    const onMove = (event: PointerEvent): void => {
      if (event.pointerType !== "touch") setAt(event.buttons === 0 ? place(event) : null);
    };
    const onUp = (event: PointerEvent): void => {
      if (down !== null && Math.abs(event.clientX - down) <= TAP) setAt(place(event));
      down = null;
    };
    const onLeave = (event: PointerEvent): void => {
      // A finger that is lifted leaves what it read standing.
      if (event.pointerType !== "touch") setAt(null);
    };
    element.addEventListener("pointerdown", onDown);
    element.addEventListener("pointermove", onMove);
    element.addEventListener("pointerup", onUp);
    element.addEventListener("pointerleave", onLeave);
    return () => {
      element.removeEventListener("pointerdown", onDown);
      element.removeEventListener("pointermove", onMove);
      element.removeEventListener("pointerup", onUp);
      element.removeEventListener("pointerleave", onLeave);
    };
  }, [box]);
  return at === null ? null : <At {...props} at={at} />;
}

function At({ lanes, data, view, width, at }: Read & { readonly at: number }) {
  const { from, to } = useStore(view);
  const room = width - GUTTER.left - GUTTER.right;
  const share = (at - GUTTER.left) / room;
  if (share < 0 || share > 1) return null;
  const time = from + share * (to - from);
  // Nothing is told farther from a reading than the eye sees it: eight px.
  const near = (8 / room) * (to - from);
  return (
    <div aria-hidden="true">
      <svg className={frame.marks} aria-hidden="true">
        <path className={frame.hair} d={`M${at} 0V2000`} />
      </svg>
      <div
        className={frame.read}
        style={{ insetBlockStart: 4, ...(share > 0.5 ? { left: GUTTER.left } : { right: GUTTER.right }) }}
      >
        <strong>{clockText(time, (to - from) / 500)}</strong>
        {lanes.map(({ lane }, i) => (
          <span key={lane.channel}>{readAt(lane, data[i]!, time, near)}</span>
        ))}
      </div>
    </div>
  );
}

/** `load 2.41 to 2.63 kN`, one number where both are the same, a dash where nothing was read so near. */
function readAt({ shown: { name, unit } }: Lane, { x, min, max }: Drawn, time: number, near: number): string {
  let best = -1;
  x.forEach((t, i) => {
    if (min[i] === null || Math.abs(t - time) > near) return;
    if (best < 0 || Math.abs(t - time) < Math.abs(x[best]! - time)) best = i;
  });
  if (best < 0) return `${name} –`;
  const [low, high] = [significant(min[best]!, 3), significant(max[best]!, 3)];
  return `${name} ${low === high ? low : `${low} to ${high}`} ${unit}`;
}
