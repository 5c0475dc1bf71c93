/** One snubber on one rode under one surge: what it comes to, exactly. The map (snubber-map.ts) is the fast form of the same. */

import { strainUnder } from "../gear/index.ts";
import { type NoEquilibrium, type Rig, settle, workingLoadUsed } from "../rode/index.ts";
import { facts } from "./facts.gen.ts";
import { factOf, type RopeHeat, ropeHeat } from "./heat.ts";
import { energyAt } from "./law.ts";
import { judge, type RopeEnds, type SnubberLimits, type SnubberLoads, strengthInUse, type Verdict } from "./limits.ts";
import { type NotTaken, type Snatch, type SteadyLoad, type Surge, snatch } from "./snatch.ts";
import { type Division, divide, type NotSnubbed, type Snubbed, type Snubber, withSnubber } from "./snubber.ts";

export interface Tried {
  readonly kind: "tried";
  readonly snubbed: Snubbed;
  readonly snatch: Snatch;
  /** Rope and loop at the steady load and at the peak. */
  readonly atMean: Division;
  readonly atPeak: Division;
  readonly loads: SnubberLoads;
  readonly verdict: Verdict;
  readonly heat: RopeHeat;
  /** Length of new rope to cut, m, that works in to the length asked for (each leg of a bridle the first's). */
  readonly cutNew: { readonly value: number; readonly u: number };
}

/** The horizontal steady load is that of the rig as it is, and stays: wind and current do not mind the snubber. */
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
  const lengths = snubbed.bridle?.legs ?? [snubbed.reach];
  const stored = lengths.reduce(
    (sum, length, i) => sum + length * (stretched(rope, atPeak.legs[i]!) - stretched(rope, atMean.legs[i]!)),
    0,
  );
  const all = lengths.reduce((sum, length) => sum + length, 0);
  const worked = factOf(facts.rope.workedIn, rope.fibre);
  return {
    kind: "tried",
    snubbed,
    snatch: found,
    atMean,
    atPeak,
    loads,
    verdict: judge(loads, limits),
    heat: ropeHeat(rope, all, stored, period),
    cutNew: {
      value: snubber.length / (1 + worked.value),
      u: (snubber.length * worked.u) / (1 + worked.value) ** 2,
    },
  };
}

/** Energy per length of a rope under a load, J/m. */
function stretched(rope: Snubbed["rope"], load: number): number {
  return energyAt(rope.stretch, strainUnder(rope.stretch, load));
}
