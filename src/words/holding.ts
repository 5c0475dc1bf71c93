/** How anchors compared are said: sentences for the causes of `holding`, and for why a pull of a book takes no part. */
import type { Finding, HoldingVerdict, Law, MorePulls, Priors, TermDropped } from "../holding/index.ts";
import { formatQuantity, significant, type UnitSystem } from "../quantity/index.ts";
import type { NotComparable } from "../study/index.ts";
import { leftOutWords } from "./doubts.ts";

/** How loads and pulls are written in sentences. */
export interface Words {
  readonly units: UnitSystem;
  /** How a pull of the model is named: its row. */
  readonly pullName: (pull: number) => string;
}

/** A verdict on pulls as a sentence. */
export function sayHoldingVerdict(verdict: HoldingVerdict, words: Words): string {
  switch (verdict.kind) {
    case "cannotTell": {
      const { first, second, moreInTheMean } = verdict.pair;
      const more = verdict.more === undefined ? "" : `; ${sayMore(verdict.more)}`;
      return `${first} and ${second} cannot be told apart: ${first} holds more with a chance of ${sayChance(moreInTheMean)}${more}`;
    }
    case "toldApart": {
      const { first, second, moreInTheMean, moreInOnePull, ratio } = verdict.pair;
      return `${first} holds more than ${second} in the mean, with a chance of ${sayChance(moreInTheMean)}, ${times(ratio.low)} to ${times(ratio.high)} as much; in one pull of each it is ahead with ${sayChance(moreInOnePull)}`;
    }
    case "unsound":
      return `nothing is concluded: the chains do not agree (R-hat ${verdict.rHat.toFixed(3)}, ${Math.round(verdict.effective)} effective draws, ${verdict.divergent} ran away)`;
    case "notSampled":
      return {
        stopped: "stopped before the draws were made: nothing is concluded beyond the pulls themselves",
        noPulls: "no pull states what the terms need: nothing is concluded",
        notAsked: "not sampled: nothing is concluded beyond the pulls themselves",
      }[verdict.why];
    case "hangsOnPull": {
      const { pull, first, second, with: seen, without, k } = verdict.influence;
      const doubt = k > 0.7 ? " (a rough guess: the pull is far from the others)" : "";
      return `that ${first} holds more than ${second} hangs on ${words.pullName(pull)}: ${sayChance(seen)} with it, ${sayChance(without)} without${doubt}`;
    }
    case "surprisingPulls":
      return `${verdict.pulls} of ${verdict.of} pulls are far from what the others foretell`;
    case "priorsMatter": {
      const { pair, then, times: wide } = verdict;
      return `that ${pair.first} holds more than ${pair.second} rests on what was believed before: ${sayChance(pair.moreInTheMean)}, but ${sayChance(then)} with priors ${wide === 2 ? "twice" : "half"} as wide`;
    }
    case "lawsAlike":
      return `the ${sayLaw(verdict.law)} and the ${sayLaw(verdict.other)} law foretell the pulls about equally well; answers are by the ${sayLaw(verdict.law)}`;
    case "testers": {
      const { spread, each } = verdict.testers;
      const factors = each.map(({ tester, factor }) => `${tester} ${between(factor)}`);
      return `testers differ by a factor of ${between(spread)}; over what they find together, ${factors.join(", ")}: what is told of a new site and day is of a new tester too`;
    }
    case "finding":
      return sayFinding(verdict.finding, words);
  }
}

/** 1.1 (1.0 to 1.3) */
const between = ({
  middle,
  low,
  high,
}: {
  readonly middle: number;
  readonly low: number;
  readonly high: number;
}): string => `${significant(middle, 3)} (${significant(low, 3)} to ${significant(high, 3)})`;

function sayFinding(finding: Finding, { units }: Words): string {
  const load = (newtons: number): string => formatQuantity(newtons, "force", { system: units, digits: 3 });
  switch (finding.kind) {
    case "neverGaveWay":
      return `${finding.anchor} never gave way in ${pulls(finding.pulls)}: they say only that it holds more, to ${load(finding.highest)}; likelihood fits leave it out`;
    case "neverHeld":
      return `${finding.anchor} never held in ${pulls(finding.pulls)}: they say only that it holds less than ${load(finding.lowest)}; likelihood fits leave it out`;
    case "onePull":
      return `${finding.anchor} has one pull: how much it scatters is taken from the others`;
    case "nothingGaveWay":
      return "no anchor gave way: only lower limits can be told, and no difference between anchors";
    case "allTheSame":
      return `every pull gave way at ${load(finding.load)}: loads so alike come of steps or of a limit of the gear, not of anchors`;
    case "ownSite":
      return `${finding.anchors.join(", ")}: pulled only at sites where no other anchor was; what is told is anchor and site together`;
    case "angleFollowsLoad":
      return finding.used
        ? "the angle at the anchor is the one the rode took under that very load: in the fits its term takes what holds more, and is so pulled steeper, for an effect of the angle; what is concluded counts where the load met what the anchor holds at its angle"
        : "the angle at the anchor is the one the rode took under that very load: the fits leave it out; what is concluded counts where the load met what the anchor holds at its angle";
    case "termDropped":
      return sayDropped(finding.dropped);
    case "notInFits":
      return `${pulls(finding.pulls)} ${finding.pulls === 1 ? "lacks" : "lack"} what the terms (${finding.terms.join(", ")}) need, and ${finding.pulls === 1 ? "takes" : "take"} no part in fits`;
  }
}

function sayDropped(dropped: TermDropped): string {
  switch (dropped.kind) {
    case "notStated":
      return dropped.lacking === dropped.of
        ? `no pull states the ${dropped.term}: it is no term`
        : `${dropped.lacking} of ${dropped.of} pulls do not state the ${dropped.term}: it is no term unless asked for`;
    case "sameInAll":
      return `the ${dropped.term} is the same in every pull: its effect cannot be seen`;
    case "confounded":
      return `the effect of the ${confoundedWords(dropped)} cannot be told apart from the other effects (each anchor at one ${dropped.term}?): likelihood fits leave it out`;
  }
}

/** `mass`, `angle`, `seabed mud`: a level of a term is told by its own name. */
function confoundedWords({ term, name }: TermDropped & { readonly kind: "confounded" }): string {
  const level = name.startsWith(`${term}:`) ? name.slice(term.length + 1) : "";
  return level === "" ? term : `${term} ${level}`;
}

/**
 * What is believed before any pull, for a reader who knows no statistics: deviations of logarithms as factors.
 * @param several testers are told of where several tested
 */
export function sayPriors(
  { timesWeight, m, anchors, angle, mass, seabed, sites, days, testers, scatter }: Priors,
  several: { readonly testers: boolean } = { testers: false },
): string {
  const factor = (deviation: number): string => significant(Math.exp(deviation), 2);
  const percent = (share: number): string => significant(100 * share, 2);
  return [
    `an anchor holds some ${significant(timesWeight, 2)} times its weight, within a factor of ${factor(m)}`,
    `anchors are a factor of ${factor(anchors)} apart, seabeds ${factor(seabed)}, sites ${factor(sites)}, days ${factor(days)}${several.testers ? `, testers ${factor(testers)}` : ""}`,
    `pulls of one anchor scatter by a factor of ${factor(scatter)}`,
    `a degree at the anchor changes holding by ${percent(angle.mean)} ± ${percent(angle.sd)} %`,
    `holding grows as mass to the power ${significant(mass.mean, 2)} ± ${significant(mass.sd, 2)}`,
  ].join("; ");
}

/** Which doubts make the band of a chance wide, the widest first; parts below half a percent are not told. */
export function sayShares(shares: {
  readonly windLoad: number;
  readonly angle: number;
  readonly holding: number;
}): string {
  return Object.entries({ "wind load": shares.windLoad, angle: shares.angle, holding: shares.holding })
    .sort((a, b) => b[1] - a[1])
    .filter(([, share]) => share >= 0.005)
    .map(([name, share]) => `${name} ${Math.round(100 * share)} %`)
    .join(", ");
}

/** How many more pulls would tell, as a sentence. */
export function sayMore(more: MorePulls): string {
  return more.kind === "enough"
    ? `about ${more.each} more pulls of each would tell, in ${tenths(more.share)} of 10 such series`
    : `even ${more.each} more pulls of each would tell in only ${tenths(more.share)} of 10 such series`;
}

const tenths = (share: number): string => String(Math.floor(10 * share));
const pulls = (count: number): string => `${count} ${count === 1 ? "pull" : "pulls"}`;
const times = (ratio: number): string => `${significant(ratio, 2)}×`;

/** A chance never said as sure: draws do not know 0 or 1. */
export function sayChance(chance: number): string {
  if (chance > 0.995) return "more than 99 %";
  if (chance < 0.005) return "less than 1 %";
  return `${Math.round(100 * chance)} %`;
}

/** The name of a law of scatter. */
export function sayLaw(law: Law): string {
  return { lognormal: "lognormal", weibull: "Weibull", loglogistic: "log-logistic" }[law];
}

/** Why pulls may not be compared, as a sentence. */
export function sayNotComparable(cause: NotComparable): string {
  return cause === "noneReached"
    ? "at that load the resting rode carries all of it: none reaches the anchor"
    : leftOutWords(cause);
}
