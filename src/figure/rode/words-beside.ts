/** The words of a rode's drawing where there is room for them in it: each beside what it tells of. */
import { SIZE, text, widthOf } from "../lettering.ts";
import { type Box, boxAround, roomFor } from "../room-for.ts";
import { uprightDimension } from "./drafting.ts";
import { cardAt } from "./end-card.ts";
import { nameOf, partLabels } from "./part-labels.ts";
import { type Ends, endCards, heightLabel, type RodeDrawing, rollerLabel, type Words } from "./rode-drawing.ts";
import type { RodeLine } from "./rode-line.ts";
import type { Margins, Stage } from "./stage.ts";

export const ARROW = 46;

export function marginsBeside(drawing: RodeDrawing, width: number): Margins {
  const { anchor, bow } = drawing.traced.settled;
  const cards = endCards(drawing);
  // A steep rode leaves its anchor's card no room but beside it.
  const steep = anchor.angle > 0.6;
  return {
    left: Math.min(0.3 * width, Math.max(ARROW + 18, steep ? cards.anchor.width + 20 : 0)),
    right: Math.min(
      0.3 * width,
      Math.max(ARROW + 44, cards.bow.width + 22, widthOf(heightLabel(drawing), SIZE.small) + 34),
    ),
    top: 56 + Math.max(22, ARROW * Math.sin(bow.angle) + 6),
    bottom: 64,
  };
}

export function wordsBeside(drawing: RodeDrawing, stage: Stage, ends: Ends, lines: readonly RodeLine[]): Words {
  const { rig, units = "metric" } = drawing;
  const { width } = stage;
  const { ay, bx, by } = ends;
  const cards = endCards(drawing);
  const free = Array.from({ length: 9 }, (_, i) => {
    const top = ay - cards.anchor.height - 14 - 10 * i;
    return { top, box: { left: 10, top, right: 10 + cards.anchor.width, bottom: top + cards.anchor.height } };
  });
  const covered = lines.flatMap(({ boxes }) => boxes);
  const anchorTop = roomFor(free, covered, { left: 0, right: width, top: 0, bottom: ay })!.top;
  const anchor = cardAt(cards.anchor, 10, anchorTop, "computed");
  const tipY = by - ARROW * Math.sin(ends.bowOut);
  const bow = cardAt(
    cards.bow,
    Math.min(bx + 12, width - cards.bow.width - 4),
    Math.min(by - 22, tipY - 6) - cards.bow.height,
    "computed",
  );
  const taken: Box[] = [
    ...lines[0]!.boxes,
    anchor.box,
    bow.box,
    boxAround(bx, by, 10),
    { left: 0, right: width, top: ay, bottom: stage.height },
    { left: bx - 2, right: bx + 60, top: by, bottom: ay },
    ...(rig.setting.medium === "water" ? [surfaceBox(stage.toY(rig.setting.depth), width)] : []),
  ];
  const within: Box = { left: 4, right: width - 4, top: 4, bottom: stage.height - 4 };
  return {
    behind: heights(drawing, stage, rig.setting.medium === "air" ? bx + 18 : bx, ay, by),
    ends: anchor.svg + bow.svg,
    parts: partLabels(rig, lines[0]!.shape, stage, (part) => nameOf(part, units), taken, within),
    taken,
    within,
    foot: stage.height,
  };
}

/** The surface's line, px. */
const surfaceBox = (y: number, width: number): Box => ({ left: 0, right: width, top: y - 2, bottom: y + 2 });

/** Rise, or depth and the height of the roller. */
function heights(drawing: RodeDrawing, stage: Stage, x: number, bottom: number, top: number): string {
  const { setting } = drawing.rig;
  if (setting.medium === "air") return uprightDimension(x, bottom, top, heightLabel(drawing));
  const surfaceY = stage.toY(setting.depth);
  const depth = uprightDimension(x, bottom, surfaceY, heightLabel(drawing));
  const roller = rollerLabel(drawing);
  if (roller === null || surfaceY - top <= 14) return depth;
  return depth + text(x + 24, (surfaceY + top) / 2 + 5, roller, { size: SIZE.small, colour: "soft" });
}
