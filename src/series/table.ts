/** What can be had: each angle at each load, at each site, with the rode and depth that give it best. */
import { type RodeAgainst, triedBetween, waysTo } from "./best-way.ts";
import type { Had } from "./can-be-had.ts";
import type { Series, SeriesSite } from "./series.ts";
import { levelAt } from "./tide.ts";

/** Levels of the water at a site over the hours pulled there, m above the datum; alike where no hour is told. */
export interface Levels {
  readonly least: number;
  readonly most: number;
}

/** One angle at one load at one site. */
export interface Cell {
  readonly site: string;
  /** rad above the bottom, N at the anchor */
  readonly angle: number;
  readonly load: number;
  /** The first rode that gives it, at the depth at which the angle moves least with the depth; null where none does. */
  readonly had: Had | null;
  /** Depths of water at which it can be had, m. */
  readonly depths: { readonly least: number; readonly most: number } | null;
  /** For each rode that does not give it, what stands against it where it comes nearest. */
  readonly against: readonly RodeAgainst[];
}

/** Steps in which the level is looked at, s. */
const STEP = 600;

/** Cells of the table, site by site, angle by angle, load by load. */
export function tableOf(series: Series): Cell[] {
  return series.sites.flatMap((site) => {
    const levels = levelsOf(series, site);
    const least = site.depth.least + levels.least;
    const most = site.depth.most + levels.most;
    const depths = triedBetween(least, most);
    return series.angles.flatMap((angle) =>
      series.loads.map((load): Cell => {
        const { best, depths: within, against } = waysTo(series, site, depths, angle, load);
        const range = within.length === 0 ? null : { least: Math.min(...within), most: Math.max(...within) };
        return { site: site.name, angle, load, had: best, depths: range, against };
      }),
    );
  });
}

function levelsOf({ days }: Series, site: SeriesSite): Levels {
  const levels = days
    .filter((day) => day.site === site.name)
    .flatMap(({ from, to }) => {
      const times = Array.from({ length: Math.floor((to - from) / STEP) + 1 }, (_, i) => from + i * STEP);
      return [...times, to].map((at) => levelAt(site.tide, at) ?? Number.NaN);
    })
    .filter(Number.isFinite);
  if (levels.length > 0) return { least: Math.min(...levels), most: Math.max(...levels) };
  const mean = site.tide.kind === "harmonic" ? site.tide.mean : 0;
  return { least: mean, most: mean };
}
