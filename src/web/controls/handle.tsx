import { type KeyboardEvent, type PointerEvent, useEffect, useRef } from "react";
import { newStroke } from "../state/store.ts";
import styles from "./handle.module.css";

export interface HandleProps {
  /** Where it is drawn, px in the drawing. */
  readonly x: number;
  readonly y: number;
  /** Which way it moves: its sign shows it. */
  readonly axis: "across" | "down" | "along";
  /** "Boat, drawn back". */
  readonly label: string;
  readonly now: number;
  readonly least: number;
  readonly most: number;
  readonly valueText: string;
  /** First-use hint beside it; null once it was used. */
  readonly hint?: string | null;
  readonly hintSide?: "left" | "right" | "above" | "below";
  /** A hand took hold of it. */
  readonly onGrab?: () => void;
  /** It was moved by so much since it was grabbed, px; `at` is where the hand is, px in the drawing. */
  readonly onMove: (by: { dx: number; dy: number; at: { x: number; y: number } }, stroke: string) => void;
  readonly onDrop?: () => void;
  /** So many steps more (or fewer) by the keyboard: 1 by an arrow, 10 by page up. */
  readonly onStep: (steps: number, stroke: string) => void;
}

/** Something in a drawing that can be taken hold of, by hand or by keyboard: a slider to those who cannot see it. */
export function Handle(props: HandleProps) {
  const { x, y, hint = null, hintSide = "above" } = props;
  const grabbed = useRef<Grabbed | null>(null);
  const keys = useRef({ stroke: "", at: 0 });
  const frame = useRef(0);
  const latest = useRef(props);
  latest.current = props;
  useEffect(() => () => cancelAnimationFrame(frame.current), []);

  const down = (event: PointerEvent<SVGGElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    // Where the drawing stands is asked once: asked at every move, it would lay out the page again each time.
    const { left, top } = event.currentTarget.ownerSVGElement!.getBoundingClientRect();
    const [startX, startY] = [event.clientX - left, event.clientY - top];
    grabbed.current = { stroke: newStroke(), left, top, x: startX, y: startY, startX, startY };
    props.onGrab?.();
  };
  const move = (event: PointerEvent<SVGGElement>) => {
    const held = grabbed.current;
    if (held === null) return;
    held.x = event.clientX - held.left;
    held.y = event.clientY - held.top;
    // Pointers report more often than frames are drawn: one change a frame.
    cancelAnimationFrame(frame.current);
    frame.current = requestAnimationFrame(follow);
  };
  const follow = () => {
    const held = grabbed.current;
    if (held === null) return;
    const at = { x: held.x, y: held.y };
    latest.current.onMove({ dx: held.x - held.startX, dy: held.y - held.startY, at }, held.stroke);
  };
  const up = () => {
    if (grabbed.current === null) return;
    cancelAnimationFrame(frame.current);
    follow();
    grabbed.current = null;
    latest.current.onDrop?.();
  };
  const key = (event: KeyboardEvent) => {
    const steps = STEPS[event.key];
    if (steps === undefined) return;
    event.preventDefault();
    // Keys in quick succession are one step of undo.
    const now = performance.now();
    if (now - keys.current.at > 1500) keys.current.stroke = newStroke();
    keys.current.at = now;
    props.onStep(event.shiftKey ? 10 * steps : steps, keys.current.stroke);
  };

  return (
    <g
      className={styles.handle}
      data-axis={props.axis}
      transform={`translate(${x} ${y})`}
      role="slider"
      tabIndex={0}
      aria-label={props.label}
      aria-orientation={props.axis === "down" ? "vertical" : "horizontal"}
      aria-valuenow={props.now}
      aria-valuemin={props.least}
      aria-valuemax={props.most}
      aria-valuetext={props.valueText}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={up}
      onKeyDown={key}
    >
      <circle className={styles.reach} r="23" />
      <circle className={styles.knob} r="12" />
      <path className={styles.sign} d={SIGNS[props.axis]} />
      {hint !== null && (
        <text className={styles.hint} {...HINTS[hintSide]}>
          {hint}
        </text>
      )}
    </g>
  );
}

interface Grabbed {
  readonly stroke: string;
  /** Of the drawing in the window, px. */
  readonly left: number;
  readonly top: number;
  /** Of the hand in the drawing, now and when it took hold, px. */
  x: number;
  y: number;
  readonly startX: number;
  readonly startY: number;
}

const STEPS: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
};

const SIGNS = {
  across: "M-7 0H7M-4-3L-7 0l3 3M4-3L7 0l-3 3",
  down: "M0-7V7M-3-4L0-7l3 3M-3 4L0 7l3-3",
  along: "M-5 3.5A6 6 0 1 1 5 3.5M5 3.5l.6-3.6M5 3.5L1.6 2.4",
} as const;

const HINTS = {
  above: { x: -16, y: -44, textAnchor: "middle" },
  below: { y: 34, textAnchor: "middle" },
  left: { x: -20, y: 5, textAnchor: "end" },
  right: { x: 20, y: 5, textAnchor: "start" },
} as const;
