/** The sheet a figure is drawn on: the outermost element, with what a screen reader says of it. */
import { ink, inkProperties } from "./ink.ts";
import { FONT, SIZE } from "./lettering.ts";
import { escaped, num, tag } from "./svg.ts";

export interface Drawn {
  readonly svg: string;
  /** px at print size */
  readonly width: number;
  readonly height: number;
}

export interface Told {
  /** One line that names the figure. */
  readonly title: string;
  /** What it shows, for somebody who does not see it. */
  readonly description: string;
}

/**
 * Wraps what was drawn. The figure takes its colours from the page it stands in; with `alone` it brings its own, for light
 * and dark, and its paper.
 */
export function sheet(width: number, height: number, told: Told, content: string, alone = false): Drawn {
  const own = alone
    ? tag(
        "style",
        {},
        `svg{${inkProperties("light")}}@media (prefers-color-scheme:dark){svg{${inkProperties("dark")}}}`,
      ) + tag("rect", { width, height, fill: ink("paper") })
    : "";
  const svg = tag(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${num(width)} ${num(height)}`,
      width,
      height,
      role: "img",
      "font-family": FONT,
      "font-size": SIZE.text,
    },
    tag("title", {}, escaped(told.title)),
    tag("desc", {}, escaped(told.description)),
    own,
    content,
  );
  return { svg, width, height };
}
