/** What is to be said first, as causes; the words are others' work. In the order in which they are to be read. */
import type { Compared, Finding } from "./compare.ts";
import type { Influence, Pair, Testers } from "./conclude.ts";
import { cannotTell, type Inquired } from "./inquire.ts";
import type { Law } from "./law.ts";
import type { MorePulls } from "./more-pulls.ts";

/** A verdict on pulls as a cause with its numbers; its sentence is made elsewhere. */
export type HoldingVerdict =
  | { readonly kind: "cannotTell"; readonly pair: Pair; readonly more?: MorePulls }
  /** The first of the pair is ahead. */
  | { readonly kind: "toldApart"; readonly pair: Pair }
  | { readonly kind: "unsound"; readonly rHat: number; readonly effective: number; readonly divergent: number }
  | { readonly kind: "notSampled"; readonly why: "stopped" | "noPulls" | "notAsked" }
  | { readonly kind: "hangsOnPull"; readonly influence: Influence }
  /** So many pulls the model foretells so badly that leaving them out is a guess. */
  | { readonly kind: "surprisingPulls"; readonly pulls: number; readonly of: number }
  | { readonly kind: "priorsMatter"; readonly times: number; readonly pair: Pair; readonly then: number }
  /** The other law foretells as well, within twice the error of the difference. */
  | { readonly kind: "lawsAlike"; readonly law: Law; readonly other: Law }
  /** How far the testers are apart. */
  | { readonly kind: "testers"; readonly testers: Testers }
  | { readonly kind: "finding"; readonly finding: Finding };

/** A chance that moves by more than this with the priors' width is said to hang on them. */
const PRIORS_MOVE = 0.1;

/** What is to be said of a comparison, most important first. */
export function holdingVerdicts(compared: Compared, inquired?: Inquired): HoldingVerdict[] {
  const verdicts: HoldingVerdict[] = [];
  const findings = compared.findings.map((finding): HoldingVerdict => ({ kind: "finding", finding }));
  if (inquired?.kind === "concluded") {
    const { conclusion, more, sensitivity, ahead, law } = inquired;
    for (const pair of conclusion.pairs.filter(cannotTell)) {
      const answer = more.find(({ first, second }) => first === pair.first && second === pair.second)?.answer;
      verdicts.push({
        kind: "cannotTell",
        pair: leadingFirst(pair),
        ...(answer === undefined ? {} : { more: answer }),
      });
    }
    for (const pair of conclusion.pairs) {
      if (!cannotTell(pair)) verdicts.push({ kind: "toldApart", pair: leadingFirst(pair) });
    }
    verdicts.push(...findings);
    if (conclusion.testers !== undefined) verdicts.push({ kind: "testers", testers: conclusion.testers });
    for (const influence of conclusion.influential) verdicts.push({ kind: "hangsOnPull", influence });
    for (const { times, pairs } of sensitivity) {
      for (const [k, pair] of conclusion.pairs.entries()) {
        const then = pairs[k]!.moreInTheMean;
        if (Math.abs(then - pair.moreInTheMean) > PRIORS_MOVE)
          verdicts.push({ kind: "priorsMatter", times, pair, then });
      }
    }
    if (conclusion.elpd.badK > 0) {
      verdicts.push({ kind: "surprisingPulls", pulls: conclusion.elpd.badK, of: inquired.pulls.length });
    }
    if (ahead !== undefined && ahead.difference < 2 * ahead.se) {
      verdicts.push({ kind: "lawsAlike", law, other: ahead.of });
    }
    return verdicts;
  }
  if (inquired?.kind === "unsound") {
    const { rHatWorst, effectiveLeast, divergent } = inquired.posterior;
    verdicts.push({ kind: "unsound", rHat: rHatWorst, effective: effectiveLeast, divergent });
  } else verdicts.push({ kind: "notSampled", why: inquired?.kind ?? "notAsked" });
  return [...verdicts, ...findings];
}

function leadingFirst(pair: Pair): Pair {
  if (pair.moreInTheMean >= 0.5) return pair;
  const { middle, low, high } = pair.ratio;
  return {
    first: pair.second,
    second: pair.first,
    moreInTheMean: 1 - pair.moreInTheMean,
    moreInOnePull: 1 - pair.moreInOnePull,
    ratio: { middle: 1 / middle, low: 1 / high, high: 1 / low },
  };
}
