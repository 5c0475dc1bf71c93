/** What a plot shows at a place along its axis, in words no sharper than their ±. */
import { roundToUncertainty, significant } from "../controls/numbers.ts";
import type { Series, ShownAxis, ShownPlot } from "./shown-figure.ts";

export interface ReadOff {
  readonly name: string;
  readonly text: string;
  /** Where it lies in the plot; a band has two. */
  readonly at: readonly { readonly x: number; readonly y: number }[];
}

/** How near a point is to be pointed at, as a share of the axis. */
const NEAR = 0.02;

/** All that stands at `x`: lines and bands there, straight between their corners, and the points nearby. */
export function readOff(plot: ShownPlot, x: number): readonly ReadOff[] {
  return plot.series.flatMap((series) => of(series, plot, x));
}

function of(series: Series, plot: ShownPlot, x: number): readonly ReadOff[] {
  const name = series.name;
  if (series.kind === "points") {
    const near = NEAR * Math.abs(plot.x.to - plot.x.from);
    const i = nearest(series.x, x);
    if (i < 0 || Math.abs(series.x[i]! - x) > near) return [];
    const at = [{ x: series.x[i]!, y: series.y[i]! }];
    const note = series.notes[i];
    return [
      { name, text: note !== undefined && note !== "" ? note : valueText(series.y[i]!, series.u?.[i], plot.y), at },
    ];
  }
  const between = segmentAt(series.x, x);
  if (between === null) return [];
  if (series.kind === "band") {
    const [low, high] = [valueAt(series.low, between), valueAt(series.high, between)];
    if (!Number.isFinite(low + high)) return [];
    const text = `${significant(low, 3)} to ${withUnit(significant(high, 3), plot.y.unit)}`;
    return [{ name, text, at: [] }];
  }
  const y = valueAt(series.y, between);
  if (!Number.isFinite(y)) return [];
  const u = series.u === undefined ? undefined : valueAt(series.u, between);
  return [{ name, text: valueText(y, u, plot.y), at: [{ x, y }] }];
}

/** `5.14 ± 0.40 °`; three digits where no ± is known. */
export function valueText(value: number, u: number | undefined, { unit }: Pick<ShownAxis, "unit">): string {
  if (u === undefined || !(u > 0)) return withUnit(significant(value, 3), unit);
  const rounded = roundToUncertainty(value, u);
  return withUnit(`${rounded.value} ± ${rounded.u}`, unit);
}

const withUnit = (text: string, unit: string): string =>
  unit === "" ? text : unit === "°" ? `${text}°` : `${text} ${unit}`;

interface Between {
  readonly i: number;
  readonly share: number;
}

/** The first stretch that holds x; of a step, the value it comes to. */
function segmentAt(xs: ArrayLike<number>, x: number): Between | null {
  for (let i = 1; i < xs.length; i++) {
    const [a, b] = [xs[i - 1]!, xs[i]!];
    if (a === b || !(Math.min(a, b) <= x && x <= Math.max(a, b))) continue;
    return { i, share: (x - a) / (b - a) };
  }
  return null;
}

function valueAt(values: ArrayLike<number>, { i, share }: Between): number {
  const [a, b] = [values[i - 1]!, values[i]!];
  return share === 0 ? a : share === 1 ? b : a + share * (b - a);
}

function nearest(xs: ArrayLike<number>, x: number): number {
  let best = -1;
  for (let i = 0; i < xs.length; i++) if (best < 0 || Math.abs(xs[i]! - x) < Math.abs(xs[best]! - x)) best = i;
  return best;
}
