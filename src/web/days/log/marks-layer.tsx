import { type KeyboardEvent, useRef, useState } from "react";
import { Handle } from "../../show/handle.tsx";
import type { Store } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";
import { clockText, timeStep } from "./clock.ts";
import { GUTTER } from "./gutter.ts";
import styles from "./log.module.css";
import type { StandingMark } from "./standing-marks.ts";
import type { Window } from "./window.ts";

/** Height of the strip in which marks lie, px. */
export const STRIP = 84;
/** Where moments and stretches stand in it, px: apart, so that a peak never hides its plateau. */
const MOMENTS = 17;
const BARS = 49;

interface Props {
  readonly marks: readonly StandingMark[];
  readonly view: Store<Window>;
  readonly whole: Window;
  readonly width: number;
  /** Height of strip and trace together. */
  readonly height: number;
  readonly chosen: string | null;
  readonly textOf: (mark: StandingMark) => string;
  readonly hint: string | null;
  readonly readOnly: boolean;
  readonly onChoose: (id: string | null) => void;
  readonly onMove: (mark: StandingMark, from: number, to: number) => void;
}

/**
 * The marks on the trace: what stands as a bar in the strip above it, what the reduction made as a thin line below it
 * where a person changed it. The chosen one has its ends in hand.
 */
export function MarksLayer(props: Props) {
  const { marks, view, whole, width, height, chosen } = props;
  const window = useStore(view);
  const [held, setHeld] = useState<{ id: string; from: number; to: number } | null>(null);
  const heldNow = useRef(held);
  heldNow.current = held;
  const plot = width - GUTTER.left - GUTTER.right;
  if (plot < 20) return null;
  const perPixel = (window.to - window.from) / plot;
  const x = (t: number) => GUTTER.left + (t - window.from) / perPixel;
  const inView = marks.filter(
    (mark) => mark.to >= window.from - 40 * perPixel && mark.from <= window.to + 40 * perPixel,
  );
  const step = timeStep(window.to - window.from, 400);

  const laid = (mark: StandingMark) =>
    held !== null && held.id === mark.id ? { ...mark, from: held.from, to: held.to } : mark;
  const drop = (mark: StandingMark) => {
    const last = heldNow.current;
    setHeld(null);
    if (last !== null && (last.from !== mark.from || last.to !== mark.to)) props.onMove(mark, last.from, last.to);
  };

  return (
    // biome-ignore lint/a11y/useSemanticElements: an HTML element cannot stand inside a drawing
    <svg className={styles.layer} width={width} height={height} role="group" aria-label="Marks on the trace">
      <clipPath id="marks-frame">
        <rect x={GUTTER.left - 14} y="0" width={plot + 28} height={height} />
      </clipPath>
      <g clipPath="url(#marks-frame)">
        {inView.map((each) => {
          const mark = laid(each);
          const [from, to] = [x(mark.from), x(mark.to)];
          const own = mark.automatic;
          const choose = () => props.onChoose(chosen === mark.id ? null : mark.id);
          const key = (event: KeyboardEvent) => {
            if (event.key !== "Enter" && event.key !== " ") return;
            event.preventDefault();
            event.stopPropagation();
            choose();
          };
          const shown = props.textOf(mark);
          const room = Math.min(to, GUTTER.left + plot) - Math.max(from, GUTTER.left);
          const seen = to - from > 40 ? fitting(shown, room) : "";
          const made = mark.takenAway ? "taken away by hand" : MADE[mark.origin];
          return (
            <g
              key={mark.id}
              className={styles.mark}
              data-kind={mark.kind}
              data-origin={mark.origin}
              data-away={mark.takenAway || undefined}
              data-chosen={chosen === mark.id || undefined}
            >
              {to - from > 2 ? (
                <rect
                  className={styles.stretch}
                  x={from}
                  y={STRIP}
                  width={to - from}
                  height={height - STRIP - GUTTER.bottom}
                />
              ) : (
                <path className={styles.moment} d={`M${from} ${MOMENTS + 10}V${height - GUTTER.bottom}`} />
              )}
              {/* biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing */}
              <g
                className={styles.bar}
                role="button"
                tabIndex={0}
                aria-pressed={chosen === mark.id}
                aria-label={`${seen === "" || shown.startsWith(seen) ? "" : `${seen}: `}${shown}, ${clockText(mark.from, step)}${mark.to > mark.from ? ` to ${clockText(mark.to, step)}` : ""}, ${made}`}
                onClick={choose}
                onKeyDown={key}
              >
                <title>{shown}</title>
                {to - from > 14 ? (
                  <>
                    <rect x={from} y={BARS - 15} width={to - from} height="30" rx="5" />
                    {seen !== "" && (
                      <text x={(Math.max(from, GUTTER.left) + Math.min(to, GUTTER.left + plot)) / 2} y={BARS + 5}>
                        {seen}
                      </text>
                    )}
                  </>
                ) : (
                  <>
                    <rect
                      className={styles.reach}
                      x={(from + to) / 2 - 15}
                      y={rowOf(mark) - 17}
                      width="30"
                      height="34"
                    />
                    <path
                      className={styles.sign}
                      transform={`translate(${(from + to) / 2} ${rowOf(mark)})`}
                      d={signOf(mark.kind)}
                    />
                  </>
                )}
              </g>
              {own !== null && mark.byHand !== null && (
                <path
                  className={styles.automatic}
                  d={`M${x(own.from_s)} ${BARS + 21}H${Math.max(x(own.to_s ?? own.from_s), x(own.from_s) + 3)}`}
                />
              )}
            </g>
          );
        })}
      </g>
      {!props.readOnly &&
        inView
          .filter((mark) => mark.id === chosen && !mark.takenAway)
          .map((each) => {
            const mark = laid(each);
            const isMoment = (mark.byHand ?? mark.automatic)!.to_s === null || each.to === each.from;
            const ends = isMoment ? (["from"] as const) : (["from", "to"] as const);
            return ends.map((end) => {
              const at = mark[end];
              if (at < window.from - 12 * perPixel || at > window.to + 12 * perPixel) return null;
              const put = (t: number) => {
                const clear = Math.min(whole.to, Math.max(whole.from, t));
                const next = isMoment
                  ? { from: clear, to: clear }
                  : end === "from"
                    ? { from: Math.min(clear, mark.to), to: mark.to }
                    : { from: mark.from, to: Math.max(clear, mark.from) };
                heldNow.current = { id: mark.id, ...next };
                setHeld(heldNow.current);
              };
              return (
                <g key={end}>
                  <path className={styles.hair} d={`M${x(at)} ${rowOf(mark)}V${height - GUTTER.bottom}`} />
                  <Grip
                    x={x(at)}
                    label={`${isMoment ? "" : end === "from" ? "Begin of " : "End of "}${mark.kind}`}
                    now={at}
                    least={whole.from}
                    most={whole.to}
                    text={clockText(at, step)}
                    hint={end === ends.at(-1) ? props.hint : null}
                    y={rowOf(mark)}
                    perPixel={perPixel}
                    onPut={put}
                    onDrop={() => drop(each)}
                  />
                </g>
              );
            });
          })}
    </svg>
  );
}

const MADE = { automatic: "automatic", corrected: "corrected by hand", added: "added by hand" } as const;

/** One end in hand; keys in quick succession are written as one correction. */
function Grip(props: {
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

const rowOf = (mark: { readonly from: number; readonly to: number }): number => (mark.to > mark.from ? BARS : MOMENTS);

/** As much of "plateau 2626.3 ± 8.1 N" as there is room for. */
const fitting = (text: string, room: number): string => {
  const most = Math.floor((room - 12) / 7.6);
  const [kind = "", ...rest] = text.split(" ");
  const value = rest.join(" ").replace(/ ± \S+/, "");
  return [text, `${kind} ${value}`, value, kind].find((one) => one !== "" && one.length <= most) ?? "";
};

/** A sign for each kind of a moment: told apart by shape. */
function signOf(kind: string): string {
  switch (kind) {
    case "peak":
      return "M0-9L7 7H-7Z";
    case "spike":
      return "M-6-6L6 6M6-6L-6 6";
    case "drag":
      return "M-8-5L4-5M-8 5L4 5M2-10L9 0L2 10";
    case "reversal":
      return "M6-6A7 7 0 1 0 7 4M7-10V-4H1";
    default:
      return "M0-8L8 0L0 8L-8 0Z";
  }
}
