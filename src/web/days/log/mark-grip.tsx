import { useRef } from "react";
import { Handle } from "../../controls/handle.tsx";

/** One end in hand; keys in quick succession are written as one correction. */
export function MarkGrip(props: {
  readonly x: number;
  readonly y: number;
  readonly label: string;
  readonly now: number;
  readonly least: number;
  readonly most: number;
  readonly text: string;
  readonly hint: string | null;
  readonly perPixel: number;
  readonly onPut: (t: number) => void;
  readonly onDrop: () => void;
}) {
  const began = useRef(props.now);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const latest = useRef(props);
  latest.current = props;
  return (
    <Handle
      x={props.x}
      y={props.y}
      axis="across"
      label={props.label}
      now={props.now}
      least={props.least}
      most={props.most}
      valueText={props.text}
      hint={props.hint}
      hintSide="below"
      onGrab={() => {
        began.current = props.now;
      }}
      onMove={({ dx }) => props.onPut(began.current + dx * props.perPixel)}
      onDrop={props.onDrop}
      onStep={(steps) => {
        props.onPut(props.now + steps * props.perPixel);
        clearTimeout(timer.current);
        timer.current = setTimeout(() => latest.current.onDrop(), 700);
      }}
    />
  );
}
