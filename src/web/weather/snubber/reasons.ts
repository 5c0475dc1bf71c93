/** What the limits of a snubber are called, and how each side of the map is told apart without colour. */

import type { Dimension } from "../../../quantity/index.ts";
import { DEGREE } from "../../../quantity/index.ts";
import { REASONS, type Reason, type SnubberLimits } from "../../../sizing/index.ts";
import { type SnubberReasonWords, snubberReasonWords } from "../../../words/index.ts";

export interface ReasonShown extends SnubberReasonWords {
  /** Strokes of its pattern in a tile of 10 by 10. */
  readonly pattern: string;
}

const patterns: Readonly<Record<Reason, string>> = {
  within: "",
  unriggable: "M0 0L10 10M10 0L0 10M5 0V10",
  notTaken: "M0 3H10M0 8H10M3 0V10M8 0V10",
  peak: "M-2 2L2-2M0 10L10 0M8 12L12 8",
  rope: "M-2 8L2 12M0 0L10 10M8-2L12 2",
  gear: "M0 5H10",
  hook: "M4 5a1 1 0 1 0 2 0a1 1 0 1 0-2 0",
  cleat: "M5 0V10",
  anchorAngle: "M0 10L5 2L10 10",
  loop: "M0 7Q5 0 10 7",
};

export const reasonShown = (reason: Reason): ReasonShown => ({
  ...snubberReasonWords[reason],
  pattern: patterns[reason],
});
export const reasonAt = (code: number): Reason => REASONS[code] ?? REASONS[0];

/** A limit of the place: its words, its dimension, where its slider runs. */
export interface LimitShown {
  readonly name: keyof SnubberLimits;
  readonly label: string;
  readonly field: string;
  readonly dimension: Dimension;
  readonly usualUnit?: string;
  readonly least: number;
  readonly most: number;
  readonly usual: number;
}

export const limitsShown: readonly LimitShown[] = [
  { name: "peak", label: "Peak at the bow", field: "load", dimension: "force", least: 500, most: 40_000, usual: 5000 },
  {
    name: "ropeShare",
    label: "Rope, share of its strength in use",
    field: "share",
    dimension: "ratio",
    usualUnit: "%",
    least: 0.02,
    most: 1,
    usual: 0.2,
  },
  {
    name: "workingLoadShare",
    label: "Chain and shackles, share of working load",
    field: "share",
    dimension: "ratio",
    usualUnit: "%",
    least: 0.1,
    most: 2,
    usual: 1,
  },
  {
    name: "hook",
    label: "Working load of the hook",
    field: "load",
    dimension: "force",
    least: 500,
    most: 40_000,
    usual: 8000,
  },
  {
    name: "cleat",
    label: "Working load of a cleat",
    field: "load",
    dimension: "force",
    least: 500,
    most: 40_000,
    usual: 5000,
  },
  {
    name: "anchorAngle",
    label: "Pull above the bottom at the anchor",
    field: "angle",
    dimension: "angle",
    least: 0.5 * DEGREE,
    most: 30 * DEGREE,
    usual: 8 * DEGREE,
  },
  {
    name: "loopShare",
    label: "Loop of chain, share of the peak",
    field: "share",
    dimension: "ratio",
    usualUnit: "%",
    least: 0.01,
    most: 1,
    usual: 0.1,
  },
];
