/**
 * The words of a rode's drawing that is too narrow to hold them: the rode bears a number for each part, and a key below
 * says what the numbers are, how high it reaches and what pulls at its ends.
 */
import { ink } from "../ink.ts";
import { fitted, SIZE, text } from "../lettering.ts";
import { type Box, boxAround } from "../room-for.ts";
import { tag } from "../svg.ts";
import { cardAt } from "./end-card.ts";
import { MOST, nameOf, partLabels } from "./part-labels.ts";
import { type Ends, endCards, heightLabel, type RodeDrawing, rollerLabel, type Words } from "./rode-drawing.ts";
import type { RodeLine } from "./rode-line.ts";
import type { Margins, Stage } from "./stage.ts";

/** Below this width, px, words beside the rode would lie on each other. */
export const NARROW = 420;
export const SHORT_ARROW = 34;

const LEFT = 10;
const LEADING = 16;
const NUMBER = 20;

export function marginsBelow(drawing: RodeDrawing): Margins {
  return {
    left: SHORT_ARROW + 14,
    right: SHORT_ARROW + 20,
    top: 24 + Math.max(0, SHORT_ARROW * Math.sin(drawing.traced.settled.bow.angle)),
    bottom: 64 + keyHeight(drawing),
  };
}

export function wordsBelow(drawing: RodeDrawing, stage: Stage, ends: Ends, lines: readonly RodeLine[]): Words {
  const { rig } = drawing;
  const { width, height } = stage;
  const foot = height - keyHeight(drawing);
  const along = (x: number, y: number, direction: number) =>
    [0.3, 0.6, 0.9].map((share) =>
      boxAround(x + share * SHORT_ARROW * Math.cos(direction), y - share * SHORT_ARROW * Math.sin(direction), 5),
    );
  const taken: Box[] = [
    ...lines.flatMap(({ boxes }) => boxes),
    ...along(ends.ax, ends.ay, ends.anchorOut),
    ...along(ends.bx, ends.by, ends.bowOut),
    boxAround(ends.ax, ends.ay, 7),
    boxAround(ends.bx, ends.by, 10),
    { left: 0, right: width, top: ends.ay, bottom: height },
    ...(rig.setting.medium === "water" ? [surfaceWord(stage.toY(rig.setting.depth))] : []),
  ];
  const within: Box = { left: 4, right: width - 4, top: 4, bottom: foot };
  return {
    behind: "",
    ends: key(drawing, width, foot, height),
    parts: partLabels(rig, lines[0]!.shape, stage, (_, at) => String(at + 1), taken, within, 14),
    taken,
    within,
    foot,
  };
}

/** The mark of the surface with its word. */
const surfaceWord = (y: number): Box => ({ left: 10, right: 80, top: y - 16, bottom: y + 5 });

function key(drawing: RodeDrawing, width: number, top: number, bottom: number): string {
  const cards = endCards(drawing);
  const half = width / 2;
  const from = top + 8;
  const rows = rowsOf(drawing).map((row, i) => {
    const y = from + cards.anchor.height + 22 + i * LEADING;
    const number =
      row.number === undefined ? "" : text(LEFT, y, String(row.number), { size: SIZE.small, weight: "bold" });
    const left = row.number === undefined ? LEFT : LEFT + NUMBER;
    return number + text(left, y, fitted(row.words, width - left - 6, SIZE.small), { size: SIZE.small });
  });
  return (
    tag("rect", { x: 0, y: top, width, height: bottom - top, fill: ink("paper") }) +
    cardAt(cards.anchor, LEFT, from, "computed").svg +
    cardAt(cards.bow, half + 4, from, "computed").svg +
    rows.join("")
  );
}

function rowsOf(drawing: RodeDrawing): { readonly words: string; readonly number?: number }[] {
  const { rig, units = "metric" } = drawing;
  const roller = rollerLabel(drawing);
  const left = rig.rode.length - MOST;
  return [
    { words: roller === null ? heightLabel(drawing) : `${heightLabel(drawing)}, ${roller}` },
    ...rig.rode.slice(0, MOST).map((part, i) => ({ number: i + 1, words: nameOf(part, units) })),
    ...(left > 0 ? [{ words: `and ${left} more` }] : []),
  ];
}

function keyHeight(drawing: RodeDrawing): number {
  return 8 + endCards(drawing).anchor.height + 14 + rowsOf(drawing).length * LEADING + 6;
}
