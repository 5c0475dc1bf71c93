/**
 * Anchors compared by what the pulls say themselves and by likelihood: counts, curves, the log-rank test, incidence by
 * ending, fits. What can be concluded beyond is `conclude`'s.
 */
import type { Rng } from "../statistics/index.ts";
import { type AftFit, fitAft } from "./aft.ts";
import { designOf, groupingOf } from "./design.ts";
import { exactShare, type Share } from "./exact-share.ts";
import { geometricMean } from "./holding-draws.ts";
import { type Incidence, incidence } from "./incidence.ts";
import { allExactOrHeldOn, kaplanMeier } from "./kaplan-meier.ts";
import type { Law } from "./law.ts";
import { type LogRank, logRank } from "./log-rank.ts";
import { observations } from "./observations.ts";
import { anglesFollowLoads, boundsOf, type Pull, type Tally, tally } from "./pull.ts";
import type { Step } from "./survival-curve.ts";
import { chooseTerms, namesOf, type RandomTerm, type Term, type TermDropped } from "./terms.ts";
import { turnbull } from "./turnbull.ts";

/** What is asked of a comparison: terms, laws, groups. */
export interface Asked {
  readonly terms?: readonly Term[];
  /** Random intercepts; none when empty. Left out: site where two or more are named, else day. */
  readonly random?: readonly RandomTerm[];
  readonly laws: readonly Law[];
  /** Log-rank within sites. */
  readonly bySite?: boolean;
  readonly permutations: number;
}

/** The pulls of one anchor, counted by how they ended, with their curve. */
export interface AnchorPulls extends Tally {
  readonly anchor: string;
  readonly by: "kaplanMeier" | "turnbull";
  readonly curve: readonly Step[];
  /** Geometric mean of the masses stated, kg. */
  readonly mass?: number;
  readonly flukeArea?: number;
  /** Highest load held or given way at, N. */
  readonly highest: number;
  readonly incidence: readonly Incidence[];
  /** Of all its pulls, how many ended in each way, with exact limits. */
  readonly endings: readonly (Share & { readonly ending: string })[];
}

/** A fit with what it is of. */
export interface Fitted {
  readonly law: Law;
  readonly random?: RandomTerm;
  readonly fit: AftFit;
}

/** Something about the pulls that every reading of the answer needs. */
export type Finding =
  | { readonly kind: "neverGaveWay"; readonly anchor: string; readonly pulls: number; readonly highest: number }
  | { readonly kind: "neverHeld"; readonly anchor: string; readonly pulls: number; readonly lowest: number }
  | { readonly kind: "onePull"; readonly anchor: string }
  | { readonly kind: "nothingGaveWay" }
  | { readonly kind: "allTheSame"; readonly load: number }
  /** Each of its pulls was at a site where no other anchor was pulled: anchor and site cannot be told apart. */
  | { readonly kind: "ownSite"; readonly anchors: readonly string[] }
  /**
   * The angles are those the rode took under the very load the pull is known by, as a book's are: what holds more is pulled
   * at steeper angles. A regression would take that for the angle's effect, and uses it only when asked for (`used`); the
   * model behind conclusions does not.
   */
  | { readonly kind: "angleFollowsLoad"; readonly used: boolean }
  | { readonly kind: "termDropped"; readonly dropped: TermDropped }
  /** So many pulls lack what the terms asked for, and take no part in fits. */
  | { readonly kind: "notInFits"; readonly pulls: number; readonly terms: readonly Term[] };

/** Anchors compared by what their pulls say by themselves and by likelihood. */
export interface Compared {
  readonly pulls: readonly Pull[];
  readonly anchors: readonly AnchorPulls[];
  readonly logRank?: LogRank;
  /** Of the fits. */
  readonly terms: readonly Term[];
  /** Of the model conclusions come from, which knows of an angle that follows from the load. */
  readonly modelTerms: readonly Term[];
  readonly random: readonly RandomTerm[];
  readonly fits: readonly Fitted[];
  readonly findings: readonly Finding[];
}

/** Compares anchors by their pulls: curves, tests, fits. */
export function compare(pulls: readonly Pull[], asked: Asked, rng: Rng): Compared {
  const anchors = namesOf(pulls.map(({ anchor }) => anchor));
  const place = new Map(anchors.map((anchor, k) => [anchor, k]));
  const about = anchors.map((anchor) =>
    aboutAnchor(
      anchor,
      pulls.filter((pull) => pull.anchor === anchor),
    ),
  );
  const ofModel = chooseTerms(pulls, asked.terms);
  const follows = anglesFollowLoads(pulls) && ofModel.terms.includes("angle");
  const chosen =
    follows && asked.terms === undefined
      ? { ...ofModel, terms: ofModel.terms.filter((term) => term !== "angle") }
      : ofModel;
  const random = asked.random ?? usualRandom(pulls);
  const test = logRank(
    {
      holds: pulls.map(({ hold }) => hold),
      group: pulls.map(({ anchor }) => place.get(anchor)!),
      ...(asked.bySite === true ? { stratum: [...groupingOf(pulls, "site").of] } : {}),
    },
    asked.permutations,
    rng,
  );
  const { fits, dropped } = likelihoodFits(pulls, about, chosen.terms, chosen.takesPart, random, asked.laws);
  const without = chosen.takesPart.filter((part) => !part).length;
  return {
    pulls,
    anchors: about,
    ...(test === undefined ? {} : { logRank: test }),
    terms: chosen.terms,
    modelTerms: ofModel.terms,
    random,
    fits,
    findings: [
      ...findings(pulls, about),
      ...(follows ? [{ kind: "angleFollowsLoad" as const, used: chosen.terms.includes("angle") }] : []),
      ...[...chosen.dropped, ...dropped].map((drop) => ({ kind: "termDropped" as const, dropped: drop })),
      ...(without === 0 ? [] : [{ kind: "notInFits" as const, pulls: without, terms: chosen.terms }]),
    ],
  };
}

/**
 * Sites, days and testers that every pull names, where they group pulls; days and testers not where they are the sites over
 * again: what is of the one and what of the other cannot be told.
 */
function usualRandom(pulls: readonly Pull[]): RandomTerm[] {
  const grouping = (random: RandomTerm): boolean => {
    const names = pulls.map((pull) => pull[random]);
    const different = new Set(names).size;
    return names.every((name) => name !== undefined) && different > 1 && different < pulls.length;
  };
  const kinds = (["site", "day", "tester"] as const).filter(grouping);
  const count = (key: (pull: Pull) => string): number => new Set(pulls.map(key)).size;
  const areSites = (kind: "day" | "tester"): boolean =>
    kinds.includes("site") &&
    count((pull) => JSON.stringify([pull.site, pull[kind]])) === count((pull) => pull.site!) &&
    count((pull) => pull.site!) === count((pull) => pull[kind]!);
  return kinds.filter((kind) => kind === "site" || !areSites(kind));
}

function aboutAnchor(anchor: string, pulls: readonly Pull[]): AnchorPulls {
  const holds = pulls.map(({ hold }) => hold);
  const exact = allExactOrHeldOn(holds);
  const mass = geometricMean(pulls.map((pull) => pull.mass));
  const flukeArea = geometricMean(pulls.map((pull) => pull.flukeArea));
  const ended = pulls.map(({ ending }) => ending);
  const ways = namesOf(pulls.map(({ ending, hold }) => (hold.kind === "heldTo" ? undefined : ending)));
  return {
    anchor,
    ...tally(holds),
    by: exact ? "kaplanMeier" : "turnbull",
    curve: exact ? kaplanMeier(holds) : turnbull(holds).steps,
    ...(mass === undefined ? {} : { mass }),
    ...(flukeArea === undefined ? {} : { flukeArea }),
    highest: holds.reduce((most, hold) => Math.max(most, hold.kind === "between" ? hold.gaveWayBy : hold.newtons), 0),
    incidence: ways.length === 0 ? [] : incidence(holds, ended),
    endings: ways.map((ending) => ({
      ending,
      ...exactShare(pulls.filter((pull) => pull.ending === ending && pull.hold.kind !== "heldTo").length, pulls.length),
    })),
  };
}

/**
 * Fits of each law, without random intercept and with each asked for. An anchor or seabed of which no pull gave way (or
 * none held) has no best value: its pulls stay out, and the findings name it.
 */
function likelihoodFits(
  pulls: readonly Pull[],
  about: readonly AnchorPulls[],
  terms: readonly Term[],
  takesPart: readonly boolean[],
  random: readonly RandomTerm[],
  laws: readonly Law[],
): { fits: Fitted[]; dropped: readonly TermDropped[] } {
  const bounded = new Set(
    about
      .filter(
        (anchor) => !terms.includes("anchor") || (anchor.heldOn < anchor.pulls && anchor.neverHeld < anchor.pulls),
      )
      .map(({ anchor }) => anchor),
  );
  const part = pulls.filter((pull, i) => takesPart[i] && bounded.has(pull.anchor));
  if (part.length < 2) return { fits: [], dropped: [] };
  const still = chooseTerms(part, terms).terms;
  const design = designOf(part, still);
  const seen = observations(part.map(({ hold }) => hold));
  const fits: Fitted[] = [];
  for (const law of laws) {
    const problem = { law, observations: seen, terms: design.terms };
    if (part.length <= design.terms.names.length) {
      fits.push({ law, fit: { kind: "noMaximum", law, why: { kind: "endless" } } });
      continue;
    }
    const group = random.find((name) => groupingOf(part, name).groups > 1);
    if (group === undefined) fits.push({ law, fit: fitAft(problem) });
    else fits.push({ law, random: group, fit: fitAft({ ...problem, random: groupingOf(part, group) }) });
  }
  return { fits, dropped: design.dropped };
}

function findings(pulls: readonly Pull[], about: readonly AnchorPulls[]): Finding[] {
  const found: Finding[] = [];
  if (pulls.every(({ hold }) => hold.kind === "heldTo")) found.push({ kind: "nothingGaveWay" });
  const [first] = pulls;
  if (
    pulls.length > 1 &&
    pulls.every(({ hold }) => hold.kind === "gaveWay" && hold.newtons === boundsOf(first!.hold).low)
  ) {
    found.push({ kind: "allTheSame", load: boundsOf(first!.hold).low });
  }
  for (const { anchor, pulls: n, heldOn, neverHeld, highest } of about) {
    if (heldOn === n) found.push({ kind: "neverGaveWay", anchor, pulls: n, highest });
    if (neverHeld === n) {
      const loads = pulls.filter((pull) => pull.anchor === anchor).map(({ hold }) => boundsOf(hold).high);
      found.push({ kind: "neverHeld", anchor, pulls: n, lowest: loads.reduce((least, load) => Math.min(least, load)) });
    }
    if (n === 1) found.push({ kind: "onePull", anchor });
  }
  const alone = about.filter(({ anchor }) => {
    const sites = new Set(pulls.filter((pull) => pull.anchor === anchor).map(({ site }) => site));
    return (
      !sites.has(undefined) && !pulls.some((pull) => pull.anchor !== anchor && (sites.has(pull.site) || !pull.site))
    );
  });
  if (about.length > 1 && alone.length > 0) found.push({ kind: "ownSite", anchors: alone.map(({ anchor }) => anchor) });
  return found;
}
