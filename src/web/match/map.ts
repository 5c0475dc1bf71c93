/** The map of two setups over depth, as the page takes it. Runs in the worker. */
import { drawMatchMap, type MatchMapQuestion } from "../../figure/index.ts";
import { type ShownFigure, shownFigure } from "../figure/shown-figure.ts";

export function shownMatchMap(question: MatchMapQuestion): ShownFigure {
  const drawn = drawMatchMap(question);
  return shownFigure(drawn.title, drawn);
}
