/** Anchors compared as `compare` does where nothing is asked otherwise: what a page, a report and a package tell. */
import {
  type Compared,
  compare,
  comparedFields,
  type DrawChains,
  type HoldingVerdict,
  holdingVerdicts,
  type Inquired,
  inquire,
  LAWS,
  type Pull,
  type PullsTable,
  USUAL_PLAN,
  USUAL_PRIORS,
} from "../../holding/index.ts";
import { rng } from "../../statistics/index.ts";
import { sayHoldingVerdict } from "../../words/index.ts";

/** Permutations of the log-rank test, as `compare` takes them. */
const PERMUTATIONS = 9999;

/** Pulls compared and concluded from, with what is to be said of them. */
export interface UsualInquiry {
  readonly compared: Compared;
  readonly inquired: Inquired;
  readonly verdicts: readonly HoldingVerdict[];
}

/** @param drawChains by whom chains are drawn: threads, a worker, the caller itself */
export async function usualInquiry(
  pulls: readonly Pull[],
  seed: number,
  drawChains: DrawChains,
): Promise<UsualInquiry> {
  const compared = compare(pulls, { laws: [...LAWS], bySite: false, permutations: PERMUTATIONS }, rng(seed));
  const inquired = await inquire(
    {
      pulls,
      terms: compared.modelTerms,
      random: compared.random,
      laws: ["lognormal", "weibull"],
      priors: USUAL_PRIORS,
      wanted: { conditions: {}, chances: [0.9] },
      plan: { ...USUAL_PLAN, seed },
    },
    drawChains,
  );
  return { compared, inquired, verdicts: holdingVerdicts(compared, inquired) };
}

/** What an inquiry into a table answers, as `compare --json` prints it. */
export function answersOf(table: PullsTable, { compared, inquired, verdicts }: UsualInquiry): object {
  const part = inquired.kind === "concluded" ? inquired.pulls : compared.pulls;
  const places = new Map(compared.pulls.map((pull, i) => [pull, table.rows[i]]));
  const pullName = (pull: number): string => `row ${places.get(part[pull]!) ?? "?"}`;
  const sentences = verdicts.map((verdict) => sayHoldingVerdict(verdict, { units: "metric", pullName }));
  return comparedFields(table, compared, inquired, verdicts, sentences, []);
}
