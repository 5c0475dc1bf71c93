// Pulls as columns of numbers: logarithms of their loads, and what kind of thing is known of each.
import { ABOVE, BELOW, BETWEEN, EXACT } from "./law.ts";
import type { Hold } from "./pull.ts";

/** Pulls as columns of numbers: bounds of the load, angle, mass, groups. */
export interface Observations {
  readonly length: number;
  /** EXACT, ABOVE, BELOW or BETWEEN. */
  readonly kind: Uint8Array;
  /** ln of the load in newtons: the exact one, the one held. */
  readonly low: Float64Array;
  /** ln of the load by which it had given way; the exact one again. */
  readonly high: Float64Array;
}

/** @param holds loads above zero, each (a pull that held nothing and gave way at nothing known says nothing). */
export function observations(holds: readonly Hold[]): Observations {
  const n = holds.length;
  const out = { length: n, kind: new Uint8Array(n), low: new Float64Array(n), high: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const hold = holds[i]!;
    switch (hold.kind) {
      case "gaveWay":
        out.kind[i] = EXACT;
        out.low[i] = Math.log(hold.newtons);
        out.high[i] = out.low[i]!;
        break;
      case "heldTo":
        out.kind[i] = ABOVE;
        out.low[i] = Math.log(hold.newtons);
        break;
      case "neverHeld":
        out.kind[i] = BELOW;
        out.high[i] = Math.log(hold.newtons);
        break;
      case "between":
        out.kind[i] = BETWEEN;
        out.low[i] = Math.log(hold.heldTo);
        out.high[i] = Math.log(hold.gaveWayBy);
        break;
    }
  }
  return out;
}
