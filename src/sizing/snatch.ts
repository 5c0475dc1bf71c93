/**
 * The snatch of a boat that surges away from where a steady load holds her, by a short run of her and the rode in time
 * (motion/surge-run.ts): the rode's own weight in motion, its drag through the water, and what it rests on are in it.
 *
 * Beside it stands the answer by energy, on the rode's own load–movement curve:
 *
 *     ½ m v² = ∫ (H − H₀) dx        at a speed v away from the anchor, the steady force H₀ pushing on all the while,
 *     x = x₀ + d                    over a distance d that the sea makes whatever the rode does,
 *
 * which takes the rode as a spring without mass or drag of its own, loaded along its curve as `settle` has it, nothing lost
 * on the way up. For chain, dragged sideways through the water, it says up to three times too much where a boat runs into
 * her rode, and too little where the sea moves her whatever the rode does. m is the boat's mass with the water that surges
 * with it.
 */
import { type RunOptions, runSurge, type SurgePeak, type SurgeRun } from "../motion/index.ts";
import {
  type NoEquilibrium,
  type Pull,
  partLoads,
  type Rig,
  type Settled,
  settle,
  settleTraced,
} from "../rode/index.ts";
import { type Give, giveBetween } from "./give.ts";
import { springOf } from "./spring.ts";

/** What a rode has to take up in a snatch. */
export type Surge =
  /** m/s away from the anchor at the place where the steady load holds the boat; kg with added water. */
  | { readonly kind: "speed"; readonly speed: number; readonly mass: number }
  /** m to either side of the place where the steady load holds the boat; s of a stroke there and back, 4 where left out. */
  | { readonly kind: "distance"; readonly distance: number; readonly period?: number }
  /** The largest surge of a sea, which the rode may resist: what moves is the boat's mass, and no more energy than hers. */
  | WaveSurge;

/** The largest surge of a sea, with that of the free boat. */
export type WaveSurge = Extract<SurgeRun, { kind: "waves" }> & {
  /** Largest surge of the free boat in a thousand waves, m: what the answer by energy goes by. */
  readonly largest: number;
};

/** Period of a stroke of an imposed motion of which none is stated, s: of the seas boats anchor in. Assumed. */
export const USUAL_STROKE = 4;

/** A steady load that holds the boat: at the anchor, at the bow, or its horizontal part. */
export type SteadyLoad = Extract<Pull, { newtons: number }>;

/** A rode's answer to a surge by energy alone. */
export interface EnergySnatch {
  readonly kind: "snatch";
  readonly mean: Settled;
  readonly peak: Settled;
  /** Energy the boat brings, J: ½ m v²; over a stated distance, what the rode takes beyond the steady force. */
  readonly surging: number;
  /** Work of the steady force over the movement, J. */
  readonly pushed: number;
  /** Give from the steady load to the peak, by part. */
  readonly give: Give;
  /** Highest tension in each part at the peak, N. */
  readonly loads: Float64Array;
}

/** A snatch run in time, with the answer by energy beside it. */
export interface Snatch extends EnergySnatch {
  /** The run in time: highest loads, N, angle, movement. `peak`, `give` and `loads` are the rode at rest under its load at the bow. */
  readonly ridden: SurgePeak;
  /** Tension at the bow by energy alone, N; null where the rode never takes that energy at rest. */
  readonly byEnergy: number | null;
}

/** The rode never takes that energy, or never gives that far: it would part first. */
export interface NotTaken {
  readonly kind: "notTaken";
  readonly mean: Settled;
}

/** @returns the peak, by a short run in time; loads to about a hundredth of the model (elements and step halved, a test) */
export function snatch(rig: Rig, load: SteadyLoad, surge: Surge): Snatch | NotTaken | NoEquilibrium {
  const mean = settle(rig, load);
  if (mean.kind === "noEquilibrium") return mean;
  const ridden = surgePeak(rig, mean.horizontal, surge);
  if (ridden === null) return { kind: "notTaken", mean };
  if (ridden.kind === "noEquilibrium") return ridden;
  const under = stateUnder(rig, mean, surge, Math.max(ridden.bow, mean.bow.tension), "bow");
  if (under.kind !== "snatch") return under;
  const horizontal = snatchForce(rig, mean.horizontal, surge);
  const still = Number.isFinite(horizontal) ? settle(rig, { at: "horizontal", newtons: horizontal }) : null;
  return { ...under, ridden, byEnergy: still?.kind === "settled" ? still.bow.tension : null };
}

/** Fewer elements and longer steps, for what is compared and not told: differences, and the shares of a map. */
export const COARSE: RunOptions = { elements: 10, step: 0.05 };

/** The run in time of a surge under a steady horizontal force, N; null where the motion has no next step. */
export function surgePeak(
  rig: Rig,
  horizontal: number,
  surge: Surge,
  options?: RunOptions,
): SurgePeak | NoEquilibrium | null {
  return runSurge(rig, horizontal, runOf(surge), options);
}

function runOf(surge: Surge): SurgeRun {
  return surge.kind === "distance" ? { ...surge, period: surge.period ?? USUAL_STROKE } : surge;
}

/** @returns the peak by energy; forces to 1e-8 relative in still water (tested against an integration of the boat's motion) */
export function snatchByEnergy(rig: Rig, load: SteadyLoad, surge: Surge): EnergySnatch | NotTaken | NoEquilibrium {
  const mean = settle(rig, load);
  if (mean.kind === "noEquilibrium") return mean;
  const horizontal = snatchForce(rig, mean.horizontal, surge);
  return Number.isFinite(horizontal)
    ? stateUnder(rig, mean, surge, horizontal, "horizontal")
    : { kind: "notTaken", mean };
}

function stateUnder(
  rig: Rig,
  mean: Settled,
  surge: Surge,
  newtons: number,
  at: "bow" | "horizontal",
): EnergySnatch | NotTaken | NoEquilibrium {
  const traced = settleTraced(rig, { at, newtons });
  if (!("settled" in traced)) return { kind: "notTaken", mean };
  const peak = traced.settled;
  const give = giveBetween(rig, mean.horizontal, peak.horizontal);
  if (give.kind === "noEquilibrium") return give;
  const pushed = mean.horizontal * give.movement;
  return {
    kind: "snatch",
    mean,
    peak,
    surging: surge.kind === "distance" ? give.work - pushed : energyOf(surge),
    pushed,
    give,
    loads: partLoads(traced),
  };
}

/** What the boat brings, J. */
export function energyOf(surge: Exclude<Surge, { kind: "distance" }>): number {
  const speed = surge.kind === "speed" ? surge.speed : (2 * Math.PI * surge.largest) / surge.period;
  return 0.5 * surge.mass * speed ** 2;
}

/**
 * Horizontal force at the bow at the peak by energy, N; Infinity when the rode never takes the surge. In waves the least of
 * the two it can be: the free boat's travel, and the energy she has.
 */
export function snatchForce(rig: Rig, meanHorizontal: number, surge: Surge): number {
  const spring = springOf(rig);
  if (surge.kind === "distance") return spring.forceMoved(surge.distance, meanHorizontal);
  const taking = spring.forceTaking(energyOf(surge), meanHorizontal);
  return surge.kind === "speed" ? taking : Math.min(taking, spring.forceMoved(surge.largest, meanHorizontal));
}
