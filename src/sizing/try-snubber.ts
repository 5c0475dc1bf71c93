/** One snubber on one rode under one surge: what it comes to, exactly. The map (snubber-map.ts) is the fast form of the same. */

import { strainUnder } from "../gear/index.ts";
import { type NoEquilibrium, type Rig, settle, workingLoadUsed } from "../rode/index.ts";
import { facts } from "./facts.gen.ts";
import { factOf, type RopeHeat, ropeHeat } from "./heat.ts";
import { energyAt } from "./law.ts";
import { judge, type RopeEnds, type SnubberLimits, type SnubberLoads, strengthInUse, type Verdict } from "./limits.ts";
import { type NotTaken, type Snatch, type SteadyLoad, type Surge, snatch } from "./snatch.ts";
import { type Division, divide, type NotSnubbed, type Snubbed, type Snubber, withSnubber } from "./snubber.ts";

/** One snubber tried: its peak, shares of strength, and reasons against it. */
export interface Tried {
  readonly kind: "tried";
  readonly snubbed: Snubbed;
  readonly snatch: Snatch;
  /** Rope and loop at the steady load and at the peak. */
  readonly atMean: Division;
  readonly atPeak: Division;
  readonly loads: SnubberLoads;
  readonly verdict: Verdict;
  /** Of the rope; of a bridle, of the leg that is worked hardest. */
  readonly heat: RopeHeat;
  /** Length of new rope to cut, m, that works in to the length asked for (each leg of a bridle the first's). */
  readonly cutNew: { readonly value: number; readonly u: number };
}

/**
 * What a snubber does to the peak of a surge, with the reason each limit passes or holds. The horizontal steady load is
 * that of the
 * rig as it is, and stays: wind and current do not mind the snubber.
 * @param load N with its standard uncertainty
 * @param surge m/s and kg of the boat, or how she came by them
 * @param ends how the rope is ended, which takes strength away
 * @param period of the surge, s, by which the rope warms; without it one cycle alone
 * @returns loads in N, movements in m; or why there is no answer
 */
export function trySnubber(
  rig: Rig,
  load: SteadyLoad,
  surge: Surge,
  snubber: Snubber,
  limits: SnubberLimits,
  ends: RopeEnds = "spliced",
  period?: number,
): Tried | NotTaken | NotSnubbed | NoEquilibrium {
  const bare = settle(rig, load);
  if (bare.kind === "noEquilibrium") return bare;
  const snubbed = withSnubber(rig, snubber);
  if ("kind" in snubbed) return snubbed;
  const found = snatch(snubbed.rig, { at: "horizontal", newtons: bare.horizontal }, surge);
  if (found.kind !== "snatch") return found;
  const { rope, line } = snubbed;
  const atMean = divide(snubbed, found.mean.bow.tension);
  const atPeak = divide(snubbed, found.loads[line]!);
  const leg = Math.max(...atPeak.legs);
  const gear = snubbed.rig.rode.map((part, i) => (i === line ? { ...part, workingLoad: undefined } : part));
  const loads: SnubberLoads = {
    peak: found.peak.bow.tension,
    ropeShare: leg / strengthInUse(rope, ends),
    workingLoadShare: workingLoadUsed({ ...snubbed.rig, rode: gear as Rig["rode"] }, found.loads) ?? 0,
    hook: atPeak.legs.length === 1 ? atPeak.legs[0]! : found.loads[line]! - atPeak.loop,
    cleat: leg,
    anchorAngle: found.peak.anchor.angleToBottom,
    loopShare: atPeak.loop / found.loads[line]!,
  };
  // Each leg of a bridle is warmed by its own work: the one told of is the one that runs hottest.
  const lengths = snubbed.bridle?.legs ?? [snubbed.reach];
  const worked = lengths.map((length, i) => ({
    length,
    stored: length * (stretched(rope, atPeak.legs[i]!) - stretched(rope, atMean.legs[i]!)),
  }));
  const hottest = worked.reduce((most, one) => (one.stored / one.length > most.stored / most.length ? one : most));
  const workedIn = factOf(facts.rope.workedIn, rope.fibre);
  return {
    kind: "tried",
    snubbed,
    snatch: found,
    atMean,
    atPeak,
    loads,
    verdict: judge(loads, limits),
    heat: ropeHeat(rope, hottest.length, hottest.stored, period),
    cutNew: {
      value: snubber.length / (1 + workedIn.value),
      u: (snubber.length * workedIn.u) / (1 + workedIn.value) ** 2,
    },
  };
}

/** Energy per length of a rope under a load, J/m. */
function stretched(rope: Snubbed["rope"], load: number): number {
  return energyAt(rope.stretch, strainUnder(rope.stretch, load));
}
