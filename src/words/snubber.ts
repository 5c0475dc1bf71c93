/** Why a snubber is within or past its limits. */
import type { NotSnubbed, Reason } from "../sizing/index.ts";

/** A reason against a snubber, short and whole. */
export interface SnubberReasonWords {
  /** On a map. */
  readonly short: string;
  /** In a sentence: "past …" or a clause of its own. */
  readonly long: string;
}

/** Reasons against a snubber, in words. */
export const snubberReasonWords: Readonly<Record<Reason, SnubberReasonWords>> = {
  within: { short: "within all limits", long: "within all limits" },
  unriggable: { short: "cannot be rigged", long: "cannot be rigged, or finds no equilibrium" },
  notTaken: { short: "surge not taken", long: "the surge is taken at no load: rope or rode would part first" },
  peak: { short: "peak too high", long: "peak load above its limit" },
  rope: { short: "rope too weak", long: "rope beyond its share of strength" },
  gear: { short: "chain or shackle too weak", long: "chain, shackle or swivel beyond its working load limit" },
  hook: { short: "hook too weak", long: "hook beyond its working load limit" },
  cleat: { short: "cleat too weak", long: "cleat beyond its working load limit" },
  anchorAngle: { short: "anchor lifted", long: "anchor pulled steeper than its limit" },
  loop: { short: "loop drawn straight", long: "the loop of chain takes more than its share" },
};

/** Why a snubber cannot be rigged, in words. */
export const cannotBeRigged: Readonly<Record<NotSnubbed["why"], string>> = {
  noChain: "the rode has no line to hook on to",
  tooLong: "rope and loop take more of the rode than there is",
  legsTooShort: "the legs do not meet between the cleats: longer ones are expected",
};
