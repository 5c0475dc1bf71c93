import type { CompiledRode } from "./compile.ts";
import type { Near } from "./contact/close-legs.ts";
import type { RodeIntegrals } from "./integrals.ts";
import type { Settled } from "./model.ts";
import type { Trace } from "./trace.ts";

/** An equilibrium together with the record of its pieces, for drawing it. */
export interface SettledTrace {
  readonly settled: Settled;
  readonly rode: CompiledRode;
  readonly trace: Trace;
  readonly integrals: RodeIntegrals;
  /** The record runs from the upper end, which lies lower than the anchor, back to it: heights and lengths from there. */
  readonly turned?: true;
  /** Lift of the anchor: above 0 it is off the bottom's slope by this vertical force, N; below 0 rode rests there. */
  readonly excess: number;
  /** Of a rode with floats or in a current: how it lies, from where one much like it is found soon. */
  readonly near?: Near;
}
