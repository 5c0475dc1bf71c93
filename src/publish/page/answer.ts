/**
 * What a tester's pull stands for in a viewer's water: the doors of rode, sea, sizing and holding asked in turn. No law of
 * its own, so that a page says what the bench says.
 */
import { drawsInWind, type PeakLoad, type PredictiveDraws, peakLoad, type WindPoint } from "../../holding/index.ts";
import { brent } from "../../numeric/index.ts";
import {
  type Certainty,
  certaintyOf,
  find,
  foundUncertainty,
  type Matched,
  match,
  matchedUncertainty,
  type NoEquilibrium,
  type Rig,
  type Settled,
  type SettledTrace,
  settle,
  settleTraced,
} from "../../rode/index.ts";
import type { Boat } from "../../sea/index.ts";
import { type CatenaryEnd, catenaryEnd, catenaryEndCertainty, readAt } from "../../sizing/index.ts";
import { rng } from "../../statistics/index.ts";
import type { PageContent, Setup } from "./content.ts";

/** A load with the mean wind it is worth on the boat, m/s; null where no wind looked at brings it. */
export interface LoadInWind {
  readonly kind: "load";
  /** N at the bow, and its standard uncertainty; 0 where none is known. */
  readonly load: number;
  readonly u: number;
  readonly wind: { readonly value: number; readonly u: number } | null;
}

/** A tester's pull and what would be the same in the viewer's water. */
export interface StandsFor {
  readonly test: Settled | NoEquilibrium;
  /** The viewer's rode as it is under the tester's load at the bow. */
  readonly here: Settled | NoEquilibrium;
  readonly hereU: Certainty | null;
  readonly same: Matched | NoEquilibrium;
  /** Standard uncertainty of the length paid out, m; null where none is known. */
  readonly sameU: number | null;
}

/** A rode in a wind: the largest load and how the rode lies under it. */
export interface LiesInWind {
  readonly peak: PeakLoad | null;
  readonly traced: SettledTrace | NoEquilibrium | null;
  readonly certainty: Certainty | null;
}

/** Less give than this for another newton, m/N, and catenary is said to have ended: ten centimetres a kilonewton. */
export const GIVE_ASKED = 0.1 / 1000;
const [LEAST_WIND, MOST_WIND] = [0.5, 60];

/** The same angle at the anchor under the same load at the bow. */
export function standsFor(setup: Setup, rig: Rig): StandsFor {
  const test = settle(setup.rig, { at: setup.at, newtons: setup.load });
  if (test.kind === "noEquilibrium") return { test, here: test, hereU: null, same: test, sameU: null };
  const pull = { at: "bow", newtons: test.bow.tension } as const;
  const here = settle(rig, pull);
  // What is paid out is what lies next to the bow.
  const same = match(setup.rig, rig, pull, rig.rode.length);
  return {
    test,
    here,
    hereU: certaintyOf(rig, pull),
    same,
    sameU: same.kind === "matched" ? (matchedUncertainty(setup.rig, rig, pull, same, { draws: 0 })?.u ?? null) : null,
  };
}

/**
 * How the rode lies under the largest load of a wind, with its ±.
 * @param wind mean at 10 m, m/s
 */
export function liesInWind(boat: Boat, rig: Rig, wind: number): LiesInWind {
  const peak = peakLoad(boat, wind) ?? null;
  if (peak === null || !(peak.value > 0)) return { peak: null, traced: null, certainty: null };
  const pull = { at: peak.at, newtons: peak.value } as const;
  return { peak, traced: settleTraced(rig, pull), certainty: certaintyOf(rig, pull, peak.u) };
}

/** The load at the bow at which the anchor end begins to rise, and its wind. */
export function liftsAt(boat: Boat, rig: Rig): LoadInWind | NoEquilibrium {
  const question = { unknown: { what: "pull" }, goal: { goal: "liftoff" }, pull: { at: "bow", newtons: 1 } } as const;
  const found = find(rig, question);
  if (found.kind === "noEquilibrium") return found;
  const u = foundUncertainty(rig, question, found, { draws: 0 })?.u ?? 0;
  return { kind: "load", load: found.value, u, wind: windOf(boat, found.settled, u / found.value) };
}

/** Where the give of raised weight falls below `GIVE_ASKED`. */
export function catenaryEnds(boat: Boat, rig: Rig): LoadInWind | Exclude<CatenaryEnd, { kind: "fades" }> {
  const question = { ask: "perLoad", give: GIVE_ASKED, at: "bow" } as const;
  const end = catenaryEnd(rig, question);
  if (end.kind !== "fades") return end;
  const load = end.settled.bow.tension;
  const u = catenaryEndCertainty(rig, question, load)?.u ?? 0;
  return { kind: "load", load, u, wind: windOf(boat, end.settled, u / load) };
}

/** The chance of holding over winds, for an anchor of the viewer's mass. */
export function chancesInWinds(
  { holding }: PageContent,
  draws: PredictiveDraws,
  asked: { readonly boat: Boat; readonly rig: Rig; readonly winds: readonly number[] } & {
    readonly anchor: string;
    readonly mass: number;
    readonly seabed?: string;
  },
): WindPoint[] {
  if (holding === null) return [];
  const { mass, ...rest } = asked;
  return drawsInWind(
    draws,
    {
      ...rest,
      ...(holding.hasMass ? { mass } : {}),
      ...(holding.angles === undefined ? {} : { angles: holding.angles }),
    },
    // As `compare` draws for its own winds: the same seed, the same answer.
    rng(holding.seed + 2),
  );
}

/** The wind whose largest load is that of an equilibrium; `relative` is the load's own standard uncertainty. */
function windOf(boat: Boat, settled: Settled, relative: number): LoadInWind["wind"] {
  const over = (wind: number): number => {
    const peak = peakLoad(boat, wind);
    return peak === undefined || !(peak.value > 0) ? Number.NaN : Math.log(peak.value / readAt(settled, peak.at));
  };
  const [low, high] = [over(LEAST_WIND), over(MOST_WIND)];
  if (!(low < 0 && high > 0)) return null;
  const value = brent(over, LEAST_WIND, MOST_WIND, 1e-9, low, high);
  const peak = peakLoad(boat, value)!;
  const step = 1e-3;
  const slope = (over(value * (1 + step)) - over(value * (1 - step))) / (2 * step);
  return { value, u: (value * Math.hypot(relative, peak.u / peak.value)) / slope };
}
