/** What a user will not let be passed, and which of it a snubber passes. */
import { facts } from "./facts.gen.ts";
import type { Rope } from "./rope-choice.ts";

/** Limits a snubber is held against; one left out is not looked at. */
export interface SnubberLimits {
  /** Load at the bow at the peak, N. */
  readonly peak?: number;
  /** Share of the rope's strength as it is used: wet, and at its ends. */
  readonly ropeShare?: number;
  /** Share of the working load limits of chain, shackles and swivels that state one. */
  readonly workingLoadShare?: number;
  /** Working load limits of hook and of one cleat, N. */
  readonly hook?: number;
  readonly cleat?: number;
  /** Angle of the pull at the anchor above the bottom, at the peak, rad. */
  readonly anchorAngle?: number;
  /** Largest share of the peak that the loop of chain may take: past it the snubber has bottomed out. */
  readonly loopShare?: number;
}

/** What may be wrong with a snubber; the place in this list is its code, and one more than the place its bit. */
export const REASONS = [
  "within",
  "unriggable",
  "notTaken",
  "peak",
  "rope",
  "gear",
  "hook",
  "cleat",
  "anchorAngle",
  "loop",
] as const;
/** Why a snubber falls short. */
export type Reason = (typeof REASONS)[number];

/** What a snubber comes to at the peak. */
export interface SnubberLoads {
  /** At the bow, N. */
  readonly peak: number;
  readonly ropeShare: number;
  /** Largest share of a working load limit among the parts that state one; 0 without. */
  readonly workingLoadShare: number;
  /** N */
  readonly hook: number;
  readonly cleat: number;
  /** rad, above the bottom */
  readonly anchorAngle: number;
  readonly loopShare: number;
}

/** Codes in the order of the ratios below, from `peak` on. */
const FIRST = REASONS.indexOf("peak");

/** Loads held against limits, with every reason that is past. */
export interface Verdict {
  /** The limit passed by most, or "within". */
  readonly reason: Reason;
  /** Bit n − 1 is set where the limit REASONS[n] is passed. */
  readonly mask: number;
}

/** Holds loads against limits. */
export function judge(loads: SnubberLoads, limits: SnubberLimits): Verdict {
  const over = (value: number, limit: number | undefined): number => {
    if (limit === undefined) return 0;
    return limit > 0 ? value / limit : value > 1e-9 ? Number.POSITIVE_INFINITY : 0;
  };
  let mask = 0;
  let most = 1;
  let code = 0;
  const hold = (i: number, ratio: number): void => {
    if (!(ratio > 1)) return;
    mask |= 1 << (FIRST + i - 1);
    if (ratio > most) {
      most = ratio;
      code = FIRST + i;
    }
  };
  hold(0, over(loads.peak, limits.peak));
  hold(1, over(loads.ropeShare, limits.ropeShare));
  hold(2, over(loads.workingLoadShare, limits.workingLoadShare));
  hold(3, over(loads.hook, limits.hook));
  hold(4, over(loads.cleat, limits.cleat));
  hold(5, over(loads.anchorAngle, limits.anchorAngle));
  hold(6, over(loads.loopShare, limits.loopShare));
  return { reason: REASONS[code]!, mask };
}

/**
 * Every limit that is passed, in the order of REASONS.
 * @param mask of a `Verdict`: bit n − 1 for the limit REASONS[n]
 */
export function reasonsOf(mask: number): readonly Reason[] {
  return REASONS.filter((_, code) => code > 0 && (mask & (1 << (code - 1))) !== 0);
}

/** How a rope is ended: it takes strength away. */
export type RopeEnds = keyof typeof facts.rope.ends;

/** Strength of a rope as it is used, N: wet, and with what its ends leave of it. */
export function strengthInUse(rope: Rope, ends: RopeEnds): number {
  return rope.wetBreakingLoad * facts.rope.ends[ends].value;
}
