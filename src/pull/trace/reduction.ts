import type { CycleClass } from "../../statistics/index.ts";
import type { AnchorPath } from "../anchor/index.ts";
import type { Drag, Easing } from "./drags.ts";
import type { FirstMovement } from "./first-movement.ts";
import type { HeldLoad, ReadAt } from "./held.ts";
import type { LowPass } from "./low-pass.ts";
import type { CorrectedMarks, Correction, Mark } from "./marks.ts";
import type { Above, Peak } from "./peaks.ts";
import type { Plateau } from "./plateaus.ts";
import type { Reversal, SetDistance } from "./set-and-reset.ts";
import type { SettingsChange, TraceSettings } from "./settings.ts";
import type { MatchedStep, PlannedStep } from "./steps.ts";
import type { Sustained } from "./sustained.ts";
import type { Measured, Span } from "./trace.ts";
import type { WayAtLoad } from "./way.ts";
import type { Zero } from "./zero.ts";

/** What is asked of a pull's log besides the log itself. */
export interface TraceQuestion {
  readonly readAt: ReadAt;
  readonly settings?: SettingsChange;
  /** Slack stretches that a person pointed at, s. */
  readonly slack?: readonly Span[];
  /** Stretches whose readings are believed though they stand alone, s. */
  readonly believed?: readonly Span[];
  /** The protocol. */
  readonly steps?: readonly PlannedStep[];
  /** How far the rode lets the boat go back at a load, m: from `ladder`. */
  readonly give?: (newtons: number) => number;
  /** Whether load and track are asked how far the track's clock is off; applied: and it is added to the track's times. */
  readonly clock?: "told" | "applied";
  /** What people changed on the automatic marks; the held load is that of the marks as corrected. */
  readonly corrections?: readonly Correction[];
}

/** The clock of the track by its own signals. */
export type TrackClock = { readonly applied: boolean } & (
  | {
      readonly kind: "told";
      readonly offset: Measured;
      /** It stands clear of none. */
      readonly off: boolean;
    }
  | { readonly kind: "notTold" }
);

/** A pull reduced from its log. */
export interface TraceReduction {
  readonly readAt: ReadAt;
  readonly settings: TraceSettings;
  /** The log itself. */
  readonly log: {
    readonly from: number;
    readonly to: number;
    readonly readings: number;
    /** Rows without a usable reading. */
    readonly dropped: number;
    /** Usual time between readings, s. */
    readonly interval: number;
    readonly gaps: readonly Span[];
    /** Standard deviation of one reading about its neighbours, N. */
    readonly noise: number;
  };
  readonly zero: Zero;
  readonly filter: LowPass & {
    /** Share of its height that a steady peak of each length keeps. */
    readonly keeps: readonly { readonly seconds: number; readonly share: number }[];
    readonly grain: number;
  };
  readonly plateaus: readonly Plateau[];
  readonly peaks: readonly Peak[];
  /** All peaks of that prominence; `peaks` lists the highest. */
  readonly peakCount: number;
  /** The highest loads kept for 1, 3, 5, 10, 30 and 60 s, as far as the log is long enough. */
  readonly sustained: readonly Sustained[];
  readonly above: readonly Above[];
  readonly cycles: { readonly deadBand: number; readonly total: number; readonly classes: readonly CycleClass[] };
  /** Where the anchor was, by load and track together; null without a track or where it does not show the pull. */
  readonly path: AnchorPath | null;
  /** What is to be added to the track's times, as load and track tell it, and whether it was; null where nobody asked. */
  readonly clock: TrackClock | null;
  readonly drags: readonly Drag[];
  readonly easings: readonly Easing[];
  /** When the anchor first moved. */
  readonly first: FirstMovement;
  readonly set: SetDistance;
  /** Load against the anchor's movement; empty without a track. */
  readonly way: readonly WayAtLoad[];
  readonly reversals: readonly Reversal[];
  readonly protocol: { readonly steps: readonly MatchedStep[]; readonly unplanned: readonly string[] } | null;
  /** Automatic marks, as found. */
  readonly marks: readonly Mark[];
  /** The marks as they stand after corrections. */
  readonly corrected: CorrectedMarks;
  readonly held: HeldLoad;
  /** The load with its zero taken off, one value for each usable reading: for drawing. */
  readonly series: { readonly time: Float64Array; readonly load: Float64Array };
}
