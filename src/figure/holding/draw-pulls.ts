/**
 * Every pull as a mark on an axis of load, a row an anchor: gave way at a load, a filled diamond; held on, a line with an
 * arrow on; known between two loads, a bar; never held, an arrow back to zero. Marks of one kind and row are one path, so
 * that a hundred thousand stay as quick as a few.
 */
import { ink } from "../ink.ts";
import { SIZE } from "../lettering.ts";
import type { Box } from "../room-for.ts";
import { linearScale, type Scale, ticksBetween } from "../scale.ts";
import { type Drawn, type FigureWords, sheet } from "../sheet.ts";
import { escaped, num, tag } from "../svg.ts";

/** A pull as a mark: where it ended, and how. */
export type PullMark =
  | { readonly kind: "gaveWay"; readonly load: number }
  | { readonly kind: "heldTo"; readonly load: number }
  | { readonly kind: "neverHeld"; readonly load: number }
  | { readonly kind: "between"; readonly from: number; readonly to: number };

/** Anchors and their pulls, with curves, as they are drawn. */
export interface PullsSpec extends FigureWords {
  /** Loads in the unit the axis names. */
  readonly rows: readonly { readonly name: string; readonly marks: readonly PullMark[] }[];
  readonly axis: string;
  readonly width?: number;
  /** Stands on its own: brings its colours and its paper. */
  readonly alone?: boolean;
}

const LEFT = 8;
const RIGHT = 24;
const ROW = 58;
const NAME = 18;
const LANES = 6;
const BOTTOM = 40;

/** Pulls drawn, with what is needed to put a pointer on them: the scale of the load, and where each row lies. */
export interface DrawnPulls extends Drawn {
  readonly x: Scale;
  readonly rows: readonly Box[];
}

/** Pulls of anchors as marks over load, by how they ended. */
export function drawPulls({ rows, axis, width = 680, alone = false, title, description }: PullsSpec): DrawnPulls {
  const most = rows.reduce((top, { marks }) => marks.reduce((high, mark) => Math.max(high, endOf(mark)), top), 0) || 1;
  const x = linearScale(0, most * 1.05, [LEFT, width - RIGHT]);
  const height = rows.length * ROW + BOTTOM;
  const parts: string[] = [];
  const base = rows.length * ROW + 4;
  for (const value of ticksBetween(0, most * 1.05, 6).values) {
    const at = num(x.toPixel(value));
    parts.push(
      tag("line", { x1: at, x2: at, y1: 0, y2: base, stroke: ink("faint") }),
      tag(
        "text",
        { x: at, y: base + 14, "text-anchor": "middle", fill: ink("soft") },
        escaped(String(Number(value.toPrecision(6)))),
      ),
    );
  }
  parts.push(
    tag(
      "text",
      { x: num((LEFT + width - RIGHT) / 2), y: base + 31, "text-anchor": "middle", fill: ink("ink") },
      escaped(axis),
    ),
  );
  rows.forEach(({ name, marks }, r) => {
    const top = r * ROW;
    parts.push(
      tag(
        "text",
        { x: LEFT, y: top + 12, fill: ink("ink"), "font-size": SIZE.text },
        escaped(`${name} (${marks.length})`),
      ),
    );
    const diamonds: string[] = [];
    const arrows: string[] = [];
    const bars: string[] = [];
    marks.forEach((mark, i) => {
      const y = top + NAME + 4 + ((i % LANES) * (ROW - NAME - 10)) / (LANES - 1);
      if (mark.kind === "gaveWay") diamonds.push(`M${num(x.toPixel(mark.load))} ${num(y - 4)}l4 4l-4 4l-4-4z`);
      else if (mark.kind === "heldTo") arrows.push(`M${num(x.toPixel(mark.load))} ${num(y)}v-3v6v-3h14l-4-3m4 3l-4 3`);
      else if (mark.kind === "neverHeld")
        arrows.push(`M${num(x.toPixel(mark.load))} ${num(y)}v-3v6v-3H${num(x.toPixel(0) + 1)}l4-3m-4 3l4 3`);
      else
        bars.push(
          `M${num(x.toPixel(mark.from))} ${num(y)}H${num(x.toPixel(mark.to))}m0-3v6M${num(x.toPixel(mark.from))} ${num(y - 3)}v6`,
        );
    });
    if (diamonds.length > 0) parts.push(tag("path", { d: diamonds.join(""), fill: ink("measured") }));
    for (const [path, stroke] of [
      [arrows, "computed"],
      [bars, "measured"],
    ] as const) {
      if (path.length > 0)
        parts.push(tag("path", { d: path.join(""), fill: "none", stroke: ink(stroke), "stroke-width": 1.5 }));
    }
  });
  return {
    ...sheet(width, height, { title, description }, parts.join(""), alone),
    x,
    rows: rows.map((_, r) => ({ left: LEFT, right: width - RIGHT, top: r * ROW, bottom: (r + 1) * ROW })),
  };
}

function endOf(mark: PullMark): number {
  return mark.kind === "between" ? mark.to : mark.load;
}
