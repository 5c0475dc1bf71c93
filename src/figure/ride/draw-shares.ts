/** How long the load at the bow was how high: a bar a class of load, its height by the square root, so that rare loads are seen. */
import { ink } from "../ink.ts";
import { SIZE, text } from "../lettering.ts";
import { linearScale, ticksBetween, tickText } from "../scale.ts";
import { type Drawn, type FigureWords, sheet } from "../sheet.ts";
import { num, tag } from "../svg.ts";

/** Shares of time, as they are drawn. */
export interface SharesDrawing extends FigureWords {
  /** Of each class, from zero load up; they add up to 1. */
  readonly shares: readonly number[];
  /** Upper end of the last class, in the unit of the axis. */
  readonly top: number;
  readonly axis: { readonly label: string; readonly unit: string };
  /** Loads marked across it, in the unit of the axis. */
  readonly marks: readonly { readonly at: number; readonly label: string; readonly warn: boolean }[];
  /** px; 680 by 300 without */
  readonly width?: number;
  readonly height?: number;
  readonly alone?: boolean;
}

/** Classes a ride's loads are told in. */
export const CLASSES = 24;

/** Share of the samples in each class from zero to `top`, N; samples stand at equal steps of time. */
export function sharesOf(loads: ArrayLike<number>, top: number): number[] {
  const counts = new Array<number>(CLASSES).fill(0);
  for (let i = 0; i < loads.length; i++)
    counts[Math.min(CLASSES - 1, Math.max(0, Math.floor((loads[i]! / top) * CLASSES)))]! += 1;
  return counts.map((count) => (loads.length === 0 ? 0 : count / loads.length));
}

const MARGIN = { left: 48, right: 14, top: 34, bottom: 42 } as const;
/** Room above the tallest bar for what is marked across. */
const HEADROOM = 1.2;
/** Shares an axis by the square root is marked at. */
const LEVELS = [0.001, 0.01, 0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 1];

/** Bars over the load, with what is marked across them. */
export function drawShares({
  shares,
  top,
  axis,
  marks,
  title,
  description,
  width = 680,
  height = 300,
  alone = false,
}: SharesDrawing): Drawn {
  const [left, right, upper, base] = [MARGIN.left, width - MARGIN.right, MARGIN.top, height - MARGIN.bottom];
  const x = linearScale(0, top, [left, right]);
  const most = Math.max(...shares, 1e-6);
  const y = linearScale(0, Math.sqrt(most) * HEADROOM, [base, upper]);
  const at = (share: number): number => y.toPixel(Math.sqrt(share));
  const parts: string[] = [];
  let above = base;
  for (const level of LEVELS) {
    if (level > most || above - at(level) < 15) continue;
    above = at(level);
    parts.push(
      tag("line", { x1: left, x2: right, y1: above, y2: above, stroke: ink("faint") }),
      text(left - 7, above + 4, `${Number((100 * level).toPrecision(3))} %`, {
        ...{ anchor: "end", size: SIZE.small, colour: "soft" },
      }),
    );
  }
  const across = (right - left) / shares.length;
  shares.forEach((share, i) => {
    if (share === 0) return;
    parts.push(
      tag("rect", {
        ...{ x: left + i * across + 0.5, y: at(share), width: across - 1, height: base - at(share) },
        ...{ fill: ink("computed"), "fill-opacity": 0.55 },
      }),
    );
  });
  const ticks = ticksBetween(0, top, Math.max(2, (right - left) / 90));
  for (const value of ticks.values)
    parts.push(
      tag("line", { x1: x.toPixel(value), x2: x.toPixel(value), y1: base, y2: base + 5, stroke: ink("soft") }),
      text(x.toPixel(value), base + 18, tickText(value, ticks.decimals), {
        ...{ anchor: "middle", size: SIZE.small, colour: "soft" },
      }),
    );
  parts.push(
    tag("line", { x1: left, x2: right, y1: base, y2: base, stroke: ink("soft") }),
    text(right, base + 36, `${axis.label}, ${axis.unit}`, { anchor: "end" }),
    text(0, upper - 18, "share of the time; heights by its square root"),
    ...marks.flatMap(({ at: load, label, warn }, k) => {
      if (load > top) return [];
      const px = x.toPixel(load);
      const beyond = px > (left + right) / 2;
      const colour = warn ? "measured" : "ink";
      return [
        tag("path", {
          ...{ d: `M${num(px)} ${num(upper)}V${num(base)}`, fill: "none", stroke: ink(colour) },
          ...{ "stroke-width": 1.5, "stroke-dasharray": warn ? "2 3" : "6 4" },
        }),
        text(px + (beyond ? -6 : 6), upper + 12 + 16 * k, label, {
          ...{ anchor: beyond ? "end" : "start", colour, rimmed: true },
        }),
      ];
    }),
  );
  return sheet(width, height, { title, description }, parts.join(""), alone);
}
