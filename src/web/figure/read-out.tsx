import { type KeyboardEvent, type PointerEvent, useState } from "react";
import styles from "./figure-frame.module.css";
import { type ReadOff, readOff, valueText } from "./read-off.ts";
import type { Shown, ShownPlot } from "./shown-figure.ts";

/** Lines told at once: more would hide what they tell of. */
const MOST_LINES = 8;

/** Where the hand is: which plot, and the value along its axis. */
interface At {
  readonly plot: number;
  readonly x: number;
}

/** Tells what a figure shows under a pointer, a finger or, by arrows, the keyboard; it changes nothing. */
export function ReadOut({ title, shown }: { readonly title: string; readonly shown: Shown }) {
  const [at, setAt] = useState<At | null>(null);
  const first = shown.plots[0];
  if (first === undefined || shown.width <= 0) return null;
  const plot = shown.plots[at?.plot ?? 0] ?? first;
  const x = at === null ? null : Math.min(plot.x.to, Math.max(plot.x.from, at.x));
  const read = x === null ? [] : readOff(plot, x).slice(0, MOST_LINES);
  const point = (event: PointerEvent<HTMLDivElement>): void => {
    const { left, top, width, height } = event.currentTarget.getBoundingClientRect();
    const px = ((event.clientX - left) / width) * shown.width;
    const py = ((event.clientY - top) / height) * shown.height;
    const nearest = shown.plots.findIndex(({ box }) => py <= box.bottom + 8);
    const under = nearest < 0 ? shown.plots.length - 1 : nearest;
    setAt({ plot: under, x: valueAt(shown.plots[under]!, px) });
  };
  const key = (event: KeyboardEvent): void => {
    const { from, to } = plot.x;
    const now = x ?? (from + to) / 2;
    const step = ((to - from) / 50) * (event.shiftKey ? 5 : 1);
    const next: Readonly<Record<string, number>> = {
      ArrowRight: now + step,
      ArrowLeft: now - step,
      PageUp: now + 5 * step,
      PageDown: now - 5 * step,
      Home: from,
      End: to,
    };
    if (event.key === "Escape") setAt(null);
    const value = next[event.key];
    if (value === undefined) {
      if (event.key !== "ArrowDown" && event.key !== "ArrowUp") return;
      event.preventDefault();
      const other = (at?.plot ?? 0) + (event.key === "ArrowDown" ? 1 : -1);
      if (shown.plots[other] !== undefined) setAt({ plot: other, x: now });
      return;
    }
    event.preventDefault();
    setAt({ plot: at?.plot ?? 0, x: Math.min(to, Math.max(from, value)) });
  };
  const where = x === null ? "" : placeText(plot, x);
  const told = read.map((one) => lineText(one, plot)).join("; ");
  return (
    <div
      className={styles.over}
      data-for-hand
      role="slider"
      tabIndex={0}
      aria-label={`Read off: ${title}`}
      aria-valuemin={plot.x.from}
      aria-valuemax={plot.x.to}
      aria-valuenow={x ?? (plot.x.from + plot.x.to) / 2}
      aria-valuetext={x === null ? "arrows read it off" : `${where}: ${told === "" ? "nothing" : told}`}
      onPointerDown={point}
      onPointerMove={point}
      onPointerLeave={(event) => {
        // A finger that is lifted leaves what it read standing.
        if (event.pointerType !== "touch") setAt(null);
      }}
      onKeyDown={key}
      onBlur={() => setAt(null)}
    >
      {x !== null && (
        <>
          <svg className={styles.marks} data-for-hand aria-hidden="true" viewBox={`0 0 ${shown.width} ${shown.height}`}>
            <path className={styles.hair} d={`M${pxOf(plot, x)} ${plot.box.top}V${plot.box.bottom}`} />
            {read.flatMap((one) =>
              one.at.map((dot) => (
                <circle
                  key={`${one.name} ${dot.x} ${dot.y}`}
                  className={styles.dot}
                  r="4"
                  cx={pxOf(plot, dot.x)}
                  cy={pyOf(plot, dot.y)}
                />
              )),
            )}
          </svg>
          <div
            className={styles.read}
            data-side={x > (plot.x.from + plot.x.to) / 2 ? "left" : "right"}
            style={{
              insetBlockStart: `${(100 * plot.box.top) / shown.height}%`,
              ...(x > (plot.x.from + plot.x.to) / 2
                ? { insetInlineStart: `${(100 * plot.box.left) / shown.width}%` }
                : { insetInlineEnd: `${100 - (100 * plot.box.right) / shown.width}%` }),
            }}
          >
            <strong>{where}</strong>
            {read.map((one) => (
              <span key={`${one.name} ${one.text}`}>{lineText(one, plot)}</span>
            ))}
          </div>
        </>
      )}
    </div>
  );
}

const placeText = (plot: ShownPlot, x: number): string => `${plot.x.label} ${valueText(x, undefined, plot.x)}`;

/** One line alone is what the axis says it is. */
function lineText({ name, text }: ReadOff, { y }: ShownPlot): string {
  const called = name === "" ? y.label : name;
  return called === "" ? text : `${called} ${text}`;
}

const valueAt = ({ box, x }: ShownPlot, px: number): number =>
  x.from + ((px - box.left) / (box.right - box.left)) * (x.to - x.from);
const pxOf = ({ box, x }: ShownPlot, value: number): number =>
  box.left + ((value - x.from) / (x.to - x.from)) * (box.right - box.left);
const pyOf = ({ box, y }: ShownPlot, value: number): number =>
  box.bottom - ((value - y.from) / (y.to - y.from)) * (box.bottom - box.top);
