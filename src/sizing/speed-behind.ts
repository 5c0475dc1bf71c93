/** `snatch` read backwards: the speed at which a boat must have surged for the peak that a load cell read. */
import { brent } from "../numeric/index.ts";
import { type NoEquilibrium, type Rig, settle } from "../rode/index.ts";
import { type InputsU, snatchCertainty } from "./certainty.ts";
import { giveBetween } from "./give.ts";
import { type SteadyLoad, surgePeak } from "./snatch.ts";

/** The speed of the boat behind a peak load that was read. */
export interface SpeedBehind {
  readonly kind: "speed";
  /** m/s, and its standard uncertainty; null where the inputs cannot be moved. */
  readonly value: number;
  readonly u: number | null;
  /** The same by energy alone, m/s. */
  readonly byEnergy: number;
}

/** The peak is no higher than the steady load, or higher than any speed looked at makes it. */
export interface NoSpeed {
  readonly kind: "noSpeed";
  readonly why: "notAboveMean" | "tooHigh";
}

/** Speeds looked at, m/s. */
const SLOWEST = 0.005;
const FASTEST = 10;
/** A peak is good to a thousandth: the speed is closed no finer. */
const CLOSE = 1e-4;

/** @param peak tension at the bow, N, with its own standard uncertainty; @param mass kg with added water */
export function speedBehind(
  rig: Rig,
  load: SteadyLoad,
  peak: { readonly value: number; readonly u: number },
  mass: number,
  u: InputsU,
): SpeedBehind | NoSpeed | NoEquilibrium {
  const mean = settle(rig, load);
  if (mean.kind === "noEquilibrium") return mean;
  if (!(peak.value > mean.bow.tension * (1 + 1e-6))) return { kind: "noSpeed", why: "notAboveMean" };
  const ridden = (speed: number): number => {
    const found = surgePeak(rig, mean.horizontal, { kind: "speed", speed, mass });
    return found?.kind === "peak" ? found.bow : Number.POSITIVE_INFINITY;
  };
  let [low, high] = [SLOWEST, 2 * SLOWEST];
  while (high < FASTEST && ridden(high) < peak.value) [low, high] = [high, 2 * high];
  if (!(ridden(high) >= peak.value)) return { kind: "noSpeed", why: "tooHigh" };
  // In the logarithm, where a peak too high to be run counts as very high.
  const miss = (logSpeed: number): number => Math.log(Math.min(ridden(Math.exp(logSpeed)), 1e12) / peak.value);
  const value = Math.exp(brent(miss, Math.log(low), Math.log(high), CLOSE));
  const slope = (ridden(1.05 * value) - ridden(0.95 * value)) / (0.1 * value);
  const own = snatchCertainty(rig, load, { kind: "speed", speed: value, mass }, { ...u, speed: 0 }, peak.value);
  const around = own === null ? 0 : own.u;
  return {
    kind: "speed",
    value,
    u: around === null || !(slope > 0) ? null : Math.hypot(around, peak.u) / slope,
    byEnergy: byEnergy(rig, mean.horizontal, peak.value, mass),
  };
}

/** ½ m v² = what the rode at rest takes up to that load at the bow. */
function byEnergy(rig: Rig, horizontal: number, peak: number, mass: number): number {
  const at = settle(rig, { at: "bow", newtons: peak });
  if (at.kind === "noEquilibrium") return Number.NaN;
  const give = giveBetween(rig, horizontal, at.horizontal);
  return give.kind === "give" ? Math.sqrt((2 * (give.work - horizontal * give.movement)) / mass) : Number.NaN;
}
