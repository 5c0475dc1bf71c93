/** The sheet a figure is drawn on: the outermost element, with what a screen reader says of it. */
import { ink, inkProperties } from "./ink.ts";
import { FONT, SIZE } from "./lettering.ts";
import { escaped, num, tag } from "./svg.ts";

/** A figure as SVG with its size, px. */
export interface Drawn {
  readonly svg: string;
  /** px at print size */
  readonly width: number;
  readonly height: number;
}

/** A figure in words, for who does not see it. */
export interface FigureWords {
  /** One line that names the figure. */
  readonly title: string;
  /** What it shows, for somebody who does not see it. */
  readonly description: string;
}

/** Paper about a figure that stands on its own, px. */
const RIM = 12;

/**
 * Wraps what was drawn. The figure takes its colours from the page it stands in; with `alone` it brings its own, for light
 * and dark, and its paper.
 */
export function sheet(width: number, height: number, words: FigureWords, content: string, alone = false): Drawn {
  const rim = alone ? RIM : 0;
  const [wide, high] = [width + 2 * rim, height + 2 * rim];
  const own = alone
    ? tag(
        "style",
        {},
        `svg{${inkProperties("light")}}@media (prefers-color-scheme:dark){svg{${inkProperties("dark")}}}`,
      ) + tag("rect", { x: -rim, y: -rim, width: wide, height: high, fill: ink("paper") })
    : "";
  const svg = tag(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `${num(-rim)} ${num(-rim)} ${num(wide)} ${num(high)}`,
      width: wide,
      height: high,
      role: "img",
      "font-family": FONT,
      "font-size": SIZE.text,
    },
    tag("title", {}, escaped(words.title)),
    tag("desc", {}, escaped(words.description)),
    own,
    content,
  );
  return { svg, width: wide, height: high };
}
