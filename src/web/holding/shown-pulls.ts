/** The drawing of every pull as what can be read off it: a plot a row, its pulls as points with how each ended. */
import type { DrawnPulls, PullMark } from "../../figure/index.ts";
import { significant } from "../controls/numbers.ts";
import type { ShownFigure } from "../figure/shown-figure.ts";

interface Row {
  readonly name: string;
  readonly marks: readonly PullMark[];
}

export function shownPulls(drawn: DrawnPulls, rows: readonly Row[], unit: string): ShownFigure {
  const { svg, width, height } = drawn;
  return {
    title: "Every pull",
    svg,
    width,
    height,
    plots: rows.map(({ name, marks }, r) => {
      const byLoad = [...marks].sort((a, b) => loadOf(a) - loadOf(b));
      return {
        box: drawn.rows[r]!,
        x: { label: "load at the anchor", unit, from: drawn.x.from, to: drawn.x.to },
        y: { label: name, unit: "", from: 0, to: 1 },
        series: [
          {
            kind: "points" as const,
            name,
            x: byLoad.map(loadOf),
            y: byLoad.map(() => Number.NaN),
            notes: byLoad.map((mark) => endedText(mark, unit)),
          },
        ],
      };
    }),
  };
}

const loadOf = (mark: PullMark): number => (mark.kind === "between" ? mark.to : mark.load);

function endedText(mark: PullMark, unit: string): string {
  const load = (value: number): string => `${significant(value, 3)} ${unit}`;
  switch (mark.kind) {
    case "gaveWay":
      return `gave way at ${load(mark.load)}`;
    case "heldTo":
      return `held ${load(mark.load)}, let go there`;
    case "neverHeld":
      return `never held ${load(mark.load)}`;
    case "between":
      return `held ${load(mark.from)}, had given way by ${load(mark.to)}`;
  }
}
