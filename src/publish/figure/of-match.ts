/** The map of two setups over depth. */
import { drawMatchMap, type MatchMapQuestion } from "../../figure/index.ts";
import { type FigureMade, tableOfPlots } from "./made.ts";

/** Loads at which two setups pull their anchors at some angles, or the scope each needs, over depth. */
export function matchMapFigure(question: Omit<MatchMapQuestion, "width" | "height">): FigureMade {
  const draw = (width: number, height: number) =>
    drawMatchMap({ ...question, width: Math.round(width), height: Math.round(height) });
  const drawn = draw(680, 380);
  return {
    title: drawn.title,
    uncertain:
      "No ± is drawn: the lines are of the rigs as their files state them. rodebench match tells the ± of one answer.",
    draw,
    table: tableOfPlots(drawn),
  };
}
