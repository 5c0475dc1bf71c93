<<<<<<< HEAD

/**
 * The map of two setups over depth: the loads at which each pulls its anchor at some angles, or the scope each needs for
 * one angle at one load. Runs in the worker.
 */
import { drawXy, type Layer } from "../../figure/index.ts";
import { DEGREE, inUnit, type UnitSystem, unitFor } from "../../quantity/index.ts";
import { compile, endForcesOf, find, pullForAngle, type Rig, riseOf, withValue } from "../../rode/index.ts";
import { formatQuantity } from "../controls/numbers.ts";

=======

/** The map of two setups over depth, as the page takes it. Runs in the worker. */
import { drawMatchMap, type MatchMapQuestion } from "../../figure/index.ts";

>>>>>>> main

import { type ShownFigure, shownFigure } from "../figure/shown-figure.ts";

export function shownMatchMap(question: MatchMapQuestion): ShownFigure {
  const drawn = drawMatchMap(question);
  return shownFigure(drawn.title, drawn);
}
