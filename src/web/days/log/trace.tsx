import "uplot/dist/uPlot.min.css";
import { useEffect, useRef } from "react";
import uPlot from "uplot";
import { withMinus } from "../../controls/numbers.ts";
import type { Store } from "../../state/store.ts";
import { clockText, timeTicks } from "./clock.ts";
import { GUTTER } from "./gutter.ts";
import type { Drawn } from "./view-bytes.ts";
import type { Window } from "./window.ts";

export interface Lane {
  readonly channel: string;
  readonly label: string;
  /** The label in its parts. */
  readonly shown: { readonly name: string; readonly unit: string };
  /** Turns SI into the unit shown. */
  readonly factor: number;
  readonly height: number;
  readonly kind: "measured" | "other";
  /** False: no axis of time below it. */
  readonly timed: boolean;
}

/**
 * One channel over time. Drawn on a canvas: its words stand in the table beside it. The window moves without React, a
 * frame for a frame.
 */
export default function Trace({
  lane,
  width,
  view,
  data,
  range,
  theme,
}: {
  readonly lane: Lane;
  readonly width: number;
  readonly view: Store<Window>;
  readonly data: Drawn;
  /** Least and greatest of the axis, in the unit shown; null: what is in view. */
  readonly range: readonly [number, number] | null;
  /** Anything that changes when colours do. */
  readonly theme: string;
}) {
  const host = useRef<HTMLDivElement>(null);
  const plot = useRef<uPlot | null>(null);
  const latest = useRef({ data, range });
  latest.current = { data, range };

  // biome-ignore lint/correctness/useExhaustiveDependencies: the theme changes what the colours below are
  useEffect(() => {
    const element = host.current;
    if (element === null || width < 80) return;
    const colour = (name: string) => getComputedStyle(element).getPropertyValue(name).trim();
    const ink = lane.kind === "measured" ? colour("--measured") : colour("--other");
    const soft = colour("--ink-2");
    const grid = { stroke: `color-mix(in srgb, ${colour("--line-strong")} 35%, transparent)`, width: 1 };
    const font = `12px ${colour("--font") || "sans-serif"}`;
    const made = new uPlot(
      {
        width,
        height: lane.height,
        padding: [GUTTER.top, GUTTER.right, lane.timed ? 0 : 4, 0],
        pxAlign: false,
        legend: { show: false },
        cursor: { show: false },
        select: { show: false, left: 0, top: 0, width: 0, height: 0 },
        scales: {
          x: { time: false, auto: false },
          y: {
            range: (_, low, high) => {
              const told = latest.current.range;
              if (told !== null) return [told[0], told[1]];
              if (!(Number.isFinite(low) && Number.isFinite(high))) return [0, 1];
              const room = 0.06 * Math.max(high - low, 1e-9 * Math.abs(high), 1e-9);
              return [low - room, high + room];
            },
          },
        },
        axes: [
          {
            show: lane.timed,
            size: GUTTER.bottom,
            stroke: soft,
            font,
            grid,
            ticks: { show: false },
            gap: 4,
            splits: (u, _, from, to) => timeTicks(from, to, Math.max(2, u.width / 110)).at,
            values: (u, splits) => {
              const { min = 0, max = 1 } = u.scales.x!;
              const { step } = timeTicks(min, max, Math.max(2, u.width / 110));
              return splits.map((at) => clockText(at, step));
            },
          },
          {
            values: (_, splits) => splits.map((at) => withMinus(String(Number(at.toPrecision(6))))),
            size: GUTTER.left,
            stroke: soft,
            font,
            grid,
            ticks: { show: false },
            gap: 6,
            space: 34,
          },
        ],
        series: [
          {},
          { stroke: ink, width: 1.25, points: { show: false }, spanGaps: false },
          { stroke: ink, width: 1.25, points: { show: false }, spanGaps: false },
        ],
        bands: [{ series: [2, 1], fill: `color-mix(in srgb, ${ink} 55%, transparent)` }],
      },
      [[], [], []],
      element,
    );
    plot.current = made;
    const show = () => {
      const { from, to } = view.get();
      made.setScale("x", { min: from, max: to });
    };
    put(made, latest.current.data);
    show();
    const leave = view.subscribe(show);
    return () => {
      leave();
      made.destroy();
      plot.current = null;
    };
  }, [width, lane.height, lane.kind, lane.timed, view, theme]);

  useEffect(() => {
    if (plot.current !== null) put(plot.current, data);
  }, [data]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: another range draws the same data anew
  useEffect(() => {
    const made = plot.current;
    if (made === null) return;
    const { from, to } = view.get();
    made.setScale("x", { min: from, max: to });
  }, [range, view]);

  return <div ref={host} aria-hidden="true" />;
}

function put(plot: uPlot, data: Drawn): void {
  const { min, max } = plot.scales.x!;
  plot.batch(() => {
    plot.setData([data.x, data.min, data.max], false);
    if (min !== undefined && max !== undefined && min !== null && max !== null) plot.setScale("x", { min, max });
  });
}
