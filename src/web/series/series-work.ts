/** A series planned off the page's own thread, from its text. */

import type { FigureTable } from "../../figure/index.ts";
import type { Pull } from "../../holding/index.ts";
import { fieldSheet, waterFigure } from "../../publish/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import {
  type CodeTrouble,
  drawTruths,
  type NextPull,
  nextPulls,
  type PlannedPull,
  type PowerAnswer,
  planSeries,
  powerOf,
  pullOfCode,
  readSeries,
  type Series,
  type SeriesPlan,
  type TruthsDrawn,
} from "../../series/index.ts";
import { chainsBy, type OneChain } from "../holding/chains-by.ts";

const PLACE = "series";

/** @throws InputError for a text that is no series */
export const plannedSeries = (text: string): SeriesPlan => planSeries(readSeries(text, PLACE));

/** The water of one site, drawn: its name, the figure's title, the drawing as text, and its data. */
export interface SiteWater {
  readonly site: string;
  readonly title: string;
  readonly svg: string;
  readonly table: FigureTable;
}

/** Each site of a series. @param width px; @throws InputError for a text that is no series */
export function seriesWater(text: string, units: UnitSystem, width: number): SiteWater[] {
  const { series, table } = plannedSeries(text);
  return series.sites.map((site) => {
    const made = waterFigure(series.name, [site], table, units);
    return { site: site.name, title: made.title, svg: made.draw(width, 0).svg, table: made.table };
  });
}

/** How many pulls would tell, and what the next would bring. */
export interface SeriesPower {
  readonly power: PowerAnswer;
  readonly next: readonly NextPull[];
}

/** @throws InputError for a text that is no series */
export function seriesPower(text: string): SeriesPower {
  const { series, table } = plannedSeries(text);
  return { power: powerOf(series, table), next: nextPulls(series, table) };
}

/** The same from draws of the model on pulls that are held already, or why there are none. */
export type SeriesPosterior =
  | (SeriesPower & { readonly kind: "drawn" })
  | Exclude<TruthsDrawn, { readonly kind: "drawn" }>;

/** @param held pulls of the book, of whichever anchors; @throws InputError for a text that is no series */
export async function seriesPosterior(text: string, held: readonly Pull[], draw: OneChain): Promise<SeriesPosterior> {
  const { series, table } = planSeries(readSeries(text, PLACE, held));
  const drawn = await drawTruths(series, chainsBy(draw));
  if (drawn.kind !== "drawn") return drawn;
  return { kind: "drawn", power: powerOf(series, table, undefined, drawn.truths), next: nextPulls(series, table) };
}

/** The page to print. @throws InputError for a text that is no series */
export const seriesSheet = (text: string, units: UnitSystem): string => fieldSheet(plannedSeries(text), units);

/** Of a series: how long each load is held, s, and when it counts as held. */
export type PlannedHold = Pick<Series, "hold" | "holdRule">;
const holdOf = ({ hold, holdRule }: Series): PlannedHold => ({ hold, holdRule });

/** What a code typed from a sheet stands for. */
export type CodeFound =
  | { readonly kind: "pull"; readonly pull: PlannedPull; readonly series: PlannedHold }
  | CodeTrouble;

/** @throws InputError for a text that is no series */
export function codeFound(text: string, code: string): CodeFound {
  const plan = plannedSeries(text);
  const found = pullOfCode(plan, code);
  return found.kind === "pull" ? { ...found, series: holdOf(plan.series) } : found;
}
