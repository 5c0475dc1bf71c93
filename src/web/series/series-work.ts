/** A series planned off the page's own thread, from its text. */
import { fieldSheet } from "../../publish/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import {
  type CodeTrouble,
  type NextPull,
  nextPulls,
  type PlannedPull,
  type PowerAnswer,
  planSeries,
  powerOf,
  pullOfCode,
  readSeries,
  type SeriesPlan,
} from "../../series/index.ts";

const PLACE = "series";

/** @throws InputError for a text that is no series */
export const plannedSeries = (text: string): SeriesPlan => planSeries(readSeries(text, PLACE));

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

/** The page to print. @throws InputError for a text that is no series */
export const seriesSheet = (text: string, units: UnitSystem): string => fieldSheet(plannedSeries(text), units);

/** What a code typed from a sheet stands for. */
export type CodeFound =
  | { readonly kind: "pull"; readonly pull: PlannedPull /** s each load is held */; readonly hold: number }
  | CodeTrouble;

/** @throws InputError for a text that is no series */
export function codeFound(text: string, code: string): CodeFound {
  const plan = plannedSeries(text);
  const found = pullOfCode(plan, code);
  return found.kind === "pull" ? { ...found, hold: plan.series.hold } : found;
}
