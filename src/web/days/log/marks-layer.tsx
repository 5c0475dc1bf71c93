import { type KeyboardEvent, useRef, useState } from "react";
import type { EffectiveMark } from "../../../study/index.ts";
import type { Store } from "../../state/store.ts";
import { useStore } from "../../state/use-store.ts";
import { clockText, timeStep } from "./clock.ts";
import { GUTTER } from "./gutter.ts";
import styles from "./log.module.css";
import { MarkGrip } from "./mark-grip.tsx";
import { BARS, fitting, MOMENTS, rowOf, STRIP, signOf } from "./mark-sign.ts";
import type { Window } from "./window.ts";

interface Props {
  readonly marks: readonly EffectiveMark[];
  readonly view: Store<Window>;
  readonly whole: Window;
  readonly width: number;
  /** Height of strip and trace together. */
  readonly height: number;
  readonly chosen: string | null;
  readonly textOf: (mark: EffectiveMark) => string;
  readonly hint: string | null;
  readonly readOnly: boolean;
  readonly onChoose: (id: string | null) => void;
  readonly onMove: (mark: EffectiveMark, from: number, to: number) => void;
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

  const laid = (mark: EffectiveMark) =>
    // What it told is of where it lay: in a hand it tells nothing until it is measured anew.
    held !== null && held.id === mark.id ? { ...mark, from: held.from, to: held.to, value: null } : mark;
  const drop = (mark: EffectiveMark) => {
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
            // Two knobs stand beside each other where the stretch is too short for both: a line leads to the end each moves.
            const apart = isMoment ? 0 : Math.max(0, (KNOBS - (x(mark.to) - x(mark.from))) / 2);
            return ends.map((end) => {
              const at = mark[end];
              const knob = x(at) + (end === "from" ? -apart : apart);
              if (at < window.from - 12 * perPixel || at > window.to + 12 * perPixel) return null;
              const hint = end === ends.at(-1) ? props.hint : null;
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
                  <path
                    className={styles.hair}
                    d={`M${knob} ${rowOf(mark) + (hint === null ? 0 : HINT)}L${x(at)} ${STRIP}V${height - GUTTER.bottom}`}
                  />
                  <MarkGrip
                    x={knob}
                    label={`${isMoment ? "" : end === "from" ? "Begin of " : "End of "}${mark.kind}`}
                    now={at}
                    least={whole.from}
                    most={whole.to}
                    text={clockText(at, step)}
                    hint={hint}
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

/** Between two knobs that can be told apart by a thumb, px. */
const KNOBS = 48;

/** How far below a grip its hint reaches, px: the hair begins there and crosses no words. */
const HINT = 38;

const MADE = { automatic: "automatic", corrected: "corrected by hand", added: "added by hand" } as const;
