/**
 * The snatch of a boat that surges away from where a steady load holds it, by energy on the rode's own load–movement curve:
 *
 *     ½ m v² = ∫ (H − H₀) dx        at a speed v away from the anchor, the steady force H₀ pushing on all the while,
 *     x = x₀ + d                    over a distance d that the sea makes whatever the rode does.
 *
 * The rode is taken as a spring without mass or drag of its own, loaded along its curve as `settle` has it; nothing is lost on
 * the way up. m is the boat's mass with the water that surges with it.
 */
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

export type Surge =
  /** m/s away from the anchor at the place where the steady load holds the boat; kg with added water. */
  | { readonly kind: "speed"; readonly speed: number; readonly mass: number }
  /** m beyond the place where the steady load holds the boat. */
  | { readonly kind: "distance"; readonly distance: number };

/** A steady load that holds the boat: at the anchor, at the bow, or its horizontal part. */
export type SteadyLoad = Extract<Pull, { newtons: number }>;

export interface Snatch {
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

/** The rode never takes that energy, or never gives that far: it would part first. */
export interface NotTaken {
  readonly kind: "notTaken";
  readonly mean: Settled;
}

/** @returns the peak; forces to 1e-8 relative in still water (tested against an integration of the boat's motion) */
export function snatch(rig: Rig, load: SteadyLoad, surge: Surge): Snatch | NotTaken | NoEquilibrium {
  const mean = settle(rig, load);
  if (mean.kind === "noEquilibrium") return mean;
  const H0 = mean.horizontal;
  const horizontal = snatchForce(rig, H0, surge);
  if (!Number.isFinite(horizontal)) return { kind: "notTaken", mean };
  const traced = settleTraced(rig, { at: "horizontal", newtons: horizontal });
  if (!("settled" in traced)) return { kind: "notTaken", mean };
  const give = giveBetween(rig, H0, horizontal);
  if (give.kind === "noEquilibrium") return give;
  const pushed = H0 * give.movement;
  return {
    kind: "snatch",
    mean,
    peak: traced.settled,
    surging: surge.kind === "speed" ? 0.5 * surge.mass * surge.speed ** 2 : give.work - pushed,
    pushed,
    give,
    loads: partLoads(traced),
  };
}

/** Horizontal force at the bow at the peak, N; Infinity when the rode never takes the surge. */
export function snatchForce(rig: Rig, meanHorizontal: number, surge: Surge): number {
  const spring = springOf(rig);
  return surge.kind === "speed"
    ? spring.forceTaking(0.5 * surge.mass * surge.speed ** 2, meanHorizontal)
    : spring.forceMoved(surge.distance, meanHorizontal);
}
