/** A series planned: what can be had, then each pull at its hour with depth, rode, length and engine speed. */
import { settle } from "../rode/index.ts";
import { type RodeAgainst, triedBetween, waysTo } from "./best-way.ts";
import type { Against, Had } from "./can-be-had.ts";
import { orderOf, type Placed } from "./order.ts";
import { pullCode } from "./pull-code.ts";
import { type Series, signOf } from "./series.ts";
import { type Cell, tableOf } from "./table.ts";
import { speedFor } from "./thrust.ts";
import { levelAt } from "./tide.ts";

/** A load of a pull and the engine speed that gives it. */
export interface PlannedLoad {
  /** N at the anchor, and at the bow */
  readonly load: number;
  readonly bow: number;
  /** Hz; null beyond the boat's points */
  readonly speed: number | null;
}

/** What is to be known before a pull. */
export type PullWarning =
  /** The tide moves the angle during the pull by more than the gauge can see, rad. */
  | { readonly kind: "tideMovesAngle"; readonly by: number; readonly gauge: number }
  /** The last load cannot be had: it is pulled to a lower one. */
  | { readonly kind: "onlyTo"; readonly load: number; readonly asked: number; readonly against: readonly Against[] };

/** A pull of the plan. */
export interface PlannedPull extends Placed {
  readonly number: number;
  readonly code: string;
  /** m above the datum; null where the tide is not told at that hour */
  readonly level: number | null;
  readonly how:
    | {
        readonly kind: "had";
        /** At the last load that can be had. */
        readonly at: Had;
        readonly charted: number;
        readonly loads: readonly PlannedLoad[];
        readonly warnings: readonly PullWarning[];
      }
    | { readonly kind: "levelNotTold" }
    /** Nothing asked can be had at that hour; `byTide`: it could be at another level of the same day. */
    | { readonly kind: "notHad"; readonly against: readonly Against[]; readonly byTide: boolean };
}

/** A series planned. */
export interface SeriesPlan {
  readonly series: Series;
  readonly table: readonly Cell[];
  readonly pulls: readonly PlannedPull[];
  readonly withoutHour: number;
  /** Time of all pulls and changes, s. */
  readonly time: number;
}

/** Plans a series. */
export function planSeries(series: Series): SeriesPlan {
  const table = tableOf(series);
  const { placed, withoutHour } = orderOf(series);
  const pulls = placed.map((one, i) => plannedPull(series, table, one, i + 1));
  let time = 0;
  for (const day of series.days) {
    const own = placed.filter((one) => one.day === day);
    if (own.length > 0) time += own.at(-1)!.at + series.pullTime - day.from;
  }
  return { series, table, pulls, withoutHour, time };
}

function plannedPull(series: Series, table: readonly Cell[], placed: Placed, number: number): PlannedPull {
  const site = series.sites.find(({ name }) => name === placed.day.site)!;
  const level = levelAt(site.tide, placed.at);
  const about = { ...placed, number, code: pullCode(signOf(series), number), level };
  if (level === null) return { ...about, how: { kind: "levelNotTold" } };
  const asked = series.loads.at(-1)!;
  const depths = triedBetween(site.depth.least, site.depth.most).map((charted) => charted + level);
  let refused: readonly Against[] = [];
  for (const load of [...series.loads].reverse()) {
    const { best, against } = waysTo(series, site, depths, placed.angle, load);
    if (best === null) {
      if (load === asked) refused = fewest(against);
      continue;
    }
    const later = levelAt(site.tide, placed.at + series.pullTime);
    const by = later === null ? 0 : best.angleByDepth * (later - level);
    const warnings: PullWarning[] = [];
    if (Math.abs(by) > series.gaugeU) warnings.push({ kind: "tideMovesAngle", by, gauge: series.gaugeU });
    if (load < asked) warnings.push({ kind: "onlyTo", load, asked, against: refused });
    const loads = loadsOf(series, best, load);
    return { ...about, how: { kind: "had", at: best, charted: best.depth - level, loads, warnings } };
  }
  const other = table.some((cell) => cell.site === site.name && cell.angle === placed.angle && cell.had !== null);
  return { ...about, how: { kind: "notHad", against: refused, byTide: other } };
}

/** What stands against the rode that comes nearest. */
function fewest(against: readonly RodeAgainst[]): readonly Against[] {
  return [...against].sort((a, b) => a.against.length - b.against.length)[0]?.against ?? [];
}

/** The loads up to the last that can be had, each with the bow's load on the rode as laid out. */
function loadsOf({ loads, boat }: Series, { rig }: Had, last: number): PlannedLoad[] {
  return loads
    .filter((load) => load <= last)
    .flatMap((load) => {
      const settled = settle(rig, { at: "anchor", newtons: load });
      if (settled.kind !== "settled") return [];
      return [{ load, bow: settled.bow.tension, speed: speedFor(boat, settled.horizontal) }];
    });
}
