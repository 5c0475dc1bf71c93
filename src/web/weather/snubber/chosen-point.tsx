import { type KeyboardEvent, type PointerEvent, useEffect, useRef } from "react";
import type { MapFrame } from "../../../figure/index.ts";
import handle from "../../controls/handle.module.css";
import { TouchIntent } from "../../controls/touch-intent.ts";
import { useHint } from "../../state/preferences.ts";
import { newStroke } from "../../state/store.ts";
import type { MapRange } from "./map-scale.ts";
import styles from "./snubber-map.module.css";

/** The one that is chosen: taken hold of and drawn about, or moved by the arrow keys in both directions. */
export function ChosenPoint(props: {
  readonly frame: MapFrame;
  readonly range: MapRange;
  readonly x: number;
  readonly y: number;
  readonly length: number;
  readonly diameter: number;
  readonly valueText: string;
  readonly onChoose: (length: number, diameter: number, stroke: string) => void;
}) {
  const { frame, range, x, y, length, diameter } = props;
  const hint = useHint("snubber point");
  const stroke = useRef<string | null>(null);
  const intent = useRef(new TouchIntent());
  const hand = useRef({ x: 0, y: 0 });
  const waiting = useRef(0);
  const latest = useRef(props);
  latest.current = props;
  useEffect(() => () => cancelAnimationFrame(waiting.current), []);

  const choose = (nextLength: number, nextDiameter: number, name: string) => {
    const held = (value: number, [from, to]: readonly [number, number]) => Math.min(to, Math.max(from, value));
    latest.current.onChoose(
      Number(held(nextLength, range.lengths).toPrecision(3)),
      Number(held(nextDiameter, range.diameters).toFixed(4)),
      name,
    );
  };
  const follow = () => {
    if (stroke.current === null) return;
    const [l, d] = [range.lengths, range.diameters];
    choose(
      l[0] + ((hand.current.x - frame.left) / frame.width) * (l[1] - l[0]),
      d[0] + (1 - (hand.current.y - frame.top) / frame.height) * (d[1] - d[0]),
      stroke.current,
    );
  };
  const placed = (event: PointerEvent<SVGElement>) => {
    const svg = (event.currentTarget as SVGGraphicsElement).ownerSVGElement!.getBoundingClientRect();
    hand.current = { x: event.clientX - svg.left, y: event.clientY - svg.top };
  };
  const key = (event: KeyboardEvent) => {
    const by = MOVES[event.key];
    if (by === undefined) return;
    event.preventDefault();
    hint.used();
    const times = event.shiftKey ? 5 : 1;
    choose(length + by[0] * times * 0.5, diameter + by[1] * times * 0.001, "snubber by keys");
  };
  const grab = {
    onPointerDown: (event: PointerEvent<SVGElement>) => {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      placed(event);
      // A finger on the handle means it; one on the map may be scrolling.
      const pointer = event.currentTarget.tagName === "rect" ? event.pointerType : "handle";
      if (!intent.current.down(event.clientX, event.clientY, pointer)) return;
      stroke.current = newStroke();
      follow();
      hint.used();
    },
    onPointerMove: (event: PointerEvent<SVGElement>) => {
      if (!intent.current.move(event.clientX, event.clientY)) return;
      stroke.current ??= newStroke();
      placed(event);
      cancelAnimationFrame(waiting.current);
      waiting.current = requestAnimationFrame(follow);
    },
    onPointerUp: () => {
      cancelAnimationFrame(waiting.current);
      if (intent.current.up()) stroke.current ??= newStroke();
      follow();
      stroke.current = null;
    },
    onPointerCancel: () => {
      cancelAnimationFrame(waiting.current);
      intent.current.cancel();
      stroke.current = null;
    },
  };
  return (
    <>
      <rect className={styles.pad} x={frame.left} y={frame.top} width={frame.width} height={frame.height} {...grab} />
      <path
        className={styles.cross}
        d={`M${x} ${frame.top}V${frame.top + frame.height}M${frame.left} ${y}H${frame.left + frame.width}`}
      />
      <g
        className={handle.handle}
        transform={`translate(${x} ${y})`}
        role="slider"
        tabIndex={0}
        aria-label="Chosen snubber: left and right its length, up and down its diameter"
        aria-valuenow={Number(length.toPrecision(3))}
        aria-valuemin={range.lengths[0]}
        aria-valuemax={range.lengths[1]}
        aria-valuetext={props.valueText}
        onKeyDown={key}
        {...grab}
      >
        <circle className={handle.reach} r="23" />
        <circle className={handle.knob} r="11" />
        <path className={handle.sign} d="M-6 0H6M0-6V6" />
        {hint.shown && (
          <text className={handle.hint} y="-20" textAnchor="middle">
            draw it about
          </text>
        )}
      </g>
    </>
  );
}

const MOVES: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
