/** The axis of the wind that the charts of the place share, and how px and values go over into each other. */

export interface Plot {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Ends of the axes, SI. */
  readonly most: number;
  readonly highest: number;
}

export const MARGIN = { left: 52, right: 18, top: 14, bottom: 50 } as const;

export function plotIn(width: number, height: number, most: number, highest: number): Plot {
  return {
    left: MARGIN.left,
    top: MARGIN.top,
    width: Math.max(40, width - MARGIN.left - MARGIN.right),
    height: Math.max(40, height - MARGIN.top - MARGIN.bottom),
    most,
    highest,
  };
}

export const xOf = (plot: Plot, wind: number): number => plot.left + (wind / plot.most) * plot.width;
export const yOf = (plot: Plot, value: number): number => plot.top + (1 - value / plot.highest) * plot.height;

/** The wind at a place on the axis, within it: never quite calm, where a load is nothing. */
export function windAtX(plot: Plot, x: number): number {
  const wind = ((x - plot.left) / plot.width) * plot.most;
  return Math.min(plot.most, Math.max(0.01 * plot.most, wind));
}

const point = (plot: Plot, x: number, y: number): string => `${xOf(plot, x).toFixed(1)} ${yOf(plot, y).toFixed(1)}`;

/** A stroke through values over winds; a value that is not a number breaks it. */
export function stroke(plot: Plot, winds: ArrayLike<number>, values: ArrayLike<number>): string {
  let d = "";
  let open = false;
  for (let i = 0; i < winds.length; i++) {
    const value = values[i]!;
    if (!Number.isFinite(value)) {
      open = false;
      continue;
    }
    d += `${open ? "L" : "M"}${point(plot, winds[i]!, value)}`;
    open = true;
  }
  return d;
}

/** The area between two strokes. */
export function area(plot: Plot, winds: ArrayLike<number>, low: ArrayLike<number>, high: ArrayLike<number>): string {
  const whole = Array.from(winds).flatMap((wind, i) =>
    Number.isFinite(low[i]!) && Number.isFinite(high[i]!) ? [{ wind, low: low[i]!, high: high[i]! }] : [],
  );
  if (whole.length < 2) return "";
  const up = whole.map(({ wind, high: y }) => point(plot, wind, y)).join("L");
  const back = [...whole]
    .reverse()
    .map(({ wind, low: y }) => point(plot, wind, y))
    .join("L");
  return `M${up}L${back}Z`;
}
