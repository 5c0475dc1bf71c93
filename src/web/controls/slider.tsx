import { useRef } from "react";
import { newStroke } from "../state/store.ts";
import { TouchIntent } from "./touch-intent.ts";

/** A range that is slid: by a finger only after sideways motion, so that a page scrolled over it changes nothing. */
export function Slider(props: {
  readonly id?: string;
  readonly className?: string | undefined;
  readonly label?: string;
  readonly most: number;
  readonly value: number;
  readonly valueText: string;
  /** One name for all changes of a drag, or of keys in a row: one step of undo. */
  readonly onSlide: (value: number, stroke: string) => void;
}) {
  const intent = useRef(new TouchIntent());
  const stroke = useRef("");
  const touched = useRef(false);
  return (
    <input
      {...(props.id === undefined ? {} : { id: props.id })}
      className={props.className}
      type="range"
      min={0}
      max={props.most}
      step={1}
      value={Math.min(props.most, Math.max(0, props.value))}
      aria-label={props.label}
      aria-valuetext={props.valueText}
      onPointerDown={(event) => {
        stroke.current = newStroke();
        touched.current = event.pointerType === "touch";
        intent.current.down(event.clientX, event.clientY, event.pointerType);
      }}
      onPointerMove={(event) => intent.current.move(event.clientX, event.clientY)}
      onPointerUp={() => {
        intent.current.up();
        touched.current = false;
      }}
      onPointerCancel={() => {
        // The page is scrolled: what the browser still reports of this finger is not meant.
        intent.current.cancel();
      }}
      onKeyDown={() => {
        touched.current = false;
        stroke.current = `keys ${props.id ?? props.label ?? ""}`;
      }}
      onChange={(event) => {
        if (touched.current && !intent.current.meant) return;
        props.onSlide(Number(event.target.value), stroke.current);
      }}
    />
  );
}
