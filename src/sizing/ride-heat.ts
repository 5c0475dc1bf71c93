/**
 * Heat that the ropes of a ride turn their work into: every stretch and slackening of a rope, as rainflow pairs them, gives
 * back less than was put in,
 *
 *     Q = Σ count · ψ · L (U(T_high) − U(T_low))        U: energy per length of its curve, ψ: loss share (heat.ts)
 *
 * Half cycles count half. What a loop of chain beside a snubber takes is in the line's own curve and warms no rope: its share
 * is small until the snubber has bottomed out.
 */
import { strainUnder } from "../gear/index.ts";
import type { Ride } from "../motion/index.ts";
import type { LinePart } from "../rode/index.ts";
import { rainflow } from "../statistics/index.ts";
import { facts } from "./facts.gen.ts";
import { factOf } from "./heat.ts";
import { energyAt } from "./law.ts";

/** What cycles of a ride leave in one rope as heat. */
export interface RopeWork {
  /** Part of the rode, 0 first. */
  readonly part: number;
  readonly name: string;
  /** J over the time ridden, and its standard uncertainty: that of the loss share. */
  readonly heat: { readonly value: number; readonly u: number };
  /** W on average. */
  readonly power: number;
}

/** Cycles smaller than this share of a rope's highest load are not looked at. */
const DEAD_BAND = 0.01;

/** @returns the ropes of a ride, from the anchor to the bow; none where the rode has none */
export function rideHeat(ride: Ride): readonly RopeWork[] {
  const { ropeLoads, time } = ride.series();
  const seconds = time.length > 1 ? time[time.length - 1]! - time[0]! : 0;
  return ropeLoads.map(({ part, load }): RopeWork => {
    const line = ride.question.rig.rode[part] as LinePart;
    const stored = (newtons: number): number =>
      line.length * energyAt(line.stretch, strainUnder(line.stretch, Math.max(0, newtons)));
    const highest = load.reduce((most, one) => Math.max(most, one), 0);
    let worked = 0;
    for (const { range, mean, count } of rainflow(load, DEAD_BAND * highest))
      worked += count * (stored(mean + range / 2) - stored(mean - range / 2));
    const loss = factOf(facts.rope.loss, fibreOf(line));
    const value = loss.value * worked;
    return {
      part,
      name: line.name,
      heat: { value, u: loss.u * worked },
      power: seconds > 0 ? value / seconds : 0,
    };
  });
}

/** The fibre a line is named for; polyamide, which most anchor ropes are, where its name says none. */
const fibreOf = ({ name }: LinePart): string =>
  Object.keys(facts.rope.loss).find((fibre) => name.includes(fibre)) ?? "polyamide";
