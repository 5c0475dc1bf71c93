/** A series planned off the page's own thread, from its text. */
import { fieldSheet } from "../../publish/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import {
  type NextPull,
  nextPulls,
  type PlannedPull,
  type PowerAnswer,
  planSeries,
  powerOf,
  readPullCode,
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

/** A pull of the series by the code on its sheet, and how long each load is held; null where it is none of its codes. */
export function pullOfCode(text: string, code: string): { readonly pull: PlannedPull; readonly hold: number } | null {
  const { series, pulls } = plannedSeries(text);
  const number = readPullCode(`${series.name} ${series.seed}`, code);
  const pull = number === null ? undefined : pulls.find((one) => one.number === number);
  return pull === undefined ? null : { pull, hold: series.hold };
}
