/** Text in figures: how wide it will be, and elements for it. */
import { type Ink, ink } from "./ink.ts";
import { escaped, tag } from "./svg.ts";

/** px at print size; nothing in a figure is set smaller than the second. */
export const SIZE = { text: 12, small: 11, strong: 13 } as const;
export const FONT = "system-ui, 'Segoe UI', Roboto, Helvetica, Arial, sans-serif";

/** Widths of ASCII 32 … 126 in thousandths of the size: those of a common sans serif (recalled). */
const WIDTHS = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
  722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
  556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
  260, 334, 584,
];
/** Fonts that may stand in are up to an eighth wider, and bold ones a tenth again. */
const ALLOWANCE = 1.12;
const BOLD = 1.1;

/** About how wide a line of text is, px; on the wide side. */
export function widthOf(text: string, size: number = SIZE.text, bold = false): number {
  let sum = 0;
  for (const character of text) {
    const code = character.codePointAt(0)!;
    sum += WIDTHS[code - 32] ?? (code > 0x2e80 ? 1000 : 600);
  }
  return (sum / 1000) * size * ALLOWANCE * (bold ? BOLD : 1);
}

export interface Lettering {
  readonly size?: number;
  readonly colour?: Ink;
  readonly anchor?: "start" | "middle" | "end";
  readonly weight?: "bold";
  /** deg clockwise about its place */
  readonly turned?: number;
  /** A rim in the colour of the paper, where it may cross lines. */
  readonly rimmed?: boolean;
}

/** A line of text; `y` is its baseline. */
export function text(x: number, y: number, line: string, style: Lettering = {}): string {
  return tag(
    "text",
    {
      x,
      y,
      fill: ink(style.colour ?? "ink"),
      "font-size": style.size ?? SIZE.text,
      "text-anchor": style.anchor === "start" ? undefined : style.anchor,
      "font-weight": style.weight === "bold" ? 600 : undefined,
      transform: style.turned === undefined ? undefined : `rotate(${style.turned} ${x} ${y})`,
      ...(style.rimmed
        ? { stroke: ink("paper"), "stroke-width": 3.5, "stroke-linejoin": "round", "paint-order": "stroke" }
        : {}),
    },
    escaped(line),
  );
}

/** A line of text cut to a width, with … where it was cut. */
export function fitted(line: string, width: number, size: number = SIZE.text): string {
  if (widthOf(line, size) <= width) return line;
  const characters = [...line];
  while (characters.length > 1 && widthOf(`${characters.join("")}…`, size) > width) characters.pop();
  return `${characters.join("").trimEnd()}…`;
}
