/** A tester's choice as what a page holds: nothing of their pulls but what draws foretell, no site, day or person. */
import { anglesPulledAt, type Inquired, type Pull, predictiveDraws, tally } from "../../holding/index.ts";
import type { UnitSystem } from "../../quantity/index.ts";
import type { Boat } from "../../sea/index.ts";
import { PAGE_FORMAT, type PageContent, type PageHolding, type Setup } from "./content.ts";
import { drawsToText } from "./draws-text.ts";
import { chainsOffered, ropesOffered } from "./lines-offered.ts";

/** What a tester chose to put into a page. */
export interface PageChoice {
  readonly title: string;
  readonly by: string;
  readonly note: string;
  readonly units: UnitSystem;
  readonly setups: readonly Setup[];
  readonly boats: readonly Boat[];
  readonly holding: PageHolding | null;
  readonly program: string;
  readonly invented?: boolean;
}

/** As many draws as the chance over winds is worked out from. */
const DRAWS = 1000;

/** The content of a page. */
export function pageContent(choice: PageChoice): PageContent {
  return { format: PAGE_FORMAT, ...choice, chains: chainsOffered(), ropes: ropesOffered() };
}

/**
 * What a page says of holding, from a sound conclusion.
 * @param seed of the inquiry: the winds of the page are then drawn as `compare` draws its own
 */
export function pageHolding(inquired: Extract<Inquired, { kind: "concluded" }>, seed: number): PageHolding {
  const { posterior, conclusion, pulls } = inquired;
  const { model } = posterior;
  const angles = anglesPulledAt(pulls);
  const of = (name: string): readonly Pull[] => pulls.filter(({ anchor }) => anchor === name);
  const seabed = conclusion.holds[0]?.seabed;
  return {
    draws: drawsToText(predictiveDraws(posterior, DRAWS)),
    pulls: pulls.length,
    anchors: conclusion.holds.map(({ anchor, mass }) => {
      const counted = tally(of(anchor).map(({ hold }) => hold));
      return { anchor, ...(mass === undefined ? {} : { mass }), pulls: counted.pulls, heldOn: counted.heldOn };
    }),
    ...(seabed === undefined ? {} : { seabed }),
    ...(angles === undefined ? {} : { angles }),
    hasAngle: model.angleAt >= 0,
    hasMass: model.massAt >= 0,
    seed,
  };
}
