/**
 * A day planned before it is pulled: which depth, length and rode give the angles and loads asked for and what stands
 * against those that cannot be had, how many pulls tell an answer, and in which order they are pulled.
 *
 *     const plan = planSeries(readSeries(text, "series.yaml"));
 *     plan.table;   // each angle at each load at each site
 *     plan.pulls;   // each pull at its hour, with its depth, rode, length, engine speed and code
 */
export { type Belief, beliefOf, informationAt } from "./belief.ts";
export { type Against, type CanBeHad, canBeHad, type Had } from "./can-be-had.ts";
export { CONSTITUENTS } from "./constituents.ts";
export { type NextPull, type NextReason, nextPulls } from "./next-pull.ts";
export { type Order, orderOf, type Placed } from "./order.ts";
export { type PlannedLoad, type PlannedPull, type PullWarning, planSeries, type SeriesPlan } from "./plan.ts";
export { drawTruths, type Truth, type TruthsDrawn } from "./posterior-truths.ts";
export { type Power, type PowerAnswer, powerOf, powerWith } from "./power.ts";
export { type CodeRead, type CodeTrouble, codeTyped, pullCode, readPullCode } from "./pull-code.ts";
export { pullOfCode } from "./pull-of-code.ts";
export { lengthFor, rodeOut } from "./rode-out.ts";
export type {
  AboardRode,
  PullingBoat,
  QuestionKind,
  Series,
  SeriesAnchor,
  SeriesDay,
  SeriesSite,
} from "./series.ts";
export { readSeries, seriesBook } from "./series-file.ts";
export { seriesFileSchema } from "./series-shape.ts";
export type { Cell } from "./table.ts";
export { mostThrust, speedFor } from "./thrust.ts";
export { type Constituent, levelAt, type Tide, type Turn } from "./tide.ts";
