/**
 * The way an angle at a load is had at a site: with the first rode of the list that gives it, so that all anchors are pulled
 * on one rode where one does, at the depth at which the angle moves least with the depth.
 */
import { type Against, canBeHad, type Had } from "./can-be-had.ts";
import type { Series, SeriesSite } from "./series.ts";

/** What each rode that does not give it has against it, where it comes nearest. */
export interface RodeAgainst {
  readonly rode: string;
  readonly against: readonly Against[];
}

/** The best way, with every depth at which there is one. */
export interface Ways {
  readonly best: Had | null;
  /** m of water, in the order tried */
  readonly depths: readonly number[];
  readonly against: readonly RodeAgainst[];
}

/** @param depths m of water at the anchor that may be chosen from */
export function waysTo(series: Series, site: SeriesSite, depths: readonly number[], angle: number, load: number): Ways {
  let best: Had | null = null;
  const within = new Set<number>();
  const against: RodeAgainst[] = [];
  for (const rode of series.rodes) {
    let nearest: readonly Against[] | null = null;
    let gives = false;
    for (const depth of depths) {
      const one = canBeHad(series, rode, site, depth, angle, load);
      if (one.kind === "notHad") {
        if (nearest === null || one.against.length < nearest.length) nearest = one.against;
        continue;
      }
      gives = true;
      within.add(depth);
      if (best === null || (best.rode === one.rode && Math.abs(one.angleByDepth) < Math.abs(best.angleByDepth)))
        best = one;
    }
    if (!gives) against.push({ rode: rode.name, against: nearest ?? [] });
  }
  return { best, depths: depths.filter((depth) => within.has(depth)), against };
}

/** Depths of a range that are tried, both ends among them. */
const TRIED = 7;

export function triedBetween(least: number, most: number): number[] {
  if (!(most > least)) return [least];
  return Array.from({ length: TRIED }, (_, i) => least + ((most - least) * i) / (TRIED - 1));
}
