/**
 * What may be concluded from draws of the model: what each anchor holds at a chance, pairs, ranks, the angle, size. Every
 * answer is a spread over the draws; none is given where the draws are unsound.
 */

import {
  anchorCentres,
  type Between,
  betweenOf,
  type Conditions,
  column,
  draw,
  geometricMean,
  quantiles,
} from "./holding-draws.ts";
import { type Posterior, pullsLeftOut, type Spread, sortedQuantile, spreadOf } from "./posterior.ts";
import { chanceAhead } from "./predict.ts";
import type { Pull } from "./pull.ts";

/** What one anchor holds at given conditions, N. */
export interface Holds {
  readonly anchor: string;
  readonly anchorAngle?: number;
  readonly mass?: number;
  readonly seabed?: string;
  /** Load half its pulls hold at a site and day not pulled at yet, N. */
  readonly median: Between;
  /** Load held with each chance asked for, N. */
  readonly chances: readonly ({ readonly chance: number } & Between)[];
  /** N/kg, of the median. */
  readonly perKilogram?: Between;
  /** N/m², of the median. */
  readonly perFlukeArea?: Between;
  /** kg of the same shape that hold the load asked about with the first chance. */
  readonly sizeFor?: Between;
  /** Chance of being best, second … in the mean. */
  readonly ranks: readonly number[];
}

/** How likely one anchor holds more than another. */
export interface Pair {
  readonly first: string;
  readonly second: string;
  readonly moreInTheMean: number;
  readonly moreInOnePull: number;
  /** Ratio of the first's holding to the second's. */
  readonly ratio: Between;
}

/** A pull without which an answer would be another. */
export interface Influence {
  /** Place among the pulls of the model. */
  readonly pull: number;
  /** Shape of its weights' tail: above 0.7 what would be without it is a guess. */
  readonly k: number;
  readonly first: string;
  readonly second: string;
  readonly with: number;
  readonly without: number;
}

/** One tester among several. */
export interface OfTester {
  readonly tester: string;
  readonly pulls: number;
  /** What this tester finds over what the testers together do. */
  readonly factor: Between;
}

/** How testers differ. */
export interface Testers {
  /** The factor by which one tester's loads differ from another's, one standard deviation. */
  readonly spread: Between;
  readonly each: readonly OfTester[];
}

/** What the model concludes, with its limits and what it hangs on. */
export interface Conclusion {
  readonly conditions: Conditions;
  readonly holds: readonly Holds[];
  readonly pairs: readonly Pair[];
  /** Change of ln H a degree, where angles were stated. */
  readonly angle?: Spread;
  readonly massExponent?: Spread;
  /** Where several tested. */
  readonly testers?: Testers;
  readonly influential: readonly Influence[];
  readonly elpd: { readonly value: number; readonly se: number; readonly parts: Float64Array; readonly badK: number };
}

/** Conditions and chances a conclusion is asked for. */
export interface Wanted {
  readonly conditions: Conditions;
  readonly chances: readonly number[];
  /** N: what size of each shape would hold it. */
  readonly load?: number;
}

/** @param pulls those the model was made of */
export function conclude(posterior: Posterior, pulls: readonly Pull[], wanted: Wanted): Conclusion {
  const { model } = posterior;
  const conditions = { ...usualConditions(posterior, pulls), ...wanted.conditions };
  const mine = model.anchorNames.map((anchor) => pulls.filter((pull) => pull.anchor === anchor));
  const masses = mine.map((own) => conditions.mass ?? geometricMean(own.map(({ mass }) => mass)));
  const areas = mine.map((own) => geometricMean(own.map(({ flukeArea }) => flukeArea)));
  const centres = masses.map((mass, a) => anchorCentres(posterior, a, conditions, mass));
  const shifts = wanted.chances.map((chance) => quantiles(posterior, 1 - chance));
  const middle = quantiles(posterior, 0.5);
  const ranks = rankChances(centres);
  const holds = model.anchorNames.map((anchor, a): Holds => {
    const centre = centres[a]!;
    const mass = masses[a];
    const area = areas[a];
    const median = betweenOf(centre.map((eta, s) => Math.exp(eta + middle[s]!)));
    const ownMass = geometricMean(mine[a]!.map((pull) => pull.mass));
    return {
      anchor,
      ...(model.angleAt < 0 || conditions.anchorAngle === undefined ? {} : { anchorAngle: conditions.anchorAngle }),
      ...(mass === undefined ? {} : { mass }),
      ...(conditions.seabed === undefined ? {} : { seabed: conditions.seabed }),
      median,
      chances: wanted.chances.map((chance, c) => ({
        chance,
        ...betweenOf(centre.map((eta, s) => Math.exp(eta + shifts[c]![s]!))),
      })),
      ...(mass === undefined ? {} : { perKilogram: scaled(median, 1 / mass) }),
      ...(area === undefined ? {} : { perFlukeArea: scaled(median, 1 / area) }),
      ...(wanted.load === undefined || mass === undefined || model.massAt < 0
        ? {}
        : { sizeFor: sizeFor(posterior, centre, shifts[0] ?? middle, mass ?? ownMass, wanted.load) }),
      ranks: ranks[a]!,
    };
  });
  const pairs: Pair[] = [];
  for (let a = 0; a < centres.length; a++) {
    for (let b = a + 1; b < centres.length; b++) pairs.push(pairOf(posterior, a, b, centres[a]!, centres[b]!));
  }
  const { influential, elpd } = leavingOut(posterior, centres, pairs);
  return {
    conditions,
    holds,
    pairs,
    ...(model.angleAt < 0 ? {} : { angle: spreadOf(column(posterior, model.angleAt)) }),
    ...(model.massAt < 0 ? {} : { massExponent: spreadOf(column(posterior, model.massAt)) }),
    ...(model.testers === undefined ? {} : { testers: testersOf(posterior) }),
    influential,
    elpd,
  };
}

function testersOf(posterior: Posterior): Testers {
  const { model, length } = posterior;
  const testers = model.testers!;
  const over = (value: (at: Float64Array) => number): Between =>
    betweenOf(Float64Array.from({ length }, (_, s) => Math.exp(value(draw(posterior, s)))));
  return {
    spread: over((at) => model.spread(at, testers)),
    each: testers.names.map((tester, k) => ({
      tester,
      pulls: testers.of.reduce((sum, level) => sum + (level === k ? 1 : 0), 0),
      factor: over((at) => model.effect(at, testers, k)),
    })),
  };
}

/** The middle angle of the pulls and the seabed most were on. */
function usualConditions({ model }: Posterior, pulls: readonly Pull[]): Conditions {
  const angles = pulls.flatMap(({ anchorAngle }) => (anchorAngle === undefined ? [] : [anchorAngle]));
  const counts = new Map<string, number>();
  for (const { seabed } of pulls) if (seabed !== undefined) counts.set(seabed, (counts.get(seabed) ?? 0) + 1);
  const most = [...counts].sort((x, y) => y[1] - x[1] || (x[0] < y[0] ? -1 : 1))[0];
  return {
    ...(model.angleAt < 0 ? {} : { anchorAngle: sortedQuantile(Float64Array.from(angles).sort(), 0.5) }),
    ...(model.seabeds === undefined || most === undefined ? {} : { seabed: most[0] }),
  };
}

function scaled({ middle, low, high }: Between, by: number): Between {
  return { middle: middle * by, low: low * by, high: high * by };
}

/** H grows as M^β: the mass at which the load asked about is held. */
function sizeFor(posterior: Posterior, centre: Float64Array, shift: Float64Array, mass: number, load: number): Between {
  const exponent = column(posterior, posterior.model.massAt);
  return betweenOf(
    centre.map((eta, s) => {
      // An exponent near zero would ask for any mass at all; the draws' middle is not moved by these.
      const beta = Math.max(0.05, exponent[s]!);
      return mass * Math.exp((Math.log(load) - eta - shift[s]!) / beta);
    }),
  );
}

function pairOf(posterior: Posterior, a: number, b: number, first: Float64Array, second: Float64Array): Pair {
  const { model, length } = posterior;
  let mean = 0;
  let one = 0;
  for (let s = 0; s < length; s++) {
    const ahead = first[s]! - second[s]!;
    if (ahead > 0) mean++;
    one += chanceAhead(model.law, ahead, model.scatter(draw(posterior, s)));
  }
  return {
    first: model.anchorNames[a]!,
    second: model.anchorNames[b]!,
    moreInTheMean: mean / length,
    moreInOnePull: one / length,
    ratio: betweenOf(first.map((eta, s) => Math.exp(eta - second[s]!))),
  };
}

function rankChances(centres: readonly Float64Array[]): number[][] {
  const n = centres.length;
  const length = centres[0]?.length ?? 0;
  const counts = centres.map(() => new Array<number>(n).fill(0));
  for (let s = 0; s < length; s++) {
    for (let a = 0; a < n; a++) {
      let ahead = 0;
      for (let b = 0; b < n; b++) if (centres[b]![s]! > centres[a]![s]!) ahead++;
      counts[a]![ahead] = counts[a]![ahead]! + 1;
    }
  }
  return counts.map((row) => row.map((count) => count / length));
}

/** A chance that leaving one pull out moves by more than this is said to hang on that pull. */
const MOVES = 0.1;

function leavingOut(posterior: Posterior, centres: readonly Float64Array[], pairs: readonly Pair[]) {
  const influential: Influence[] = [];
  const names = posterior.model.anchorNames;
  const places = pairs.map(({ first, second }) => [names.indexOf(first), names.indexOf(second)] as const);
  // Beyond so much work no single pull of so many drives anything.
  const few = posterior.model.length * pairs.length <= 20_000;
  const loo = pullsLeftOut(posterior, (pull, weights, thin) => {
    if (!few) return;
    for (const [p, [a, b]] of places.entries()) {
      let without = 0;
      for (let s = 0; s < weights.length; s++) {
        if (centres[a]![s * thin]! > centres[b]![s * thin]!) without += weights[s]!;
      }
      const { first, second, moreInTheMean } = pairs[p]!;
      if (Math.abs(without - moreInTheMean) > MOVES) {
        influential.push({ pull, k: 0, first, second, with: moreInTheMean, without });
      }
    }
  });
  let badK = 0;
  for (const k of loo.k) if (k > 0.7) badK++;
  return {
    influential: influential.map((found) => ({ ...found, k: loo.k[found.pull]! })),
    elpd: { value: loo.elpd, se: loo.se, parts: loo.parts, badK },
  };
}
